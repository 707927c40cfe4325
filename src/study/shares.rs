//! The share of settings that allow a capacitance.

use rayon::prelude::*;

use crate::budget::Interval;
use crate::units::Farad;

/// The share of settings a budget is stated for.
const ASKED: f64 = 0.997;
/// Steps of a curve of shares.
const STEPS: u32 = 64;

/// The ends of what the limits allow at many settings.
#[derive(Debug, Clone, Default)]
pub struct Shares {
    /// Settings.
    samples: usize,
    /// Lower ends above 0, rising once all are in.
    lows: Vec<f64>,
    /// How many allow 0.
    at_zero: usize,
    /// Upper ends that are not open.
    highs: Vec<f64>,
    /// The largest upper end of a lowest interval.
    top: f64,
}

impl Shares {
    /// Takes in what one setting allows.
    pub fn push(&mut self, allowed: &[Interval]) {
        self.samples += 1;
        for interval in allowed {
            if interval.low > 0.0 {
                self.lows.push(interval.low);
            } else {
                self.at_zero += 1;
            }
            if interval.high.is_finite() {
                self.highs.push(interval.high);
            }
        }
        let first = allowed.first().map(|interval| interval.high).filter(|high| high.is_finite());
        self.top = first.map_or(self.top, |high| self.top.max(high));
    }

    /// Both together.
    pub fn and(mut self, other: Shares) -> Shares {
        self.samples += other.samples;
        self.at_zero += other.at_zero;
        self.lows.extend(other.lows);
        self.highs.extend(other.highs);
        self.top = self.top.max(other.top);
        self
    }

    /// Sorts the ends, once all are in.
    pub fn sorted(mut self) -> Shares {
        self.lows.par_sort_unstable_by(f64::total_cmp);
        self.highs.par_sort_unstable_by(f64::total_cmp);
        self
    }

    /// How many settings allow `c`.
    fn allowing(&self, c: f64) -> usize {
        let begun = self.at_zero + self.lows.partition_point(|low| *low <= c);
        begun - self.highs.partition_point(|high| *high < c)
    }

    /// The least capacitance that 99.7 % of the settings allow; `None` where there is none.
    pub fn lowest(&self) -> Option<Farad> {
        let asked = self.asked();
        let mut starts = std::iter::once(0.0).chain(self.lows.iter().copied());
        starts.find(|start| self.allowing(*start) >= asked).map(Farad)
    }

    /// How many settings 99.7 % of them are.
    fn asked(&self) -> usize {
        (ASKED * self.samples as f64).ceil() as usize
    }

    /// The largest capacitance up to which 99.7 % of the settings allow each: the upper end of the lowest such interval.
    /// `None` where there is none, and where it is open.
    pub fn budget(&self) -> Option<Farad> {
        let asked = self.asked();
        let Farad(from) = self.lowest()?;
        let first = self.highs.partition_point(|high| *high < from);
        // Just above an upper end, with those that begin there.
        let left = |index: usize| {
            let begun = self.at_zero + self.lows.partition_point(|low| *low <= self.highs[index]);
            begun - (index + 1)
        };
        let is_last = |index: &usize| {
            let alike = self.highs.get(index + 1) == self.highs.get(*index);
            !alike && left(*index) < asked
        };
        (first..self.highs.len()).find(is_last).map(|index| Farad(self.highs[index]))
    }

    /// At most 65 capacitances, rising from 0 to where no setting's lowest interval reaches further, with the share that
    /// allows each.
    pub fn curve(&self) -> Vec<(f64, f64)> {
        let steps = if self.top > 0.0 { STEPS } else { 0 };
        let at = |step: u32| if step == steps { self.top } else { self.top * f64::from(step) / f64::from(steps) };
        let share = |c: f64| (c, self.allowing(c) as f64 / self.samples.max(1) as f64);
        (0..=steps).map(|step| share(at(step))).collect()
    }
}
