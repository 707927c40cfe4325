//! Limits over a span of frequencies.

use super::grid::{Sample, Segment, Source, Spectrum};
use super::{Fault, IntervalSet, Modulus};
use crate::model::Mask;
use crate::response::{Case, ROUGH, is_peak, may_be_peak, summit};
use crate::units::Hertz;

/// An excess below this is round-off, in neper.
const QUIET: f64 = 1e-13;
/// Relative move of an end below which it stands.
const SETTLED: f64 = 1e-11;
const ROUNDS: usize = 60;

/// A mask on a circuit: its refined grid and the set it allows.
pub(super) struct OverMask<'a> {
    source: Source<'a>,
    segments: Vec<Segment>,
    allowed: IntervalSet,
}

impl<'a> OverMask<'a> {
    /// Intersects the exact sets of a grid of frequencies and refines it around every frequency that binds an end.
    ///
    /// Every end of the set, and some capacitances between, are taken in turn: where the limit's excess at that
    /// capacitance has a maximum between grid points that may be positive, the maximum is found and joins the grid, until
    /// the ends stand still.
    ///
    /// # Errors
    /// [`Fault::TooManyFrequencies`] above the cap of the grid; [`Fault::NotFinite`] where the chain overflows.
    pub(super) fn solve(circuit: &'a dyn Spectrum, modulus: Modulus, mask: &Mask) -> Result<Self, Fault> {
        let source = Source { circuit, modulus };
        let points = mask.points();
        let pairs = points.windows(2).map(|pair| (pair[0], pair[1]));
        let alone = (points.len() == 1).then(|| (points[0], points[0]));
        let segments = pairs.chain(alone).map(|(from, to)| Segment::new(&source, from, to));
        let segments = segments.collect::<Result<Vec<_>, _>>()?;
        let mut solved = OverMask { source, segments, allowed: IntervalSet::all() };
        solved.bridge()?;
        solved.intersect_all();
        for _ in 0..ROUNDS {
            let before = solved.allowed.clone();
            solved.refine()?;
            if settled(&before, &solved.allowed) {
                break;
            }
        }
        Ok(solved)
    }

    /// The set the mask allows.
    pub(super) fn allowed(&self) -> &IntervalSet {
        &self.allowed
    }

    /// The lowest frequency whose own set has its upper end at `c`; `None` for an open end.
    pub(super) fn binding(&self, c: f64) -> Option<Hertz> {
        let ends_here = |sample: &&Sample| sample.allowed.intervals().iter().any(|i| i.high == c);
        let samples = self.segments.iter().flat_map(|s| &s.samples);
        let first = samples.filter(|_| c.is_finite()).find(ends_here);
        first.map(|sample| Hertz(sample.frequency))
    }

    /// Whether the mask is met with the protector absent.
    pub(super) fn holds_absent(&self, worst: &Sample) -> bool {
        let mut samples = self.segments.iter().flat_map(|s| &s.samples).chain([worst]);
        samples.all(|s| s.inequality.holds_absent())
    }

    /// The limit at the frequency where it is closest to breaking, or broken most.
    pub(super) fn worst(&self, probe: Case) -> Result<Sample, Fault> {
        let excess = |sample: &Sample| sample.inequality.excess(probe);
        let samples = || self.segments.iter().flat_map(|s| &s.samples);
        let squares: Vec<f64> = samples().map(|s| s.inequality.squared(probe)).collect();
        let most = squares.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        // Those that are not below the highest for certain.
        let high: Vec<(&Sample, f64)> = samples()
            .zip(&squares)
            .filter(|(_, square)| square.is_nan() || **square >= most * (1.0 - 4.0 * ROUGH))
            .map(|(sample, _)| (sample, excess(sample)))
            .collect();
        let highest = high.iter().map(|(_, excess)| *excess).fold(f64::NEG_INFINITY, f64::max);
        // A mask has a point, so there is a first sample.
        let first = high.iter().find(|(_, excess)| *excess >= highest - QUIET);
        let mut best = *first.map_or(&self.segments[0].samples[0], |(sample, _)| *sample);
        for segment in &self.segments {
            for peak in peaks(segment, probe, highest) {
                let found = climb(&self.source, segment, peak, probe)?;
                if let Some(found) = found.filter(|f| excess(f) > excess(&best) + QUIET) {
                    best = found;
                }
            }
        }
        Ok(best)
    }

    fn bridge(&mut self) -> Result<bool, Fault> {
        let mut changed = false;
        for segment in &mut self.segments {
            changed |= segment.bridge(&self.source)?;
        }
        Ok(changed)
    }

    fn intersect_all(&mut self) {
        for sample in self.segments.iter().flat_map(|s| &s.samples) {
            let allowed = sample.allowed.intervals();
            if !self.allowed.is_within(allowed) {
                self.allowed = self.allowed.intersect(allowed);
            }
        }
    }

    fn refine(&mut self) -> Result<(), Fault> {
        let mut added = false;
        for probe in probes(&self.allowed) {
            for segment in &mut self.segments {
                for peak in peaks(segment, probe, 0.0) {
                    let Some(found) = climb(&self.source, segment, peak, probe)? else {
                        continue;
                    };
                    if found.inequality.excess(probe) > 0.0 {
                        segment.insert(found);
                        added = true;
                    }
                }
            }
        }
        if added {
            self.bridge()?;
            self.intersect_all();
        }
        Ok(())
    }
}

/// Every end of the set and some capacitances between.
fn probes(allowed: &IntervalSet) -> Vec<Case> {
    const BETWEEN: [f64; 7] = [0.01, 0.05, 0.15, 0.35, 0.55, 0.75, 0.92];
    const DECADES: std::ops::Range<i32> = -16..-6;
    let mut probes = Vec::new();
    for interval in allowed.intervals() {
        let (low, high) = (interval.low, interval.high);
        probes.extend([low, high]);
        if high.is_finite() {
            probes.extend(BETWEEN.map(|share| low + share * (high - low)));
        } else {
            probes.extend(DECADES.map(|decade| low + 10f64.powi(decade)));
        }
    }
    probes.into_iter().map(Case::With).collect()
}

/// A maximum of the excess on the grid.
#[derive(Debug, Clone, Copy)]
struct Peak {
    /// Frequencies below, at and above it; equal ones at the end of a segment.
    around: [f64; 3],
    excess: f64,
}

/// Maxima on the grid that may exceed `threshold` between its points.
fn peaks(segment: &Segment, probe: Case, threshold: f64) -> Vec<Peak> {
    if segment.is_point() {
        return Vec::new();
    }
    let samples = &segment.samples;
    let squares: Vec<f64> = samples.iter().map(|s| s.inequality.squared(probe)).collect();
    let squared_threshold = (2.0 * threshold).exp();
    let last = samples.len().saturating_sub(1);
    let neighbours = (0..samples.len()).map(|i| [i.saturating_sub(1), i, (i + 1).min(last)]);
    let hopeful = neighbours.filter(|indices| may_be_peak(indices.map(|i| squares[i]), squared_threshold));
    let exact = hopeful.filter_map(|indices| {
        let excess = indices.map(|i| samples[i].inequality.excess(probe));
        let around = indices.map(|i| samples[i].frequency);
        is_peak(excess, threshold, QUIET).then_some(Peak { around, excess: excess[1] })
    });
    exact.collect()
}

/// The maximum near a peak, where it is above the grid's own.
fn climb(source: &Source, segment: &Segment, peak: Peak, probe: Case) -> Result<Option<Sample>, Fault> {
    let excess = |frequency: f64| segment.sample(source, frequency).map(|s| s.inequality.excess(probe));
    let Some(frequency) = summit(peak.around, peak.excess, excess)? else {
        return Ok(None);
    };
    let sample = segment.sample(source, frequency)?;
    Ok((sample.inequality.excess(probe) > peak.excess).then_some(sample))
}

fn settled(before: &IntervalSet, after: &IntervalSet) -> bool {
    let close = |a: f64, b: f64| a == b || (a - b).abs() <= SETTLED * a.abs();
    let (before, after) = (before.intervals(), after.intervals());
    before.len() == after.len() && before.iter().zip(after).all(|(a, b)| close(a.low, b.low) && close(a.high, b.high))
}
