//! How much capacitance a lane or a feed tolerates.
//!
//! Each limit gives a set of allowed capacitances: at one frequency exactly, in closed form; over a mask by intersecting
//! the exact sets of a refined grid. The line's set is their intersection.

mod bus;
mod closed_form;
mod conversion;
mod fault;
mod feed;
mod grid;
mod inequality;
mod interval;
mod judged;
mod lane;
mod left;
mod line;
mod modulus;
mod over_mask;
mod sized;
mod verdict;

pub use bus::{BusFigures, BusOutcome, RISE_LEVELS, bounded, bus_figures, largest_total, rise_factor, size_bus};
pub use closed_form::{Allowed, at_least, at_most, quadratic};
pub use conversion::conversion_allowed;
pub use fault::{Fault, not_computable};
pub use feed::{FeedChanges, FeedFigures, FeedOutcome, Retune, size_feed};
pub use inequality::{Bound, Inequality};
pub use interval::{Interval, IntervalSet, intersect};
pub use judged::{Headroom, LimitOutcome};
pub(crate) use lane::worst_eye_penalty;
pub use lane::{
    BelowNyquist, Figures, LaneChanges, LaneFigures, LaneOutcome, TimeChanges, Unlike, allowed_capacitances, size_lane,
    usual_capacitance,
};
pub use left::{Budget, Left};
pub use line::{allowed_by_line, budget_of, judge_line, line_headroom};
pub use modulus::{Measure, Modulus};
pub use sized::{At, Bare, Circuit, Fitted, Outcome, allowed_by_all, size};
pub use verdict::Verdict;
