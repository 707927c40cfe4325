//! A feed under its limits.

mod circuit;
mod figures;
mod retune;
mod size;

pub use figures::{FeedChanges, FeedFigures, Retune};
pub use size::{FeedOutcome, size_feed};
pub(super) use size::{allowed_by_feed, judge_feed};
