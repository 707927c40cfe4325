//! The frequency of least reflection, followed as the capacitance grows.

use super::feed::waves;
use super::optimum::{bottom, downhill, secants};
use super::{Case, span};
use crate::model::Band;
use crate::network::FeedChain;
use crate::units::Hertz;

/// Share of [`FeedChain::scale`] over which slopes are taken: small against what bends, large against round-off.
const SLOPE_STEP: f64 = 3e-3;
/// Share of the scale of one step downhill.
const STRIDE: f64 = 1.0 / 16.0;
/// Relative step in capacitance below which a minimum that cannot be followed is lost.
const LOST: f64 = 1e-9;
/// Most steps in capacitance: a minimum that runs faster counts as lost.
const MOST_STEPS: usize = 4096;
/// Multiple of the capacitance that matters beyond which more of it changes nothing: the protector is a short.
const LARGEST: f64 = 1e3;

/// The local minimum of |Γ| that is the deepest without the protector, within half the band's lower and twice its upper
/// end.
#[derive(Debug)]
pub struct Resonance<'a> {
    chain: &'a FeedChain,
    low: f64,
    high: f64,
    absent: Option<f64>,
    /// Capacitances, rising from 0, with their frequencies.
    known: Vec<(f64, f64)>,
    /// The least capacitance at which it is lost.
    lost: Option<f64>,
    /// A capacitance that matters: 1/(π f Z).
    unit: f64,
}

impl<'a> Resonance<'a> {
    /// Finds the minimum without protector, and runs downhill from there when the empty footprint appears.
    ///
    /// There is none for an antenna that is no resonator, nor where the reflection is least at an edge of the range.
    pub fn new(chain: &'a FeedChain, band: Band) -> Self {
        let mut resonance = Self::unset(chain, band);
        if chain.antenna().resonator().is_some() {
            resonance.absent = resonance.deepest();
        }
        resonance.begin()
    }

    /// The same minimum in the same feed with another footprint.
    pub fn with_footprint_of<'b>(&self, chain: &'b FeedChain, band: Band) -> Resonance<'b> {
        let resonance = Resonance { absent: self.absent, ..Resonance::unset(chain, band) };
        resonance.begin()
    }

    fn unset(chain: &'a FeedChain, band: Band) -> Self {
        Resonance {
            chain,
            low: 0.5 * band.low.0,
            high: 2.0 * band.high.0,
            absent: None,
            known: Vec::new(),
            lost: None,
            unit: 1.0 / (std::f64::consts::PI * band.middle().0 * chain.reference().0),
        }
    }

    /// Runs downhill from the frequency without protector when the empty footprint appears.
    fn begin(mut self) -> Self {
        match self.absent.and_then(|f| self.downhill(f, Case::With(0.0))) {
            Some(f) => self.known.push((0.0, f)),
            None => self.lost = Some(0.0),
        }
        self
    }

    /// The frequency without protector.
    pub fn absent(&self) -> Option<Hertz> {
        self.absent.map(Hertz)
    }

    /// The frequency with `c` farad: the minimum followed from C = 0. `None` where it reached the edge or merged with a
    /// maximum on the way.
    pub fn at(&mut self, c: f64) -> Option<Hertz> {
        let c = c.min(LARGEST * self.unit);
        let mut stride = 0.05 * self.unit;
        loop {
            if self.lost.is_some_and(|lost| lost <= c) {
                return None;
            }
            let above = self.known.partition_point(|(known, _)| *known <= c);
            let (from, f) = *self.known.get(above.checked_sub(1)?)?;
            if from == c {
                return Some(Hertz(f));
            }
            if let Some((to, g)) = self.known.get(above).copied() {
                let guess = f + (g - f) * (c - from) / (to - from);
                // Between known neighbours the guess is close, or the minimum bends: then it is followed from below.
                if let Some(found) = self.near(guess, Case::With(c)) {
                    return Some(Hertz(found));
                }
                self.known.truncate(above);
            }
            stride = stride.min(0.5 * from + 0.05 * self.unit);
            loop {
                let next = (from + stride).min(c);
                let slope = match self.known[..above] {
                    [.., (c0, f0), (c1, f1)] => (f1 - f0) / (c1 - c0),
                    _ => 0.0,
                };
                let guess = f + slope * (next - from);
                let found = self.near(guess, Case::With(next));
                if let Some(found) = found.filter(|_| self.known.len() <= MOST_STEPS) {
                    self.known.push((next, found));
                    stride *= 2.0;
                    break;
                }
                stride = 0.5 * (next - from);
                if stride < LOST * (from + 1e-3 * self.unit) || self.known.len() > MOST_STEPS {
                    self.lost = Some(next);
                    break;
                }
            }
        }
    }

    /// The minimum of another circuit of the same antenna that lies downhill from the frequency without protector.
    pub fn beside(&self, chain: &FeedChain, c: f64) -> Option<Hertz> {
        let other = Resonance { chain, known: Vec::new(), ..*self };
        other.downhill(self.absent?, Case::With(c)).map(Hertz)
    }

    fn reflection(&self, f: f64, case: Case) -> f64 {
        waves(&self.chain.at(Hertz(f)), case).reflection.norm_sqr()
    }

    fn scale(&self, f: f64) -> f64 {
        self.chain.scale(Hertz(f)).0
    }

    /// Slope of |Γ|² over frequency, from four points around.
    fn slope(&self, f: f64, case: Case) -> f64 {
        let h = SLOPE_STEP * self.scale(f);
        let g = |k: f64| self.reflection(f + k * h, case);
        (8.0 * (g(1.0) - g(-1.0)) - (g(2.0) - g(-2.0))) / (12.0 * h)
    }

    /// The deepest minimum without protector; `None` at an edge.
    fn deepest(&self) -> Option<f64> {
        let (low, high) = (Hertz(self.low), Hertz(self.high));
        let narrow = self.chain.resonances(low, high, super::MOST_FREQUENCIES);
        let grid = span(self.low, self.high, 200.0, self.chain.delay_estimate().0, narrow)?;
        let depth: Vec<f64> = grid.iter().map(|f| self.reflection(*f, Case::Absent)).collect();
        let least = depth.iter().copied().fold(f64::INFINITY, f64::min);
        let last = grid.len() - 1;
        let minima = (1..last).filter(|i| depth[*i] <= depth[i - 1] && depth[*i] <= depth[i + 1]);
        let mut best: Option<(f64, f64)> = None;
        for i in minima {
            // Between its points a grid may hide so much of a minimum and little more.
            let hidden = depth[i - 1].max(depth[i + 1]) - depth[i];
            if depth[i] - hidden > least {
                continue;
            }
            // Neighbours of the grid may be too close for a slope to tell them apart.
            let apart = 0.01 * self.scale(grid[i]);
            let (low, high) = (grid[i - 1].min(grid[i] - apart), grid[i + 1].max(grid[i] + apart));
            let Some(f) = bottom(|f| self.slope(f, Case::Absent), low, high) else {
                continue;
            };
            let reached = self.reflection(f, Case::Absent);
            if best.is_none_or(|(_, deepest)| reached < deepest) {
                best = Some((f, reached));
            }
        }
        let edge = depth[0].min(depth[last]);
        best.filter(|(_, deepest)| *deepest < edge).map(|(f, _)| f)
    }

    /// The minimum within a stride of a guess: by secants of the slope where it rises throughout, else between both ends.
    fn near(&self, guess: f64, case: Case) -> Option<f64> {
        let stride = STRIDE * self.scale(guess);
        if guess - stride <= 0.0 {
            return None;
        }
        let slope = |f: f64| self.slope(f, case);
        let found = secants(slope, guess, stride).or_else(|| bottom(slope, guess - stride, guess + stride));
        found.filter(|f| self.low < *f && *f < self.high)
    }

    /// The minimum that lies downhill from a frequency; `None` where the edge comes first.
    fn downhill(&self, from: f64, case: Case) -> Option<f64> {
        downhill(|f| self.slope(f, case), from, STRIDE * self.scale(from), self.low, self.high)
    }
}
