//! Any line with its result.

use super::feed::FeedResult;
use super::lane::LaneResult;
use super::line::LineHead;
use super::slow::{BusResult, RailResult};
use super::{feed, lane, slow};
use crate::budget::{Figures, not_computable};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Bus, Feed, Kind, Lane, Line};
use crate::parts::Discharges;

/// A line with its result.
pub(crate) enum SizedLine<'a> {
    Lane(&'a Lane, Box<LaneResult>),
    Feed(&'a Feed, Box<FeedResult>),
    Bus(&'a Bus, Box<BusResult>),
    Rail(Box<RailResult>),
}

impl SizedLine<'_> {
    /// What every kind of line has.
    pub(crate) fn head(&self) -> &LineHead {
        match self {
            SizedLine::Lane(_, result) => &result.head,
            SizedLine::Feed(_, result) => &result.head,
            SizedLine::Bus(_, result) => &result.head,
            SizedLine::Rail(result) => &result.head,
        }
    }
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
    size_line_with(line, figures, sources, &Discharges::default())
}

/// The same with what is known of discharges already. At Nyquist alone they are left out.
pub(crate) fn size_line_with<'a>(
    line: &'a Line,
    figures: Figures,
    sources: &Sources,
    discharges: &Discharges,
) -> Result<SizedLine<'a>, Box<Diagnostic>> {
    let head = &line.head;
    let fault = |fault| not_computable(line, fault);
    let discharge = if figures == Figures::All { discharges.of(line) } else { None };
    Ok(match &line.kind {
        Kind::Lane(lane) => {
            let sized = lane::size(head, lane, figures, discharge, sources).map_err(fault)?;
            SizedLine::Lane(lane, Box::new(sized))
        }
        Kind::Feed(feed) => SizedLine::Feed(feed, Box::new(feed::size(head, feed, discharge, sources).map_err(fault)?)),
        Kind::Bus(bus) => SizedLine::Bus(bus, Box::new(slow::size(head, bus, discharge, sources))),
        Kind::Rail(rail) => SizedLine::Rail(Box::new(slow::check(head, rail, discharge, sources))),
    })
}
