//! The worst-pattern eye of a pulse: peak distortion, its height and its width.

use super::phases::Phases;
use super::strip::cursors;
use super::tail::{QUIET, Tail};
use super::{Feedback, Pulse, brent};

/// An eye height below this counts as closed: what is left is the round-off of a path that passes no direct current.
pub const CLOSED: f64 = 1e-4;

/// The eye that no pattern can close further.
#[derive(Debug, Clone, PartialEq)]
pub struct Eye {
    /// Opening at the best phase relative to the ideal eye; negative when closed.
    pub height: f64,
    /// What the height has lost to tails of earlier periods that come round in the record.
    pub tail: f64,
    /// Taps of the decision feedback, set at the best phase.
    pub taps: Vec<f64>,
    /// Span of the phase with an open eye in unit intervals, 0 (closed) to 1; the taps stay.
    pub width_ui: f64,
    /// Best sampling instant in second after the middle of the symbol as sent, modulo the record.
    pub at_s: f64,
    /// Record in unit intervals.
    pub record: usize,
}

/// Eye opening in volt: height · swing · 2 Z_rx/(Z_source + Z_rx)/(M − 1), the factor 2 for an open receiver (`None`).
pub fn eye_opening(height: f64, swing_v: f64, source_ohm: f64, receiver_ohm: Option<f64>, levels: u32) -> f64 {
    let divider = receiver_ohm.map_or(2.0, |z| 2.0 * z / (source_ohm + z));
    height * swing_v * divider / f64::from(levels.saturating_sub(1).max(1))
}

impl Pulse {
    /// The worst-pattern eye for `levels` levels, its taps set where it is highest.
    ///
    /// EH(t) = h_0(t) − (M−1) Σ|h_k(t)|, over all cursors of the record less the taps; the height is its maximum over t.
    ///
    /// # References
    /// B. Casper, M. Haycock, R. Mooney, *VLSI Circuits Symp.* 2002, extended to M levels.
    pub fn eye(&self, levels: u32, dfe: Feedback) -> Eye {
        let phases = Phases::new(&self.samples, self.per_symbol, levels, dfe);
        let (position, raw) = phases.best(|_| 0.0);
        let cursors = phases.cursors(position);
        let taps = phases.taps(&cursors);
        let shift = phases.tail_shift(&cursors, &taps);
        Eye {
            height: raw + shift,
            tail: -shift,
            width_ui: phases.width(position, raw, shift, &taps),
            taps,
            at_s: position * self.step_s(),
            record: self.samples.len() / self.per_symbol,
        }
    }
}

/// The eye height alone, as [`Pulse::eye`] has it near `bound`; elsewhere to a 64th of the distance.
pub(super) fn eye_height_near(bound: f64, samples: &[f64], per_symbol: usize, levels: u32, dfe: Feedback) -> f64 {
    let phases = Phases::new(samples, per_symbol, levels, dfe);
    let (position, raw) = phases.best(|height| (height - bound).abs() / 64.0);
    let cursors = phases.cursors(position);
    raw + phases.tail_shift(&cursors, &phases.taps(&cursors))
}

impl Phases<'_> {
    /// The cursors h_0, h_1, … h_−1 with the main one at `position`.
    fn cursors(&self, position: f64) -> Vec<f64> {
        let main = position.floor();
        cursors(self.samples, self.per_symbol, main as usize % self.samples.len(), position - main)
    }

    /// The taps that feedback sets against these cursors.
    fn taps(&self, cursors: &[f64]) -> Vec<f64> {
        let main = cursors.first().copied().unwrap_or(0.0);
        cursors.iter().skip(1).take(self.feedback.taps).map(|h| self.feedback.tap(*h, main)).collect()
    }

    /// What EH changes by when the tails of earlier periods are told apart from the cursors they fall on.
    ///
    /// In a periodic record the slow tail of a lossy line comes round: under the main cursor it passes for signal, and on
    /// cursors of the other sign it hides interference. The record itself shows the tail, a power of time, and so what
    /// has come round is known; it is counted as the interference it is. The shift vanishes as the record grows.
    fn tail_shift(&self, cursors: &[f64], taps: &[f64]) -> f64 {
        let Some(tail) = Tail::of(cursors) else { return 0.0 };
        // What comes round falls with k: a cursor of its sign beyond the first value needs no look.
        let most = tail.come_round(1 - QUIET as i64);
        let (sign, len) = (most.signum(), cursors.len());
        let mut shift = 0.0;
        for (i, seen) in cursors.iter().enumerate() {
            if i > taps.len() && seen * sign >= most.abs() {
                continue;
            }
            // What a tap leaves of its cursor; a tap that cancels all of it cancels what has come round there as well.
            let tap = i.checked_sub(1).and_then(|i| taps.get(i));
            let left = seen - tap.unwrap_or(&0.0);
            let k = if i + QUIET > len { i as i64 - len as i64 } else { i as i64 };
            let w = tail.come_round(k);
            shift += match k {
                0 => -w - self.weight * w.abs(),
                _ if tap.is_some() && left == 0.0 => -self.weight * w.abs(),
                _ => self.weight * (left.abs() - (left - w).abs() - w.abs()),
            };
        }
        shift
    }

    /// Span in unit intervals around `position` with EH + `shift` above zero, the feedback held at `taps`.
    fn width(&self, position: f64, raw: f64, shift: f64, taps: &[f64]) -> f64 {
        if raw + shift < CLOSED {
            return 0.0;
        }
        let n = self.per_symbol as i64;
        let open = |i: i64| self.held_at(i, taps) + shift > 0.0;
        let cell = position.floor() as i64;
        let edge = |mut inside: f64, mut i: i64, way: i64| {
            for _ in 0..n {
                if !open(i) {
                    return self.crossing(inside, i, shift, taps);
                }
                inside = i as f64;
                i += way;
            }
            inside
        };
        let left = edge(position, cell, -1);
        let right = edge(position, cell + 1, 1);
        ((right - left) / n as f64).min(1.0)
    }

    /// Where EH + `shift` vanishes between `inside` (above zero) and the sample `outside`, at most a sample apart.
    fn crossing(&self, inside: f64, outside: i64, shift: f64, taps: &[f64]) -> f64 {
        let start = inside.min(outside as f64).floor();
        let main = start.rem_euclid(self.samples.len() as f64) as usize;
        let cell = self.cell(main, Some(taps));
        let value = |x: f64| Ok::<_, std::convert::Infallible>(cell.height(x - start) + shift);
        let ends = (inside, outside as f64);
        let (Ok(a), Ok(b)) = (value(ends.0), value(ends.1));
        if a <= 0.0 || b > 0.0 {
            return ends.1;
        }
        let Ok(x) = brent(value, ends.0, a, ends.1, b, 1e-12);
        x
    }
}
