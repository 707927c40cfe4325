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
mod limits;
mod mask;
mod outcome;
mod timed;

pub use bus::{BusJudged, BusMetrics, BusOutcome, RISE_LEVELS, bus_metrics, largest_total, rise_factor, size_bus};
pub use closed_form::{Allowed, at_least, at_most, quadratic};
pub use conversion::conversion_allowed;
pub use fault::{Fault, not_computable};
pub use feed::{FeedJudged, FeedOutcome, Retune, size_feed};
pub use inequality::Inequality;
pub use interval::{Interval, IntervalSet};
pub use limits::{Headroom, LimitOutcome};
pub use outcome::{
    Budget, Figures, FittedOutcome, Judged, LaneOutcome, TimeChanges, Unlike, Verdict, allowed_capacitances, size_lane,
};
