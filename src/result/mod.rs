//! Results as plain public data with units, and their JSON and CSV.
//!
//! Field names are the keys of the JSON output. SI units; `None` is what does not apply.

mod cautions;
mod compose;
pub(crate) mod csv;
mod diagnostics;
mod feed;
pub(crate) mod json;
mod line;
mod many;
mod outcome;
mod pick;
mod report;
mod slow;

pub use cautions::CAUTIONS;
pub use diagnostics::{counted_diagnostics_json, diagnostics_json};
pub use feed::{FeedChanges, FeedMetrics, FeedReport, Retune};
pub(crate) use line::{Sized, size_line};
pub use many::{LineDone, size};
pub(crate) use many::{chosen, each_line, report};
pub use outcome::{AtBudget, Budget, Changes, Check, Fitted, Headroom, LaneReport, LimitReport, Metrics, Note, SCHEMA};
pub use pick::{BillReport, LinePickReport, PackagesReport, PartPickReport, PickReport, ShareReport, pick};
pub use report::Report;
pub use slow::{BusAtBudget, BusFitted, BusMetrics, BusReport, RailReport};
