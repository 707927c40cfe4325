//! Results as plain public data with units, and their JSON and CSV.
//!
//! Field names are the keys of the JSON output. SI units; `None` is what does not apply.

mod cautions;
mod compose;
pub(crate) mod csv;
mod diagnostics;
mod feed;
pub(crate) mod json;
mod many;
mod outcome;
mod pick;
mod slow;

pub use cautions::CAUTIONS;
pub(crate) use compose::{feed_report, lane_report};
pub use diagnostics::diagnostics_json;
pub use feed::{FeedChanges, FeedMetrics, FeedReport, Retune};
pub(crate) use many::Outcomes;
pub use many::{LineDone, size};
pub use outcome::{
    AtBudget, Budget, Changes, Check, Fitted, Headroom, LaneReport, LimitReport, Metrics, Note, Report, SCHEMA,
};
pub use pick::{BillReport, LinePickReport, PackagesReport, PartPickReport, PickReport, ShareReport, pick};
pub use slow::{BusAtBudget, BusFitted, BusMetrics, BusReport, RailReport};
pub(crate) use slow::{bus_report, rail_report};
