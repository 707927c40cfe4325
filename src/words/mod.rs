//! Numbers, limits and verdicts of a result in words.

pub(crate) mod about;
pub(crate) mod discharge;
pub(crate) mod limits;
pub(crate) mod line;
pub(crate) mod named;
pub(crate) mod sentences;
pub(crate) mod set;
pub(crate) mod tolerances;
pub(crate) mod value;
pub(crate) mod verdict;

pub use limits::label;
