//! The result of `size`.

use serde::Serialize;

use super::feed::FeedReport;
use super::outcome::LaneReport;
use super::slow::{BusReport, RailReport};

/// The result of `size`.
#[derive(Debug, Clone, Serialize)]
pub struct Report {
    /// Version of the tool.
    pub lanecap: &'static str,
    /// Version of this layout.
    pub schema: u32,
    /// Title of the sheet.
    pub title: Option<String>,
    /// The lanes, in sheet order.
    pub lanes: Vec<LaneReport>,
    /// The antenna feeds.
    pub feeds: Vec<FeedReport>,
    /// The slow buses.
    pub buses: Vec<BusReport>,
    /// The power lines.
    pub rails: Vec<RailReport>,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}
