//! What every line is held against, however it was made.

mod chip;
mod contradiction;
mod elements;
mod ends;
mod flaw;
mod line;
mod stated;
mod strength;
mod values;

pub use chip::{CHIP_CURE, chip_fault};
pub use contradiction::BELOW_GROUND;
pub use ends::PathWords;
pub use flaw::{Flaw, Flaws, Place};
pub use line::PARTS_CURE;
pub use strength::CurveFlaw;
