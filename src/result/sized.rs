//! Any line with its result.

use super::feed::FeedResult;
use super::lane::LaneResult;
use super::slow::{BusResult, RailResult};
use super::{feed, lane, slow};
use crate::budget::{Figures, not_computable};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Bus, Feed, Kind, Lane, Line};

/// A line with its result.
pub(crate) enum SizedLine<'a> {
    Lane(&'a Lane, Box<LaneResult>),
    Feed(&'a Feed, Box<FeedResult>),
    Bus(&'a Bus, Box<BusResult>),
    Rail(Box<RailResult>),
}

/// Sizes a line.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub(crate) fn size_line<'a>(
    line: &'a Line,
    figures: Figures,
    sources: &Sources,
) -> Result<SizedLine<'a>, Box<Diagnostic>> {
    let head = &line.head;
    let fault = |fault| not_computable(line, fault);
    Ok(match &line.kind {
        Kind::Lane(lane) => SizedLine::Lane(lane, Box::new(lane::size(head, lane, figures, sources).map_err(fault)?)),
        Kind::Feed(feed) => SizedLine::Feed(feed, Box::new(feed::size(head, feed, sources).map_err(fault)?)),
        Kind::Bus(bus) => SizedLine::Bus(bus, Box::new(slow::size(head, bus, sources))),
        Kind::Rail(rail) => SizedLine::Rail(Box::new(slow::check(head, rail, sources))),
    })
}
