//! The chain's spectrum on a grid that grows, shared by every capacitance and every figure of the time domain.

use std::fmt;

use num_complex::Complex64;

use super::Signal;
use super::received::Received;
use super::transform::synthesise;
use crate::network::Mobius;

/// Shortest record, in unit intervals.
pub(super) const FIRST_RECORD: usize = 32;

/// Longest record, in samples.
const MOST_SAMPLES: usize = 1 << 20;

/// Samples per unit interval at least, and samples per σ of the edge at least.
const SAMPLES_PER_SYMBOL: f64 = 32.0;
const SAMPLES_PER_SIGMA: f64 = 3.5;

/// 2πfσ of the highest frequency: the edge filter is 7e-10 there.
const EDGE_REACH: f64 = 6.5;

/// What stands at the protector's place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Case {
    /// Nothing, not even the footprint.
    Absent,
    /// The footprint and this capacitance in farad; infinity is the limit of ever larger ones.
    With(f64),
}

/// A transfer at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// With the protector and its footprint removed.
    pub absent: Complex64,
    /// With the footprint, as a function of the capacitance.
    pub with: Mobius,
}

impl Sample {
    /// The value in one case.
    #[inline]
    pub fn at(&self, case: Case) -> Complex64 {
        match case {
            Case::Absent => self.absent,
            Case::With(c) => self.with.at(c),
        }
    }
}

/// What the time domain needs of a chain at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChainSample {
    /// Voltage transfer H from source to receiver, 1 for a matched lossless path.
    pub transfer: Sample,
    /// Reflection Γ at the reference plane looking in.
    pub reflection: Sample,
}

/// A chain, known by its values at single frequencies.
pub trait Source {
    /// Its values at `f_hz`; exact at zero.
    fn at(&self, f_hz: f64) -> ChainSample;
}

impl<F: Fn(f64) -> ChainSample> Source for F {
    fn at(&self, f_hz: f64) -> ChainSample {
        self(f_hz)
    }
}

/// A figure that still moves when the longest record is reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NotSettled {
    /// The figure.
    pub figure: &'static str,
    /// The longest record in second.
    pub record_s: f64,
    /// What the last doubling of the record moved it by, relative to the ideal eye, the rise time or the incident step;
    /// infinite where even that cannot be told, as with an edge too short beside the unit interval.
    pub moved: f64,
}

impl fmt::Display for NotSettled {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let NotSettled { figure, record_s, moved } = self;
        if moved.is_finite() {
            write!(
                f,
                "the {figure} does not settle within a record of {record_s:.3e} s (it still moves by {moved:.1e})"
            )
        } else {
            write!(f, "the {figure} cannot be found: a record of {record_s:.3e} s is too short")
        }
    }
}

impl std::error::Error for NotSettled {}

/// One frequency of the grid.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    /// The chain.
    pub(super) chain: ChainSample,
    /// Edge filter.
    pub(super) edge: f64,
    /// Spectrum of the symbol as sent and equalised, relative to T.
    pub(super) symbol: Complex64,
}

/// The time domain of one lane.
///
/// The chain is evaluated once at each frequency; a longer record adds the frequencies between those known,
/// and a further capacitance costs a few operations per frequency and one transform.
#[derive(Debug)]
pub struct TimeDomain<S> {
    source: S,
    signal: Signal,
    per_symbol: usize,
    /// Record the points belong to, in unit intervals.
    record: usize,
    /// Values at k/(record·T), from zero up.
    points: Vec<Point>,
    /// The pulse's harmonics over the first record, its double, and so on.
    received: Vec<Received>,
    /// Room for a pulse that is looked at and forgotten.
    pub(super) spare: Vec<f64>,
}

impl<S: Source> TimeDomain<S> {
    /// The time domain of `source` under `signal`. Nothing is evaluated yet.
    pub fn new(source: S, signal: Signal) -> TimeDomain<S> {
        let per_sigma = SAMPLES_PER_SIGMA * signal.symbol_s / signal.sigma_s();
        let per_symbol = (SAMPLES_PER_SYMBOL.max(per_sigma).ceil() as usize).clamp(1, MOST_SAMPLES).next_power_of_two();
        TimeDomain {
            source,
            signal,
            per_symbol,
            record: 0,
            points: Vec::new(),
            received: Vec::new(),
            spare: Vec::new(),
        }
    }

    /// The data signal.
    pub fn signal(&self) -> &Signal {
        &self.signal
    }

    /// How many frequencies have been evaluated.
    pub fn frequencies(&self) -> usize {
        self.points.len()
    }

    /// Samples per unit interval, a power of two.
    pub(super) fn per_symbol(&self) -> usize {
        self.per_symbol
    }

    /// Makes the grid fine enough for a record of `record` unit intervals, a power of two.
    fn grow(&mut self, record: usize) {
        let highest_hz = EDGE_REACH / (2.0 * std::f64::consts::PI * self.signal.sigma_s());
        while self.record < record {
            let (known, first) = (self.points.len(), self.record == 0);
            self.record = if first { FIRST_RECORD } else { 2 * self.record };
            let spacing = 1.0 / (self.record as f64 * self.signal.symbol_s);
            let count = (highest_hz / spacing) as usize + 1;
            let mut points = Vec::with_capacity(count);
            for k in 0..count {
                points.push(match (first, k % 2 == 0 && k / 2 < known) {
                    (false, true) => self.points[k / 2],
                    _ => self.evaluate(k as f64 * spacing),
                });
            }
            self.points = points;
        }
    }

    fn evaluate(&self, f_hz: f64) -> Point {
        Point { chain: self.source.at(f_hz), edge: self.signal.edge(f_hz), symbol: self.signal.symbol(f_hz) }
    }

    /// The periodic signal of `record` unit intervals whose harmonic k is `bin(k, point)`.
    pub(super) fn signal_of(&mut self, record: usize, bin: impl Fn(usize, &Point) -> Complex64) -> Vec<f64> {
        self.grow(record);
        let mut samples = vec![0.0; record * self.per_symbol];
        let points = self.points.iter().step_by(self.record / record).enumerate();
        synthesise(&mut samples, |bins| {
            bins.fill(Complex64::ZERO);
            for (slot, (k, point)) in bins.iter_mut().zip(points) {
                *slot = bin(k, point);
            }
        });
        samples
    }

    /// The pulse response with `c` farad, finite, over the `record` that fills `samples`.
    pub(super) fn pulse_with(&mut self, c: f64, record: usize, samples: &mut [f64]) {
        self.grow(record);
        let doublings = (record / FIRST_RECORD).ilog2() as usize;
        while self.received.len() <= doublings {
            let record = FIRST_RECORD << self.received.len();
            let points = self.points.iter().step_by(self.record / record);
            let harmonic = |point: &Point| (point.chain.transfer.with, point.symbol / record as f64);
            self.received.push(Received::new(points.map(harmonic)));
        }
        synthesise(samples, |bins| self.received[doublings].write(c, bins));
    }

    /// Chain at zero frequency.
    pub(super) fn dc(&self) -> ChainSample {
        self.points.first().map_or_else(|| self.source.at(0.0), |p| p.chain)
    }

    /// `figure(record)` for records doubled from `first` unit intervals until `moved(before, after)` is at most
    /// `allowed(after)`.
    pub(super) fn settle<T>(
        &mut self,
        name: &'static str,
        first: usize,
        mut figure: impl FnMut(&mut Self, usize) -> T,
        moved: impl Fn(&T, &T) -> f64,
        allowed: impl Fn(&T) -> f64,
    ) -> Result<T, NotSettled> {
        let mut record = first.max(FIRST_RECORD);
        let mut last = f64::INFINITY;
        let mut before = None;
        while record * self.per_symbol <= MOST_SAMPLES {
            let after = figure(self, record);
            if let Some(before) = &before {
                last = moved(before, &after);
                if last <= allowed(&after) {
                    return Ok(after);
                }
            }
            before = Some(after);
            record *= 2;
        }
        Err(NotSettled { figure: name, record_s: record as f64 / 2.0 * self.signal.symbol_s, moved: last })
    }
}
