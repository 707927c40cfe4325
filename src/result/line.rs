//! One line with what was found of it and its report.

use super::compose::{bus_report, feed_report, lane_report, rail_report};
use super::feed::FeedReport;
use super::outcome::LaneReport;
use super::slow::{BusReport, RailReport};
use crate::budget::{FeedOutcome, Figures, LaneOutcome, not_computable, size_feed, size_lane};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Bus, Feed, Kind, Lane, Line};

/// A line with its report, and with the outcome where a picture or a working takes more of it than the report has.
pub(crate) enum Sized<'a> {
    Lane(&'a Lane, Box<LaneOutcome>, Box<LaneReport>),
    Feed(&'a Feed, Box<FeedOutcome>, Box<FeedReport>),
    Bus(&'a Bus, Box<BusReport>),
    Rail(Box<RailReport>),
}

/// Sizes a line and reports on it.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub(crate) fn size_line<'a>(line: &'a Line, figures: Figures, sources: &Sources) -> Result<Sized<'a>, Box<Diagnostic>> {
    let head = &line.head;
    Ok(match &line.kind {
        Kind::Lane(lane) => {
            let outcome = size_lane(lane, figures).map_err(|fault| not_computable(line, fault))?;
            let report = lane_report(head, lane, &outcome, sources);
            Sized::Lane(lane, Box::new(outcome), Box::new(report))
        }
        Kind::Feed(feed) => {
            let outcome = size_feed(feed).map_err(|fault| not_computable(line, fault))?;
            let report = feed_report(head, feed, &outcome, sources);
            Sized::Feed(feed, Box::new(outcome), Box::new(report))
        }
        Kind::Bus(bus) => Sized::Bus(bus, Box::new(bus_report(head, bus, sources))),
        Kind::Rail(rail) => Sized::Rail(Box::new(rail_report(head, rail, sources))),
    })
}
