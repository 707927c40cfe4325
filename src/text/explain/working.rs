//! The working of any line.

use super::discharge;
use super::feed::explain_feed;
use super::lane::explain;
use super::slow::{explain_bus, explain_rail};
use super::write::Last;
use crate::budget::Figures;
use crate::diag::{Diagnostic, Sources};
use crate::model::Line;
use crate::result::{CAUTIONS, SizedLine, Wanted, size_line};
use crate::study::Sampling;

/// The working of one line as text.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn working(line: &Line, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    working_drawn(line, Sampling::default(), sources)
}

/// The same, with settings drawn as asked where the line states tolerances.
///
/// # Errors
/// As [`working`].
pub fn working_drawn(line: &Line, sampling: Sampling, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    let wanted = Wanted { figures: Figures::All, sampling };
    Ok(working_of(line, &size_line(line, wanted, sources)?, &CAUTIONS))
}

/// The working of a line that is sized.
pub(crate) fn working_of(line: &Line, sized: &SizedLine<'_>, cautions: &[&str]) -> String {
    let discharge = &discharge::working(line, sized.head().discharge.as_ref());
    let last = &Last { values: &line.head.values, discharge, cautions };
    match sized {
        SizedLine::Lane(lane, result) => explain(lane, result, last),
        SizedLine::Feed(feed, result) => explain_feed(feed, result, last),
        SizedLine::Bus(bus, result) => explain_bus(bus, result, last),
        SizedLine::Rail(result) => explain_rail(result, last),
    }
}
