//! Values held against their ranges.

use super::flaw::{Flaw, Place};
use crate::figures::Range;

/// Flaws as they are found.
#[derive(Default)]
pub(super) struct Found {
    pub(super) flaws: Vec<Flaw>,
}

impl Found {
    /// A flaw without a cure of its own.
    pub(super) fn push(&mut self, code: &'static str, at: Place, message: impl Into<String>) {
        self.flaws.push(Flaw { code, at, message: message.into(), help: None });
    }

    /// A flaw with its cure.
    pub(super) fn cured(&mut self, code: &'static str, at: Place, message: impl Into<String>, help: &str) {
        self.flaws.push(Flaw { code, at, message: message.into(), help: Some(help.to_owned()) });
    }

    /// A value in SI that a sheet would state: within its range, and no NaN.
    pub(super) fn within(&mut self, at: Place, name: &str, value: f64, range: Range) {
        if !range.contains(value) {
            self.push("out-of-range", at, format!("{name} is out of range: {value:e}, not {}", range.range()));
        }
    }

    /// A value in SI that comes of others: at least 0, and finite.
    pub(super) fn derived(&mut self, at: Place, name: &str, value: f64) {
        if !(value >= 0.0 && value.is_finite()) {
            self.push("out-of-range", at, format!("{name} is out of range: {value:e}, not a finite number from 0 on"));
        }
    }
}

/// One element, whose values have their ranges.
pub(super) struct Values<'f> {
    pub(super) index: usize,
    pub(super) found: &'f mut Found,
}

impl Values<'_> {
    pub(super) fn within(&mut self, name: &'static str, value: f64, range: Range) {
        self.found.within(Place::Value(self.index, name), name, value, range);
    }

    pub(super) fn derived(&mut self, name: &'static str, value: f64) {
        self.found.derived(Place::Value(self.index, name), name, value);
    }
}
