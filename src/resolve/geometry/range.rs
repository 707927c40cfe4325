//! The published range of a formula.

use std::fmt;

use crate::units::decimal::significant;

/// A formula was used outside the range it was published for; its value is then an estimate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RangeNote {
    /// What lies outside, such as `width/height`.
    pub quantity: &'static str,
    /// Its value here.
    pub value: f64,
    /// Lower end of the range.
    pub low: f64,
    /// Upper end of the range; may be infinite.
    pub high: f64,
    /// Unit of the three numbers; empty for a ratio.
    pub unit: &'static str,
    /// The formula and its source.
    pub formula: &'static str,
}

impl fmt::Display for RangeNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { quantity, value, low, high, unit, formula } = self;
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        write!(f, "{quantity} is {}{unit}, outside the range of {formula}: ", significant(*value, 3))?;
        if high.is_finite() {
            write!(f, "{} to {}{unit}", significant(*low, 3), significant(*high, 3))
        } else {
            write!(f, "{}{unit} and above", significant(*low, 3))
        }
    }
}

/// Collects the notes of one formula.
pub(crate) struct Ranges {
    pub(crate) notes: Vec<RangeNote>,
}

impl Ranges {
    pub(crate) fn new() -> Self {
        Self { notes: Vec::new() }
    }

    /// Notes `value` where it lies outside `low..=high`.
    pub(crate) fn check(
        &mut self,
        formula: &'static str,
        (quantity, unit): (&'static str, &'static str),
        value: f64,
        (low, high): (f64, f64),
    ) {
        if value < low || value > high {
            self.notes.push(RangeNote { quantity, value, low, high, unit, formula });
        }
    }
}
