//! From the outcome of a line to its report.

mod feed;
mod lane;
mod shared;
mod slow;

pub(crate) use feed::feed_report;
pub(crate) use lane::lane_report;
pub(crate) use shared::check_reports;
pub(crate) use slow::{bus_report, rail_report};
