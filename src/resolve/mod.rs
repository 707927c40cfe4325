//! From what a sheet states to what the circuit has: lines and vias from their geometry, loss constants from stated
//! losses, a part's capacitance at its worst bias. Pure functions.

mod debye;
mod fitting;
pub mod geometry;
mod junction;
mod laminate;
mod loss;

pub use debye::{Debye, DebyeError, wideband};
pub use junction::{DEFAULT_GRADING, JunctionOutcome, worst_case};
pub use laminate::Laminate;
pub use loss::{LineFault, LossPoint, dielectric_attenuation, resolve_loss};
