//! The working of any line.

use super::feed::explain_feed;
use super::lane::explain;
use super::slow::{explain_bus, explain_rail};
use crate::budget::Figures;
use crate::diag::{Diagnostic, Sources};
use crate::model::Line;
use crate::result::{CAUTIONS, Sized, size_line};

/// The working of one line as text.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn working(line: &Line, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    Ok(working_of(&size_line(line, Figures::All, sources)?, &CAUTIONS))
}

/// The working of a line that is sized.
pub(crate) fn working_of(line: &Sized<'_>, cautions: &[&str]) -> String {
    match line {
        Sized::Lane(lane, outcome, report) => explain(lane, outcome, report, cautions),
        Sized::Feed(feed, outcome, report) => explain_feed(feed, outcome, report, cautions),
        Sized::Bus(bus, report) => explain_bus(bus, report, cautions),
        Sized::Rail(report) => explain_rail(report, cautions),
    }
}
