//! What values of a line do to its budget, as plain numbers.

use crate::model::Address;
use crate::study::Gain;
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
    /// Its address; `None` where nothing is swept.
    pub address: Option<Address>,
    /// The word of each element of the path, with its number.
    pub elements: Vec<(usize, &'static str)>,
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
