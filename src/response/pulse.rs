//! The pulse response: one symbol as the receiver sees it.

use super::spectrum::FIRST_RECORD;
use super::strip;
use super::{Case, Cursors, Source, TimeDomain};

/// A rectangular symbol of height 1 through edge, equalisers and chain, periodic over its record.
#[derive(Debug, Clone, PartialEq)]
pub struct Pulse {
    /// Values, the first at the middle of the symbol as sent.
    pub samples: Vec<f64>,
    /// Samples per unit interval.
    pub per_symbol: usize,
    /// Unit interval in second.
    pub symbol_s: f64,
}

impl Pulse {
    /// Time between samples in second.
    pub fn step_s(&self) -> f64 {
        self.symbol_s / self.per_symbol as f64
    }

    /// The cursors with the main one at `at_s` after the middle of the symbol as sent, less the `taps` of the feedback.
    pub fn cursors(&self, at_s: f64, taps: &[f64]) -> Cursors {
        let position = (at_s / self.step_s()).rem_euclid(self.samples.len() as f64);
        let main = position.floor();
        let cyclic = strip::cursors(&self.samples, self.per_symbol, main as usize, position - main);
        Cursors::from_cyclic(&cyclic, taps)
    }
}

impl Cursors {
    /// Cursors given as h_0, h_1, …, h_−2, h_−1, half the record to either side; `taps` are taken from h_1 on.
    pub(super) fn from_cyclic(cyclic: &[f64], taps: &[f64]) -> Cursors {
        let later = cyclic.len() / 2;
        let mut after = cyclic.get(1..=later).unwrap_or_default().to_vec();
        after.iter_mut().zip(taps).for_each(|(h, tap)| *h -= tap);
        Cursors {
            before: cyclic.iter().skip(later + 1).rev().copied().collect(),
            main: cyclic.first().copied().unwrap_or(0.0),
            after,
        }
    }
}

impl<S: Source> TimeDomain<S> {
    /// The pulse response over a record of `record` unit intervals, a power of two of at least 32.
    pub fn pulse(&mut self, case: Case, record: usize) -> Pulse {
        let record = record.next_power_of_two().max(FIRST_RECORD);
        let mut samples = vec![0.0; record * self.per_symbol()];
        self.pulse_into(case, record, &mut samples);
        Pulse { samples, per_symbol: self.per_symbol(), symbol_s: self.signal().symbol_s }
    }

    /// Fills `samples` with the pulse response over `record` unit intervals.
    pub(super) fn pulse_into(&mut self, case: Case, record: usize, samples: &mut [f64]) {
        match case {
            Case::With(c) if c.is_finite() => self.pulse_with(c, record, samples),
            _ => {
                let scale = 1.0 / record as f64;
                samples.copy_from_slice(&self.signal_of(record, |_, p| p.chain.transfer.at(case) * p.symbol * scale));
            }
        }
    }
}
