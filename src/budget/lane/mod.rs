//! A lane under its limits.

mod below;
mod circuit;
mod figures;
mod scale;
mod size;
mod timed;

pub use below::BelowNyquist;
pub(crate) use figures::worst_eye_penalty;
pub use figures::{LaneChanges, LaneFigures, TimeChanges, Unlike};
pub use scale::usual_capacitance;
pub use size::{Figures, LaneOutcome, allowed_capacitances, size_lane};
pub(super) use size::{judge_lane, lane_headroom};
