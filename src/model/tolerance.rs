//! The values a sheet states of a line, each by its address, with its tolerance.

use super::Address;
use crate::diag::Span;
use crate::figures::Range;

/// A value of a line that an address names.
#[derive(Debug, Clone, PartialEq)]
pub struct AddressedValue {
    /// Its address.
    pub address: Address,
    /// What is stated, in the SI unit of its dimension; `None` where nothing is and nothing is the default.
    pub nominal: Option<f64>,
    /// Its dimension and its legal range.
    pub range: Range,
    /// Between what it lies; `None` where it has no tolerance.
    pub tolerance: Option<Box<Tolerance>>,
    /// The number in the sheet; of a value that is not stated, the row that would state it.
    pub span: Span,
}

/// Between what a value lies.
#[derive(Debug, Clone, PartialEq)]
pub struct Tolerance {
    /// The least value, in the unit of the value.
    pub low: f64,
    /// The largest one.
    pub high: f64,
    /// The group of values of its kind that deviate together, by the same share of their own tolerance.
    pub together: Option<String>,
    /// Whether it is a share of the value, and not a width in its unit.
    pub relative: bool,
    /// Whether the sheet states it by `±`; otherwise it follows from a part's typical value beside its maximum, and makes no
    /// line a toleranced one by itself.
    pub stated: bool,
    /// The `±` and what follows it.
    pub span: Span,
}

/// How values lie between their bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Distribution {
    /// Alike everywhere between them.
    #[default]
    Uniform,
    /// Normally, the bounds at three standard deviations and cut there.
    Normal,
}

impl Distribution {
    /// The word of the sheet and of the results.
    pub fn word(self) -> &'static str {
        match self {
            Distribution::Uniform => "uniform",
            Distribution::Normal => "normal",
        }
    }
}
