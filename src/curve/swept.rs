//! What values of a line do to its budget, as plain numbers.

use super::data::{Carries, ChartData, Picture};
use crate::budget::Fault;
use crate::figures::Figure;
use crate::model::{Kind, Line};
use crate::study::{Gain, Sensitivity, elements};
use crate::units::Dimension;

/// Whatever buys more.
#[derive(Debug, Clone, PartialEq)]
pub struct Bars {
    /// Each change, in falling gain.
    pub gains: Vec<Gain>,
    /// The word of each element of the path, with its number.
    pub elements: Vec<(usize, &'static str)>,
}

/// A value of a line that goes from one end to another.
#[derive(Debug, Clone, PartialEq)]
pub struct SweptAxis {
    /// Its address.
    pub address: String,
    /// What it measures.
    pub dimension: Dimension,
    /// Its values, rising, in SI.
    pub values: Vec<f64>,
    /// What is stated.
    pub nominal: Option<f64>,
}

/// What a line leaves at one value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SweptAt {
    /// The least allowed capacitance; `None` where none is.
    pub lowest_f: Option<f64>,
    /// The budget; `None` where open or impossible.
    pub budget_f: Option<f64>,
    /// The tightest headroom of what is fitted, of its bound; `None` with nothing fitted, or a perfect match.
    pub headroom: Option<f64>,
    /// Whether what is fitted keeps every limit.
    pub holds: Option<bool>,
}

/// A line over one value.
#[derive(Debug, Clone, PartialEq)]
pub struct SweptCurve {
    /// The value.
    pub over: SweptAxis,
    /// What is left at each.
    pub at: Vec<SweptAt>,
}

/// A line over two values.
#[derive(Debug, Clone, PartialEq)]
pub struct SweptMap {
    /// The one that moves slowest, then the other.
    pub over: [SweptAxis; 2],
    /// What is left at each, the second value moving fastest.
    pub at: Vec<SweptAt>,
}

/// What a line carries.
pub fn carried(line: &Line) -> Carries {
    match &line.kind {
        Kind::Lane(lane) => Carries::Symbols {
            modulation: lane.modulation.word(),
            rate_bd: lane.symbol_rate.0,
            nyquist_hz: lane.nyquist().0,
        },
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
