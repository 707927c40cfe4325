//! The step response: at the receiver, and its rise time.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::interpolate::between;
use super::spectrum::FIRST_RECORD;
use super::{Case, NotSettled, Sample, Source, TimeDomain, brent};

/// What a doubling of the record may move the rise time by, relative to itself.
const RISE_SETTLED: f64 = 1e-4;

/// Below this a path does not pass direct current, and its step settles at nothing.
const NO_DC: f64 = 1e-12;

/// σ of the edge from its middle to where it has not begun.
const EDGE_START: f64 = 8.0;

/// Unit intervals between the three values that tell the drift before the step.
const DRIFT: usize = 2;

/// A step through edge and chain, zero before it arrives.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Periodic part.
    samples: Vec<f64>,
    /// Rise of the non-periodic part per sample.
    ramp: f64,
    /// Sample at which nothing has arrived yet.
    start: i64,
    /// What drifts before anything arrives: value at `start`, rise per sample, rise of that.
    drift: [f64; 3],
    /// Time between samples in second.
    pub step_s: f64,
    /// Value it settles at.
    pub settled: f64,
}

impl Step {
    /// Value at `t_s` after the middle of the edge as sent.
    pub fn at(&self, t_s: f64) -> f64 {
        let position = t_s / self.step_s;
        let i = position.floor();
        between(|j| self.sample(j), i as i64, position - i)
    }

    /// The samples from the start on, a record long.
    pub fn samples(&self) -> impl Iterator<Item = f64> + '_ {
        (0..self.samples.len() as i64).map(|i| self.sample(self.start + i))
    }

    /// The sample in the middle of the record.
    pub(super) fn middle(&self) -> i64 {
        self.start + self.samples.len() as i64 / 2
    }

    pub(super) fn sample(&self, i: i64) -> f64 {
        let after = (i - self.start) as f64;
        let [value, slope, bend] = self.drift;
        self.raw(i) - (value + after * (slope + after * bend))
    }

    fn raw(&self, i: i64) -> f64 {
        let periodic = self.samples[i.rem_euclid(self.samples.len() as i64) as usize];
        periodic + self.ramp * (i - self.start) as f64
    }

    /// The parabola through three values before the start, `apart` samples apart.
    fn drift_before(&self, apart: i64) -> [f64; 3] {
        let [a, b, c] = [0, 1, 2].map(|j| self.raw(self.start - j * apart));
        let apart = apart as f64;
        let bend = (a - 2.0 * b + c) / (2.0 * apart * apart);
        [a, (a - b) / apart + bend * apart, bend]
    }

    /// 10–90 % rise time in second: the first crossings, between zero and the level reached `symbol_s` after the first
    /// crossing of half the settled value. `None` if the record shows no such level.
    ///
    /// A decision is taken a symbol after an edge; the slow tail of a lossy line that follows is no edge.
    pub fn rise_s(&self, symbol_s: f64) -> Option<f64> {
        let end_s = self.first_crossing(0.5)? + symbol_s;
        let shown = end_s < (self.start + self.samples.len() as i64) as f64 * self.step_s;
        let reached = Some(self.at(end_s) / self.settled).filter(|level| shown && *level > 0.0)?;
        Some(self.first_crossing(0.9 * reached)? - self.first_crossing(0.1 * reached)?)
    }

    fn first_crossing(&self, level: f64) -> Option<f64> {
        let excess = |x: f64| x / self.settled - level;
        let after = self.samples().position(|x| excess(x) >= 0.0)?;
        let cell = self.start + after as i64 - 1;
        let value = |u: f64| Ok::<_, std::convert::Infallible>(excess(between(|j| self.sample(j), cell, u)));
        let (low, high) = (excess(self.sample(cell)), excess(self.sample(cell + 1)));
        let Ok(u) = brent(value, 0.0, low, 1.0, high, 1e-12);
        Some((cell as f64 + u) * self.step_s)
    }
}

impl<S: Source> TimeDomain<S> {
    /// The step at the receiver over a record of `record` unit intervals; `delay_s` is the delay of the lines on the way.
    ///
    /// The spectrum divided by jω, plus the ramp H(0)·t/record; what drifts before the step arrives, the tail of earlier
    /// periods, is subtracted. No equaliser.
    pub fn step(&mut self, case: Case, delay_s: f64, record: usize) -> Step {
        // Lines run ahead of their stated delay by a few per cent where their permittivity falls with frequency.
        let start_s = 0.9 * delay_s - EDGE_START * self.signal().sigma_s();
        self.step_of(record, start_s, |chain| chain.transfer, case)
    }

    /// 10–90 % rise time of the step at the receiver in second, the record doubled until it moves by less than 1e-4 of itself.
    ///
    /// `delay_s` is the sum of the delays of the lines on the way. `None` where the path does not pass direct current.
    ///
    /// # Errors
    /// [`NotSettled`] when the longest record does not suffice.
    pub fn rise_s(&mut self, case: Case, delay_s: f64) -> Result<Option<f64>, NotSettled> {
        let passes = self.dc().transfer.at(case).norm() >= NO_DC;
        passes.then(|| self.settled_rise(case, delay_s, f64::INFINITY, |_| RISE_SETTLED)).transpose()
    }

    /// `bound_s` minus the rise time: exact near zero, elsewhere to a sixteenth of itself, −∞ for a rise beyond four bounds.
    ///
    /// For a search of the capacitance where the rise time meets the bound. `None` as in [`TimeDomain::rise_s`].
    ///
    /// # Errors
    /// As [`TimeDomain::rise_s`].
    pub fn rise_margin_s(&mut self, case: Case, delay_s: f64, bound_s: f64) -> Result<Option<f64>, NotSettled> {
        if self.dc().transfer.at(case).norm() < NO_DC {
            return Ok(None);
        }
        let near = |rise: f64| RISE_SETTLED.max((1.0 - bound_s / rise).abs() / 16.0);
        Ok(Some(bound_s - self.settled_rise(case, delay_s, 4.0 * bound_s, near)?))
    }

    /// The rise time, settled to `allowed` of itself; infinite once a record shows that it is beyond `longest_s`.
    fn settled_rise(
        &mut self,
        case: Case,
        delay_s: f64,
        longest_s: f64,
        allowed: impl Fn(f64) -> f64,
    ) -> Result<f64, NotSettled> {
        let symbol_s = self.signal().symbol_s;
        let enough = (2.0 * longest_s + delay_s) / symbol_s;
        let (rise, _) = self.settle(
            "rise time",
            self.record_for(delay_s),
            |lane, record| {
                let rise = lane.step(case, delay_s, record).rise_s(symbol_s);
                (rise.unwrap_or(f64::INFINITY), record as f64 >= enough)
            },
            |before, after| match (before.0.is_finite(), after.0.is_finite()) {
                (true, true) => (after.0 - before.0).abs() / after.0,
                (false, false) if after.1 => 0.0,
                _ => f64::INFINITY,
            },
            |after| if after.0.is_finite() { allowed(after.0) } else { 0.0 },
        )?;
        Ok(rise)
    }

    /// First record for a response `delay_s` away: room for its arrival and an echo.
    pub(super) fn record_for(&self, delay_s: f64) -> usize {
        let symbols = (2.0 * delay_s / self.signal().symbol_s).ceil() as usize;
        (FIRST_RECORD + symbols).next_power_of_two()
    }

    /// The step of one transfer, zero at `start_s` after the middle of the edge.
    pub(super) fn step_of(
        &mut self,
        record: usize,
        start_s: f64,
        transfer: impl Fn(&super::ChainSample) -> Sample,
        case: Case,
    ) -> Step {
        let record = record.next_power_of_two().max(FIRST_RECORD);
        let dc = transfer(&self.dc()).at(case).re;
        let samples = self.signal_of(record, |k, p| match k {
            0 => Complex64::ZERO,
            _ => transfer(&p.chain).at(case) * p.edge / Complex64::new(0.0, 2.0 * PI * k as f64),
        });
        let step_s = self.signal().symbol_s / self.per_symbol() as f64;
        let step = Step {
            ramp: dc / samples.len() as f64,
            start: (start_s / step_s).floor() as i64,
            drift: [0.0; 3],
            samples,
            step_s,
            settled: dc,
        };
        Step { drift: step.drift_before((DRIFT * self.per_symbol()) as i64), ..step }
    }
}
