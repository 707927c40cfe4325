//! The lane sheet: from text to a tree whose every node knows its place.
//!
//! [`parse`] reads one file; [`gather`] finds the files it includes; [`schema`] is the one table of words, and
//! [`read`] holds a line against it. What the words mean is the business of [`crate::model`].

pub mod ast;
mod edit;
pub mod entries;
mod gather;
mod grammar;
mod headers;
mod pieces;
mod quantity;
pub mod read;
pub mod schema;
mod structure;
mod trade;
pub mod values;

pub use edit::{Edit, How, lone_quantity};
pub use gather::{Gathered, LoadFault, Loaded, gather};
pub use pieces::{parse, parse_by};
pub(crate) use trade::meant;

/// At most so many errors are reported.
pub const MAX_ERRORS: usize = 50;

/// The largest file that is read, in bytes.
pub const MAX_BYTES: usize = 16 << 20;
