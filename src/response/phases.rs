//! The sampling instant at which the worst-pattern eye is highest.
//!
//! One pass over the record gives the eye height at every phase that is a sample, and what the cursors that change their
//! sign on the way to the next one can add to it; what lies between two samples is looked at only where it may be higher
//! than all of them.

use super::Feedback;
use super::optimum::{best_of_cells, largest};
use super::strip::{Cell, SMOOTH, Settings};

/// Phases added up at a time: their sums and extremes stay in the registers of every machine.
const BLOCK: usize = 8;

/// The sign of a number.
const SIGN: u64 = 1 << 63;

/// A pulse whose eye is looked for.
pub(super) struct Phases<'a> {
    pub(super) samples: &'a [f64],
    pub(super) per_symbol: usize,
    pub(super) weight: f64,
    pub(super) feedback: Feedback,
    /// What every phase adds up to over the whole record.
    sums: Vec<Sums>,
}

/// One phase over all unit intervals.
#[derive(Debug, Clone, Copy)]
struct Sums {
    /// Σ|h_k|.
    sizes: f64,
    /// The largest gain of a sample as the main cursor.
    gain: f64,
    /// 2 Σ|h_k| over the cursors that have another sign at the next phase.
    before: f64,
    /// The same of their values there.
    after: f64,
}

impl Phases<'_> {
    pub(super) fn new(samples: &[f64], per_symbol: usize, levels: u32, feedback: Feedback) -> Phases<'_> {
        let weight = f64::from(levels.saturating_sub(1));
        let mut sums = Vec::with_capacity(per_symbol);
        let whole = per_symbol - per_symbol % BLOCK;
        for phase in (0..whole).step_by(BLOCK) {
            sums.extend(add_up::<BLOCK>(samples, per_symbol, phase, weight));
        }
        for phase in whole..per_symbol {
            sums.extend(add_up::<1>(samples, per_symbol, phase, weight));
        }
        let taps = feedback.taps.min(samples.len() / per_symbol - 1);
        let mut phases = Phases { samples, per_symbol, weight, feedback: Feedback { taps, ..feedback }, sums };
        if taps > 0 {
            for phase in 0..per_symbol {
                phases.sums[phase].gain = phases.gain(phases.main_of_all(phase));
            }
        }
        phases
    }

    /// What sample `i`, within the record, adds to EH as the main cursor: itself, and what is no interference for it.
    fn gain(&self, i: usize) -> f64 {
        let x = self.samples[i];
        let mut gain = x + self.weight * x.abs();
        for h in self.fed_back(i) {
            gain += self.weight * self.feedback.tap(h, x).abs();
        }
        gain
    }

    /// The cursors that decision feedback reaches, `main` being the main one.
    fn fed_back(&self, main: usize) -> impl Iterator<Item = f64> + '_ {
        let len = self.samples.len();
        (1..=self.feedback.taps).map(move |k| self.samples[(main + k * self.per_symbol) % len])
    }

    /// EH with sample `i`, within the record, as the main cursor.
    fn at(&self, i: usize) -> f64 {
        self.gain(i) - self.weight * self.sums[i % self.per_symbol].sizes
    }

    /// EH with sample `i` as the main cursor and the feedback `held` at these taps.
    pub(super) fn held_at(&self, i: i64, held: &[f64]) -> f64 {
        let i = i.rem_euclid(self.samples.len() as i64) as usize;
        let x = self.samples[i];
        let off: f64 = self.fed_back(i).zip(held).map(|(h, tap)| h.abs() - (h - tap).abs()).sum();
        x + self.weight * (x.abs() + off - self.sums[i % self.per_symbol].sizes)
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

    /// The cell from sample `main` to the next.
    pub(super) fn cell(&self, main: usize, held: Option<&[f64]>) -> Cell {
        let Phases { samples, per_symbol, weight, feedback, .. } = *self;
        Cell::new(&Settings { samples, per_symbol, weight, feedback, held }, main)
    }

    /// The best position, in samples, and EH there: at most `allowed` of the best sample's EH below the maximum.
    pub(super) fn best(&self, allowed: impl Fn(f64) -> f64) -> (f64, f64) {
        let (n, len) = (self.per_symbol, self.samples.len());
        let heights: Vec<f64> = self.sums.iter().map(|sums| sums.gain - self.weight * sums.sizes).collect();
        let first = largest(&heights);
        // The best main cursor of every phase: as a rule the sample after that of the phase before.
        let mut mains = vec![self.main_of_all(first); n];
        let mut main = mains[first];
        let best = (main as f64, heights[first]);
        for phase in (first + 1..n).chain(0..first) {
            main = if main + 1 == len { 0 } else { main + 1 };
            if self.gain(main) < self.sums[phase].gain {
                main = self.main_of_all(phase);
            }
            mains[phase] = main;
        }
        // Between two samples the main cursor of either may be the better one.
        let other = |phase: usize| (mains[(phase + 1) % n] + len - 1) % len;
        let reaches = (0..n).map(|phase| {
            let (main, other) = (mains[phase], other(phase));
            let reach = self.reach(main, &mains, &heights);
            if main == other { reach } else { reach.max(self.reach(other, &mains, &heights)) }
        });
        best_of_cells(reaches.collect(), allowed(best.1), best, |phase, best| {
            let (main, other) = (mains[phase], other(phase));
            for i in [main, other].into_iter().take(if main == other { 1 } else { 2 }) {
                let (u, h) = self.cell(i, None).highest(best.1);
                if h > best.1 {
                    *best = (i as f64 + u, h);
                }
            }
        })
    }

    /// What EH can rise to between sample `main`, as the main cursor, and the next.
    ///
    /// Between two samples EH is smooth but for a cusp wherever a cursor changes its sign. With the signs of either end it
    /// would go on smoothly, and lies below both of these: below the point where their chords meet, and what they bulge.
    fn reach(&self, main: usize, mains: &[usize], heights: &[f64]) -> f64 {
        let (n, len) = (self.per_symbol, self.samples.len());
        let phase = main % n;
        let around = [(main + len - 1) % len, main, (main + 1) % len, (main + 2) % len];
        let phases = [(phase + n - 1) % n, phase, (phase + 1) % n, (phase + 2) % n];
        let height = |j: usize| {
            let (i, phase) = (around[j], phases[j]);
            if mains[phase] == i { heights[phase] } else { self.at(i) }
        };
        let [a, b, c, d] = std::array::from_fn(height);
        let [left, here, right] = std::array::from_fn(|j| self.turns(around[j], phases[j]));
        // Each side with its own signs: at the sample before, at both ends, at the sample after.
        let bend = |x: f64, y: f64, z: f64| 2.0 * y - x - z;
        let from_left = bend(a + left.0, b, c + here.1);
        let from_right = bend(b + here.0, c, d + right.1);
        let bulge = SMOOTH * from_left.max(from_right).max(0.0);
        let top = b.max(c);
        let (p, q) = here;
        if p * q > 0.0 {
            let meets = c + q > b && b + p > c;
            return bulge + if meets { b + (c - b + q) * p / (p + q) } else { top };
        }
        let slope = (c - b).abs();
        if slope < 4.0 * bulge { top + bulge * (1.0 - slope / (4.0 * bulge)).powi(2) } else { top }
    }

    /// What EH gains at sample `main`, and at the next, if the cursors that change their sign between them kept that of
    /// the other.
    fn turns(&self, main: usize, phase: usize) -> (f64, f64) {
        let mut turns = (self.sums[phase].before, self.sums[phase].after);
        if self.feedback.limit.is_finite() {
            // A tap that reaches its limit bends EH as half a cursor |h_k| − r h_0 that changes its sign.
            let next = (main + 1) % self.samples.len();
            let beyond = |h: f64, i: usize| h.abs() - self.feedback.limit * self.samples[i].abs();
            for (h, g) in self.fed_back(main).zip(self.fed_back(next)) {
                let (x, y) = (beyond(h, main), beyond(g, next));
                if (x < 0.0) != (y < 0.0) {
                    turns = (turns.0 + x.abs(), turns.1 + y.abs());
                }
            }
        }
        (turns.0 * self.weight, turns.1 * self.weight)
    }
}

/// What the `N` phases from `phase` on add up to.
///
/// The gain x + weight |x| is convex in x, so that the largest is that of the largest or of the smallest sample.
fn add_up<const N: usize>(samples: &[f64], per_symbol: usize, phase: usize, weight: f64) -> [Sums; N] {
    let (mut sizes, mut top, mut bottom) = ([0.0; N], [f64::NEG_INFINITY; N], [f64::INFINITY; N]);
    let (mut before, mut after) = ([0.0; N], [0.0; N]);
    for start in (phase..samples.len()).step_by(per_symbol) {
        let here: &[f64] = &samples[start..start + N];
        let round: [f64; N];
        let next = match samples.get(start + 1..start + 1 + N) {
            Some(next) => next,
            None => {
                round = std::array::from_fn(|j| samples[(start + 1 + j) % samples.len()]);
                &round
            }
        };
        for (j, (x, y)) in here.iter().zip(next).enumerate() {
            let (x_size, y_size) = (x.abs(), y.abs());
            sizes[j] += x_size;
            top[j] = if top[j] > *x { top[j] } else { *x };
            bottom[j] = if bottom[j] < *x { bottom[j] } else { *x };
            // Nothing where both have one sign, twice the size where not: no branch.
            let apart = (x.to_bits() ^ y.to_bits()) & SIGN;
            before[j] += x_size - f64::from_bits(x_size.to_bits() | apart);
            after[j] += y_size - f64::from_bits(y_size.to_bits() | apart);
        }
    }
    let gain = |x: f64| x + weight * x.abs();
    std::array::from_fn(|j| Sums {
        sizes: sizes[j],
        gain: gain(top[j]).max(gain(bottom[j])),
        before: before[j],
        after: after[j],
    })
}
