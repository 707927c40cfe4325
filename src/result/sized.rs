//! Any line with its result.

use super::feed::FeedResult;
use super::lane::LaneResult;
use super::line::LineHead;
use super::slow::{BusResult, RailResult};
use super::{feed, lane, slow};
use crate::budget::{Fault, Figures, not_computable};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Bus, Feed, Kind, Lane, Line};
use crate::parts::Discharges;
use crate::study::{Sampling, tolerate};

/// A line with its result.
pub(crate) enum SizedLine<'a> {
    Lane(&'a Lane, Box<LaneResult>),
    Feed(&'a Feed, Box<FeedResult>),
    Bus(&'a Bus, Box<BusResult>),
    Rail(Box<RailResult>),
}

/// What is wanted of a line beside its budget.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wanted {
    /// Which figures.
    pub figures: Figures,
    /// How settings are drawn of a line with tolerances.
    pub sampling: Sampling,
}

impl From<Figures> for Wanted {
    fn from(figures: Figures) -> Wanted {
        Wanted { figures, sampling: Sampling::default() }
    }
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
    wanted: Wanted,
    sources: &Sources,
) -> Result<SizedLine<'a>, Box<Diagnostic>> {
    size_line_with(line, wanted, sources, &Discharges::default())
}

/// The same with what is known of discharges already. At Nyquist alone they are left out.
pub(crate) fn size_line_with<'a>(
    line: &'a Line,
    Wanted { figures, sampling }: Wanted,
    sources: &Sources,
    discharges: &Discharges,
) -> Result<SizedLine<'a>, Box<Diagnostic>> {
    let head = &line.head;
    let fault = |fault: Fault| not_computable(line, fault);
    let discharge = if figures == Figures::All { discharges.of(line) } else { None };
    let mut sized = match &line.kind {
        Kind::Lane(lane) => {
            let sized = lane::size(head, lane, figures, discharge, sources).map_err(fault)?;
            SizedLine::Lane(lane, Box::new(sized))
        }
        Kind::Feed(feed) => SizedLine::Feed(feed, Box::new(feed::size(head, feed, discharge, sources).map_err(fault)?)),
        Kind::Bus(bus) => SizedLine::Bus(bus, Box::new(slow::size(head, bus, discharge, sources))),
        Kind::Rail(rail) => SizedLine::Rail(Box::new(slow::check(head, rail, discharge, sources))),
    };
    let tolerated = tolerate(line, sampling).map_err(|fault| not_computable(line, fault))?;
    sized.head_mut().tolerance = tolerated.map(Box::new);
    Ok(sized)
}

impl SizedLine<'_> {
    fn head_mut(&mut self) -> &mut LineHead {
        match self {
            SizedLine::Lane(_, result) => &mut result.head,
            SizedLine::Feed(_, result) => &mut result.head,
            SizedLine::Bus(_, result) => &mut result.head,
            SizedLine::Rail(result) => &mut result.head,
        }
    }
}
