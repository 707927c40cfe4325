//! The sampling instant at which the worst-pattern eye is highest.
//!
//! One pass over the record gives the eye height at every phase that is a sample; what lies between two of them is looked
//! at only where it may be higher than all of them.

use super::optimum::{best_of_cells, highest_in_cell, largest};
use super::strip::Cell;

/// What the lines through its neighbours say a peak between samples rises by, times this, is the most it is taken to rise.
const OVERSHOOT: f64 = 1.5;

/// Phases added up at a time: their sums and extremes stay in the registers of every machine.
const BLOCK: usize = 8;

/// A pulse whose eye is looked for.
pub(super) struct Phases<'a> {
    pub(super) samples: &'a [f64],
    pub(super) per_symbol: usize,
    pub(super) weight: f64,
    pub(super) dfe: usize,
    /// Σ|h_k| over the whole record at every phase.
    pub(super) sums: Vec<f64>,
    /// The largest gain of a sample as the main cursor at every phase.
    gains: Vec<f64>,
}

impl Phases<'_> {
    pub(super) fn new(samples: &[f64], per_symbol: usize, levels: u32, dfe: usize) -> Phases<'_> {
        let weight = f64::from(levels.saturating_sub(1));
        let (mut sums, mut gains) = (Vec::with_capacity(per_symbol), Vec::with_capacity(per_symbol));
        let mut add = |(sum, gain): (&[f64], &[f64])| {
            sums.extend_from_slice(sum);
            gains.extend_from_slice(gain);
        };
        let whole = per_symbol - per_symbol % BLOCK;
        for phase in (0..whole).step_by(BLOCK) {
            let (sum, gain) = add_up::<BLOCK>(samples, per_symbol, phase, weight);
            add((&sum, &gain));
        }
        for phase in whole..per_symbol {
            let (sum, gain) = add_up::<1>(samples, per_symbol, phase, weight);
            add((&sum, &gain));
        }
        let mut phases =
            Phases { samples, per_symbol, weight, dfe: dfe.min(samples.len() / per_symbol - 1), sums, gains };
        if phases.dfe > 0 {
            let gains = (0..per_symbol).map(|phase| phases.gain(phases.main_of_all(phase)));
            phases.gains = gains.collect();
        }
        phases
    }

    /// What sample `i`, within the record, adds to EH as the main cursor: itself, and what is no interference for it.
    fn gain(&self, i: usize) -> f64 {
        let x = self.samples[i];
        let mut gain = x + self.weight * x.abs();
        for j in 1..=self.dfe {
            gain += self.weight * self.samples[(i + j * self.per_symbol) % self.samples.len()].abs();
        }
        gain
    }

    /// EH with sample `i` as the main cursor.
    pub(super) fn at(&self, i: i64) -> f64 {
        let i = i.rem_euclid(self.samples.len() as i64) as usize;
        self.gain(i) - self.weight * self.sums[i % self.per_symbol]
    }

    /// The sample that makes the best main cursor at `phase`: the largest, unless feedback cancels much elsewhere.
    fn main_of_all(&self, phase: usize) -> usize {
        let mut best = (phase, f64::NEG_INFINITY);
        for i in (phase..self.samples.len()).step_by(self.per_symbol) {
            let gain = self.gain(i);
            if gain > best.1 {
                best = (i, gain);
            }
        }
        best.0
    }

    /// The same, `guess` being a sample of that phase that may be it.
    fn main(&self, guess: usize) -> usize {
        let phase = guess % self.per_symbol;
        if self.gain(guess) >= self.gains[phase] { guess } else { self.main_of_all(phase) }
    }

    /// The best position, in samples, and EH there: at most `allowed` of the best sample's EH below the maximum.
    pub(super) fn best(&self, allowed: impl Fn(f64) -> f64) -> (f64, f64) {
        let (n, len) = (self.per_symbol, self.samples.len());
        let mut round = Vec::with_capacity(n + 3);
        round.push(0.0);
        round.extend(self.gains.iter().zip(&self.sums).map(|(gain, sum)| gain - self.weight * sum));
        round[0] = round[n];
        round.push(round[1]);
        round.push(round[2]);
        let heights = &round[1..=n];
        let mut phase = largest(heights);
        let mut main = self.main_of_all(phase);
        let best = (main as f64, heights[phase]);
        let reaches = round.windows(4).map(|four| reach(four, best.1)).collect();
        best_of_cells(reaches, allowed(best.1), best, |next, best| {
            // Between two samples the main cursor of either may be the better one.
            main = self.main((main + len + next - phase) % len);
            phase = next;
            let other = (self.main((main + 1) % len) + len - 1) % len;
            for i in [main, other].into_iter().take(if main == other { 1 } else { 2 }) {
                let cell = Cell::new(self.samples, n, i, self.weight, self.dfe);
                let (u, h) = highest_in_cell(|u| cell.height(u));
                if h > best.1 {
                    *best = (i as f64 + u, h);
                }
            }
        })
    }
}

/// Σ|x| and the largest gain x + weight |x| at each of the `N` phases from `phase` on, over all unit intervals.
///
/// The gain is convex in x, so that the largest is that of the largest or of the smallest sample.
fn add_up<const N: usize>(samples: &[f64], per_symbol: usize, phase: usize, weight: f64) -> ([f64; N], [f64; N]) {
    let (mut sum, mut top, mut bottom) = ([0.0; N], [f64::NEG_INFINITY; N], [f64::INFINITY; N]);
    for row in samples.chunks_exact(per_symbol) {
        for (j, x) in row[phase..phase + N].iter().enumerate() {
            sum[j] += x.abs();
            top[j] = if top[j] > *x { top[j] } else { *x };
            bottom[j] = if bottom[j] < *x { bottom[j] } else { *x };
        }
    }
    let gain = |x: f64| x + weight * x.abs();
    (sum, std::array::from_fn(|j| gain(top[j]).max(gain(bottom[j]))))
}

/// What the middle cell of four samples can rise to: where the lines from either side meet, and half as much again.
///
/// Exact where it may be above `highest`, that of all samples.
fn reach(four: &[f64], highest: f64) -> f64 {
    let &[a, b, c, d] = four else { return f64::NEG_INFINITY };
    let (rise, fall) = (b - a, d - c);
    let top = if b > c { b } else { c };
    let steepest = if rise > -fall { rise } else { -fall };
    let most = top + OVERSHOOT * steepest;
    if most <= highest || rise <= fall {
        return top;
    }
    let u = ((c - fall - b) / (rise - fall)).clamp(0.0, 1.0);
    top + OVERSHOOT * (b + rise * u - top).max(0.0)
}
