//! What the tool can say of a line in a number, and which of these numbers a limit bounds: the one table of figures.
//!
//! What a figure *is* stands here, below the sheet; how it is read stands beside each typed result as its
//! [`Rows`].

mod figure;
mod range;
mod rows;
mod table;

pub use figure::{Figure, LimitWord, LineKind, Sense};
pub use range::*;
pub use rows::{Row, Rows};
pub use table::*;
