//! Lines made without a sheet, and what every line is held against.

mod check;
mod elements;
mod ends;
mod flaw;
mod lane;
mod path;
mod values;

pub use flaw::{Flaw, Flaws, Place};
pub use lane::LaneBuilder;
pub use path::PathBuilder;
