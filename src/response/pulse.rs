//! The pulse response: one symbol as the receiver sees it.

use super::eye::eye_height_near;
use super::spectrum::FIRST_RECORD;
use super::{Case, Cursors, Eye, NotSettled, Source, TimeDomain, strip};

/// What a doubling of the record may move the eye height by, relative to the ideal eye. What is left after it is smaller by
/// the order of the method, eight times and more: below 1e-5.
const EYE_SETTLED: f64 = 4e-5;

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

    /// The cursors with the main one at `at_s` after the middle of the symbol as sent; the first `dfe` later ones are cancelled.
    pub fn cursors(&self, at_s: f64, dfe: usize) -> Cursors {
        let position = (at_s / self.step_s()).rem_euclid(self.samples.len() as f64);
        let main = position.floor();
        let cyclic = strip::cursors(&self.samples, self.per_symbol, main as usize, position - main);
        Cursors::from_cyclic(&cyclic, dfe)
    }
}

impl Cursors {
    /// Cursors given as h_0, h_1, …, h_−2, h_−1, half the record to either side.
    pub(super) fn from_cyclic(cyclic: &[f64], dfe: usize) -> Cursors {
        let later = cyclic.len() / 2;
        let mut after = cyclic.get(1..=later).unwrap_or_default().to_vec();
        after.iter_mut().take(dfe).for_each(|h| *h = 0.0);
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
    fn pulse_into(&mut self, case: Case, record: usize, samples: &mut [f64]) {
        match case {
            Case::With(c) if c.is_finite() => self.pulse_with(c, record, samples),
            _ => {
                let scale = 1.0 / record as f64;
                samples.copy_from_slice(&self.signal_of(record, |_, p| p.chain.transfer.at(case) * p.symbol * scale));
            }
        }
    }

    /// The worst-pattern eye, the record doubled until its height moves by at most 4e-5, and the pulse it is of.
    ///
    /// # Errors
    /// [`NotSettled`] when the longest record does not suffice: a chain that rings or creeps for thousands of symbols.
    pub fn eye(&mut self, case: Case) -> Result<(Eye, Pulse), NotSettled> {
        let (levels, dfe) = (self.signal().levels, self.signal().dfe);
        self.settle(
            "eye height",
            FIRST_RECORD,
            |lane, record| {
                let pulse = lane.pulse(case, record);
                (pulse.eye(levels, dfe), pulse)
            },
            |before, after| (after.0.height - before.0.height).abs(),
            |_| EYE_SETTLED,
        )
    }

    /// The eye height minus `bound`: exact near zero, elsewhere to a tenth of itself.
    ///
    /// For a search of the capacitance where the height meets the bound.
    ///
    /// # Errors
    /// As [`TimeDomain::eye`].
    pub fn eye_margin(&mut self, case: Case, bound: f64) -> Result<f64, NotSettled> {
        Ok(self.eye_near(case, bound)?.0 - bound)
    }

    /// The record in unit intervals that [`TimeDomain::eye_margin`] goes to.
    ///
    /// # Errors
    /// As [`TimeDomain::eye`].
    pub fn eye_record(&mut self, case: Case, bound: f64) -> Result<usize, NotSettled> {
        Ok(self.eye_near(case, bound)?.1)
    }

    /// Height and record, the height as exact as its distance to `bound` asks for.
    fn eye_near(&mut self, case: Case, bound: f64) -> Result<(f64, usize), NotSettled> {
        let (levels, dfe, per_symbol) = (self.signal().levels, self.signal().dfe, self.per_symbol());
        let mut samples = std::mem::take(&mut self.spare);
        let outcome = self.settle(
            "eye height",
            FIRST_RECORD,
            |lane, record| {
                let len = record * per_symbol;
                samples.resize(samples.len().max(len), 0.0);
                lane.pulse_into(case, record, &mut samples[..len]);
                (eye_height_near(bound, &samples[..len], per_symbol, levels, dfe), record)
            },
            |before, after| (after.0 - before.0).abs(),
            |after| EYE_SETTLED.max((after.0 - bound).abs() / 16.0),
        );
        self.spare = samples;
        outcome
    }
}
