//! What several test modules share.

pub(crate) mod cascade;
pub(crate) mod lanes;
pub(crate) mod paths;
pub(crate) mod random;
