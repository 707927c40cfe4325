//! From the outcome of a line to its report.

mod feed;
mod lane;
mod shared;

pub(super) use self::feed::feed_report;
pub(super) use self::lane::lane_report;
pub(super) use self::shared::{budget_report, check_reports, headroom, intervals, notes};
