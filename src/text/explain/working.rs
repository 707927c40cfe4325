//! The working of any line.

use super::feed::explain_feed;
use super::lane::explain;
use super::slow::{explain_bus, explain_rail};
use crate::budget::Figures;
use crate::diag::{Diagnostic, Sources};
use crate::model::Line;
use crate::result::{CAUTIONS, SizedLine, size_line};

/// The working of one line as text.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn working(line: &Line, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    Ok(working_of(&size_line(line, Figures::All, sources)?, &CAUTIONS))
}

/// The working of a line that is sized.
pub(crate) fn working_of(line: &SizedLine<'_>, cautions: &[&str]) -> String {
    match line {
        SizedLine::Lane(lane, result) => explain(lane, result, cautions),
        SizedLine::Feed(feed, result) => explain_feed(feed, result, cautions),
        SizedLine::Bus(bus, result) => explain_bus(bus, result, cautions),
        SizedLine::Rail(result) => explain_rail(result, cautions),
    }
}
