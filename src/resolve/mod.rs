//! From what a sheet states to what the circuit has: lines and vias from their geometry, loss constants from stated
//! losses, a part's capacitance at its worst bias. Pure functions.

mod debye;
mod fitting;
mod flaw;
pub mod geometry;
mod junction;
mod laminate;
mod least;
mod line;
mod loss;
mod lumped;
mod path;
mod protector;
mod remark;
mod set;
mod surroundings;
mod trace;
mod via;

pub use debye::{Debye, DebyeError, wideband};
pub use flaw::{Flaw, MAX_LOSS, Place};
pub use junction::{DEFAULT_GRADING, JunctionOutcome, worst_case};
pub use line::line;
pub use loss::{LineFault, LossPoint, dielectric_attenuation, resolve_loss};
pub use lumped::lumped_angle;
pub use path::{element, path};
pub use protector::{guard, part_on_line, protector, settle_stubs, within_rails};
pub use remark::{Remark, Resolved};
pub use set::{SetFault, least_place, place_at_protector, traces_at_protector};
pub use surroundings::{DEFAULT_PERMITTIVITY, DISCHARGE_FREQUENCY, Surroundings};
pub use via::via;
