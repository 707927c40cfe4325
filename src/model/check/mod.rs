//! What every line is held against, however it was made.

mod elements;
mod ends;
mod flaw;
mod line;
mod stated;
mod values;

pub use flaw::{Flaw, Flaws, Place};
