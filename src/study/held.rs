//! What is found of the values for which a line holds.

use crate::budget::Verdict;
use crate::figures::Figure;
use crate::units::Farad;

/// How closely an end is known, of itself: where the limit is exact, and where it is searched for in time.
const ENDS: [f64; 2] = [1e-6, 1e-4];

/// The values for which a line holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Holding {
    /// The fitted capacitance; `None` where it is what is asked for and none is stated.
    pub fitted: Option<Farad>,
    /// From where to where was searched; `None` is open.
    pub searched: (f64, Option<f64>),
    /// The values for which everything holds, rising; an upper end of `None` is open.
    pub intervals: Vec<(f64, Option<f64>)>,
    /// Each end inside what was searched, rising.
    pub ends: Vec<End>,
    /// The value of the largest budget.
    pub best: Option<Best>,
    /// What breaks at the stated value.
    pub breaks: Option<Breaks>,
    /// Whether a discharge was looked at too; `None` where none is stated, false where one is that is not computed.
    pub struck: Option<bool>,
}

/// The end of an interval.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// The last value that holds.
    pub value: f64,
    /// What breaks beyond it.
    pub breaks: Breaks,
}

/// What breaks.
#[derive(Debug, Clone, PartialEq)]
pub enum Breaks {
    /// A limit.
    Limit(&'static Figure),
    /// A check of what a discharge leaves, by its name.
    Check(String),
    /// There is no such line, or it cannot be computed.
    NoLine(String),
}

impl Breaks {
    /// How closely an end of it is known.
    pub(super) fn tolerance(&self) -> f64 {
        let in_time = match self {
            Breaks::Limit(figure) => figure.is_in_time(),
            Breaks::Check(_) => true,
            Breaks::NoLine(_) => false,
        };
        ENDS[usize::from(in_time)]
    }
}

/// The value of the largest budget.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Best {
    /// The value.
    pub value: f64,
    /// The budget there.
    pub budget: Farad,
    /// What the limits leave there.
    pub verdict: Verdict,
    /// Whether a value at which less than a lower end breaks too leaves more.
    pub window_beyond: bool,
}

/// Why no values can be searched for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRange {
    /// The line has no limits.
    NoLimits,
    /// Nothing is fitted.
    NothingFitted,
    /// From where to where is not known.
    NoBounds,
}
