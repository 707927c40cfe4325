//! Results as plain public data with units, and the renderers that see nothing else.
//!
//! Field names are the keys of the JSON output. SI units; `None` is what does not apply.

mod cautions;
pub mod chart;
mod compose;
mod csv;
mod diagnostics;
mod explain;
mod feed;
mod feed_grid;
mod json;
mod limits;
mod line;
mod markdown;
mod named;
mod outcome;
mod outcomes;
mod page;
mod pick;
mod pick_view;
mod render;
mod review;
mod sentences;
mod signal;
mod slow;
mod slow_view;
mod table;
mod verdict;
mod view;

pub use cautions::CAUTIONS;
pub use chart::{charted, charted_feed};
pub use diagnostics::diagnostics_json;
pub use explain::working;
pub use feed::{FeedChanges, FeedMetrics, FeedReport, Retune};
pub use limits::label;
pub use outcome::{
    AtBudget, Budget, Changes, Check, Fitted, Headroom, LaneReport, LimitReport, Metrics, Note, Report, SCHEMA,
};
pub use outcomes::{LineDone, size};
pub use page::{Live, page};
pub use pick::{BillReport, LinePickReport, PackagesReport, PartPickReport, PickReport, ShareReport, pick};
pub use pick_view::render_pick;
pub use render::{Format, render};
pub use review::{Captioned, Exhibit, REVIEW_ROUNDS, Review, review};
pub use slow::{BusAtBudget, BusFitted, BusMetrics, BusReport, RailReport};
