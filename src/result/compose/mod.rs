//! From the outcome of a line to its report.

mod feed;
mod lane;
mod shared;

pub(crate) use feed::feed_report;
pub(crate) use lane::lane_report;
pub(crate) use shared::{budget_report, check_reports, headroom, notes};
