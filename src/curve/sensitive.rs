//! The numbers of the picture of what buys more.

use super::data::{Carries, ChartData, Picture};
use super::swept::Bars;
use crate::budget::Fault;
use crate::figures::Figure;
use crate::model::{Kind, Line};
use crate::study::{Sensitivity, elements};

/// What a line carries.
pub fn carried(line: &Line) -> Carries {
    match &line.kind {
        Kind::Lane(lane) => Carries::of_lane(lane),
        Kind::Feed(feed) => Carries::Band([feed.band.low.0, feed.band.high.0]),
        Kind::Bus(_) | Kind::Rail(_) => Carries::Slow,
    }
}

/// The numbers of the picture of what buys more; `None` of a rail.
///
/// # Errors
/// [`Fault`] where the line as stated cannot be computed.
pub fn charted_sensitivity(line: &Line) -> Result<Option<ChartData>, Fault> {
    let Some(found) = Sensitivity::of(line)? else { return Ok(None) };
    Ok(Some(ChartData {
        line: line.head.name.clone(),
        carries: carried(line),
        budget_f: found.budget.capacitance.map(|c| c.0),
        set_by: found.budget.set_by.map(Figure::word),
        fitted_f: line.fitted().map(|c| c.0),
        picture: Picture::Sensitivity(Bars { gains: found.ranking, elements: elements(line) }),
    }))
}
