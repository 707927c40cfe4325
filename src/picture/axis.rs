//! Axes: from a quantity to a place, and round ticks with their texts.

use super::style::farads;
use crate::units::decimal::{Scale, stepped};

/// One axis.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Axis {
    /// What it shows, with the unit.
    pub(crate) label: String,
    low: f64,
    high: f64,
    logarithmic: bool,
    /// SI value of one displayed unit.
    factor: f64,
    /// Distance of ticks that the ends were rounded to.
    fixed: Option<f64>,
}

/// A tick: its value, and its text where it has one.
pub(crate) type Tick = (f64, Option<String>);

impl Axis {
    /// From `low` to `high`, labelled `what [unit]` with the prefix that suits `high`. The ratio of a percent is 0.01.
    pub(crate) fn new(what: &str, unit: &str, low: f64, high: f64, logarithmic: bool) -> Axis {
        let (mut low, mut high) = if low <= high { (low, high) } else { (high, low) };
        if high - low <= 1e-9 * high.abs().max(low.abs()) {
            let half = if high == 0.0 { 1.0 } else { 0.05 * high.abs() };
            (low, high) = (low - half, high + half);
        }
        let most = low.abs().max(high.abs());
        let scale = match unit {
            "dB" | "" | "UI" => Scale::of(1.0),
            "%" => Scale { factor: 0.01, prefix: "" },
            "F" => farads(most),
            _ => Scale::of(most),
        };
        let unit = format!("{}{unit}", scale.prefix);
        Axis {
            label: if unit.is_empty() { what.to_owned() } else { format!("{what} [{unit}]") },
            low,
            high,
            logarithmic: logarithmic && low > 0.0,
            factor: scale.factor,
            fixed: None,
        }
    }

    /// The same with its ends moved out to round numbers.
    pub(crate) fn rounded(mut self, target: usize) -> Axis {
        if !self.logarithmic {
            let step = self.step(target);
            self.low = (self.low / step + 1e-6).floor() * step;
            self.high = (self.high / step - 1e-6).ceil() * step;
            self.fixed = Some(step);
        }
        self
    }

    pub(crate) fn range(&self) -> (f64, f64) {
        (self.low, self.high)
    }

    pub(crate) fn is_logarithmic(&self) -> bool {
        self.logarithmic
    }

    /// Where `value` lies: 0 at the low end, 1 at the high end.
    pub(crate) fn share(&self, value: f64) -> f64 {
        if self.logarithmic {
            (value.max(f64::MIN_POSITIVE) / self.low).ln() / (self.high / self.low).ln()
        } else {
            (value - self.low) / (self.high - self.low)
        }
    }

    /// About `target` ticks.
    pub(crate) fn ticks(&self, target: usize) -> Vec<Tick> {
        if self.logarithmic { self.log_ticks(target) } else { self.even_ticks(target) }
    }

    /// A round step in SI units.
    fn step(&self, target: usize) -> f64 {
        let raw = (self.high - self.low) / self.factor / target.max(1) as f64;
        let ten = 10f64.powf(raw.log10().floor());
        let round = [1.0, 2.0, 5.0, 10.0].into_iter().find(|r| r * ten >= raw * 0.999).unwrap_or(10.0);
        round * ten * self.factor
    }

    fn even_ticks(&self, target: usize) -> Vec<Tick> {
        let step = self.fixed.unwrap_or_else(|| self.step(target));
        let (first, last) = ((self.low / step - 1e-6).ceil(), (self.high / step + 1e-6).floor());
        if (last - first).is_nan() || last - first > 100.0 {
            return Vec::new();
        }
        let count = (last - first) as usize;
        let at = |i: usize| {
            let value = (first + i as f64) * step;
            (value, Some(stepped(value / self.factor, step / self.factor)))
        };
        (0..=count).map(at).collect()
    }

    fn log_ticks(&self, target: usize) -> Vec<Tick> {
        let (low, high) = (self.low / self.factor, self.high / self.factor);
        let decades = (high / low).log10();
        let texts: &[u32] = match decades / target.max(1) as f64 {
            ..=0.25 => &[1, 2, 5],
            ..=0.5 => &[1, 3],
            _ => &[1],
        };
        let every = (decades / target.max(1) as f64).ceil().max(1.0) as i32;
        let mut ticks = Vec::new();
        for decade in low.log10().floor() as i32..=high.log10().ceil() as i32 {
            for digit in 1..=9 {
                let value = f64::from(digit) * 10f64.powi(decade);
                if value < low * (1.0 - 1e-9) || value > high * (1.0 + 1e-9) || (digit > 1 && every > 1) {
                    continue;
                }
                let told = texts.contains(&digit) && decade.rem_euclid(every) == 0;
                ticks.push((value * self.factor, told.then(|| stepped(value, 10f64.powi(decade)))));
            }
        }
        ticks
    }
}
