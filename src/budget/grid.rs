//! The frequencies a mask is asked at.

use super::{Allowed, Fault, Inequality, Interval, Modulus};
use crate::model::{MaskPoint, level_between};
use crate::network::{Chain, FeedChain};
use crate::response::{MOST_FREQUENCIES, span};
use crate::units::{Hertz, Second};

/// Most frequencies of one mask.
pub(super) const CAP: usize = MOST_FREQUENCIES;
/// Relative distance of two frequencies between which the grid is not divided further.
const CLOSEST: f64 = 1e-9;

/// A mask's limit at one frequency, with what it allows there.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sample {
    pub(super) frequency: f64,
    pub(super) inequality: Inequality,
    pub(super) allowed: Allowed,
}

/// The stretch between two points of a mask; both ends belong to it.
#[derive(Debug)]
pub(super) struct Segment {
    from: MaskPoint,
    to: MaskPoint,
    pub(super) samples: Vec<Sample>,
}

/// A circuit that limits over a span of frequencies are asked of.
pub(super) trait Spectrum {
    /// The limit of `modulus` at `level` at a frequency; `None` where the circuit overflows.
    fn inequality(&self, modulus: Modulus, level: f64, frequency: Hertz) -> Option<Inequality>;

    /// An estimate of its longest delay.
    fn delay(&self) -> Second;

    /// Frequencies in between at which it may do something narrow.
    fn narrow(&self, low: Hertz, high: Hertz, cap: usize) -> Vec<f64>;

    /// Least steps of the grid between two points of a mask.
    fn steps(&self) -> f64 {
        64.0
    }
}

impl Spectrum for Chain {
    fn inequality(&self, modulus: Modulus, level: f64, frequency: Hertz) -> Option<Inequality> {
        let (absent, function) = self.function_at(modulus.function(), frequency);
        (absent.is_finite() && function.is_finite()).then(|| Inequality::of(modulus, level, function, absent))
    }

    fn delay(&self) -> Second {
        self.delay_estimate()
    }

    fn narrow(&self, low: Hertz, high: Hertz, cap: usize) -> Vec<f64> {
        self.resonances(low, high, cap)
    }
}

impl Spectrum for FeedChain {
    fn inequality(&self, modulus: Modulus, level: f64, frequency: Hertz) -> Option<Inequality> {
        let point = self.at(frequency);
        point.is_finite().then(|| Inequality::of(modulus, level, point.reflection, point.absent.reflection))
    }

    fn delay(&self) -> Second {
        self.delay_estimate()
    }

    fn narrow(&self, low: Hertz, high: Hertz, cap: usize) -> Vec<f64> {
        self.resonances(low, high, cap)
    }

    fn steps(&self) -> f64 {
        200.0
    }
}

/// The circuit and the limit of a mask.
#[derive(Clone, Copy)]
pub(super) struct Source<'a> {
    pub(super) circuit: &'a dyn Spectrum,
    pub(super) modulus: Modulus,
}

impl Source<'_> {
    // Samples are large: what is inlined writes them where they stay.
    #[inline(always)]
    fn sample(&self, frequency: f64, level: f64) -> Result<Sample, Fault> {
        let inequality =
            self.circuit.inequality(self.modulus, level, Hertz(frequency)).ok_or(Fault::NotFinite(Hertz(frequency)))?;
        Ok(Sample { frequency, inequality, allowed: inequality.allowed() })
    }

    fn full(&self) -> Fault {
        Fault::TooManyFrequencies { figure: self.modulus.figure(), cap: CAP }
    }
}

impl Segment {
    /// The stretch from one point to the next, which may be the same frequency: a step.
    pub(super) fn new(source: &Source, from: MaskPoint, to: MaskPoint) -> Result<Self, Fault> {
        let mut segment = Segment { from, to, samples: Vec::new() };
        let (low, high) = (from.frequency.0, to.frequency.0);
        if low == high {
            segment.samples = vec![source.sample(low, from.level)?, source.sample(high, to.level)?];
            return Ok(segment);
        }
        let delay = source.circuit.delay().0;
        let narrow = source.circuit.narrow(Hertz(low), Hertz(high), CAP);
        let frequencies = span(low, high, source.circuit.steps(), delay, narrow).ok_or(source.full())?;
        // Room for all at once: samples are large, and there are hundreds.
        let mut samples = Vec::with_capacity(frequencies.len());
        for frequency in frequencies {
            samples.push(segment.sample(source, frequency)?);
        }
        segment.samples = samples;
        Ok(segment)
    }

    /// Whether it is a step or a single point.
    pub(super) fn is_point(&self) -> bool {
        self.from.frequency == self.to.frequency
    }

    /// The limit at a frequency of the stretch: straight in level over log f.
    #[inline]
    pub(super) fn sample(&self, source: &Source, frequency: f64) -> Result<Sample, Fault> {
        source.sample(frequency, level_between(self.from, self.to, frequency))
    }

    /// Adds a sample where its frequency is not there yet.
    pub(super) fn insert(&mut self, sample: Sample) {
        let place = self.samples.binary_search_by(|s| s.frequency.total_cmp(&sample.frequency));
        if let Err(at) = place {
            self.samples.insert(at, sample);
        }
    }

    /// Divides the stretch until what neighbours forbid hangs together, so that a forbidden range that slides with
    /// frequency leaves no false island between them. Returns whether anything was added.
    pub(super) fn bridge(&mut self, source: &Source) -> Result<bool, Fault> {
        let coherent = |pair: &[Sample]| !must_divide(&pair[0], &pair[1]);
        if self.is_point() || self.samples.windows(2).all(coherent) {
            return Ok(false);
        }
        let old = std::mem::take(&mut self.samples);
        let mut new = Vec::with_capacity(old.len() * 2);
        let mut ahead: Vec<Sample> = old.into_iter().rev().collect();
        while let Some(next) = ahead.pop() {
            if let Some(last) = new.last().filter(|last| must_divide(last, &next)) {
                let between = self.sample(source, (last.frequency * next.frequency).sqrt())?;
                ahead.push(next);
                ahead.push(between);
            } else {
                new.push(next);
            }
            if new.len() + ahead.len() > CAP {
                return Err(source.full());
            }
        }
        self.samples = new;
        Ok(true)
    }
}

fn must_divide(a: &Sample, b: &Sample) -> bool {
    if b.frequency - a.frequency <= CLOSEST * a.frequency {
        return false;
    }
    let (first, second) = (forbidden(&a.allowed), forbidden(&b.allowed));
    let meets = |x: &Interval, others: &[Option<Interval>]| {
        others.iter().flatten().any(|y| x.low.max(y.low) < x.high.min(y.high))
    };
    !(first.iter().flatten().all(|x| meets(x, &second)) && second.iter().flatten().all(|x| meets(x, &first)))
}

/// The open gaps that an allowed set leaves in 0…∞.
fn forbidden(allowed: &Allowed) -> [Option<Interval>; 3] {
    let mut gaps = [None; 3];
    let mut low = 0.0;
    for (gap, part) in gaps.iter_mut().zip(allowed.intervals()) {
        *gap = (low < part.low).then_some(Interval { low, high: part.low });
        low = part.high;
    }
    gaps[2] = (low < f64::INFINITY).then_some(Interval { low, high: f64::INFINITY });
    gaps
}
