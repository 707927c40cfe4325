//! The working of any line.

use super::feed::explain_feed;
use super::lane::explain;
use super::slow::{explain_bus, explain_rail};
use crate::budget::{Figures, not_computable, size_feed, size_lane};
use crate::diag::{Diagnostic, Sources};
use crate::model::LineRef;
use crate::result::{CAUTIONS, bus_report, feed_report, lane_report, rail_report};

/// The working of one line as text.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn working(line: LineRef<'_>, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    match line {
        LineRef::Lane(lane) => {
            let outcome = size_lane(lane, Figures::All).map_err(|fault| not_computable(line, fault))?;
            Ok(explain(lane, &outcome, &lane_report(lane, &outcome, sources), &CAUTIONS))
        }
        LineRef::Feed(feed) => {
            let outcome = size_feed(feed).map_err(|fault| not_computable(line, fault))?;
            Ok(explain_feed(feed, &outcome, &feed_report(feed, &outcome, sources), &CAUTIONS))
        }
        LineRef::Bus(bus) => Ok(explain_bus(bus, &bus_report(bus, sources), &CAUTIONS)),
        LineRef::Rail(rail) => Ok(explain_rail(rail, &rail_report(rail, sources), &CAUTIONS)),
    }
}
