//! The worst-pattern eye of a pulse: peak distortion, the best sampling phase, the width.

use super::strip::{Cell, cursors};
use super::tail::{QUIET, Tail};
use super::{Pulse, brent};

/// The eye that no pattern can close further.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Eye {
    /// Opening at the best phase relative to the ideal eye; negative when closed.
    pub height: f64,
    /// Span of the phase with an open eye in unit intervals, 0 (closed) to 1.
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
    /// The worst-pattern eye for `levels` levels, with `dfe` later cursors cancelled at every phase.
    ///
    /// EH(t) = h_0(t) − (M−1) Σ|h_k(t)|, over all cursors of the record; the height is its maximum over t.
    ///
    /// # References
    /// B. Casper, M. Haycock, R. Mooney, *VLSI Circuits Symp.* 2002, extended to M levels.
    pub fn eye(&self, levels: u32, dfe: usize) -> Eye {
        let search = Search::new(self, levels, dfe);
        let (position, raw) = search.best();
        let shift = search.tail_shift(position);
        Eye {
            height: raw + shift,
            width_ui: search.width(position, raw, shift),
            at_s: position * self.step_s(),
            record: self.samples.len() / self.per_symbol,
        }
    }
}

impl Pulse {
    /// The eye height alone, as [`Pulse::eye`] has it.
    pub(super) fn eye_height(&self, levels: u32, dfe: usize) -> f64 {
        let search = Search::new(self, levels, dfe);
        let (position, raw) = search.best();
        raw + search.tail_shift(position)
    }
}

struct Search<'a> {
    pulse: &'a Pulse,
    weight: f64,
    dfe: usize,
    /// Σ|h_k| over the whole record at every phase.
    sums: Vec<f64>,
}

impl Search<'_> {
    fn new(pulse: &Pulse, levels: u32, dfe: usize) -> Search<'_> {
        let n = pulse.per_symbol;
        let mut sums = vec![0.0; n];
        for row in pulse.samples.chunks_exact(n) {
            for (sum, x) in sums.iter_mut().zip(row) {
                *sum += x.abs();
            }
        }
        Search {
            pulse,
            weight: f64::from(levels.saturating_sub(1)),
            dfe: dfe.min(pulse.samples.len() / n - 1),
            sums,
        }
    }

    fn cell(&self, main: i64) -> Cell {
        let main = main.rem_euclid(self.pulse.samples.len() as i64) as usize;
        Cell::new(&self.pulse.samples, self.pulse.per_symbol, main, self.weight, self.dfe)
    }

    /// EH with sample `i` as the main cursor.
    fn at(&self, i: i64) -> f64 {
        let (samples, n) = (&self.pulse.samples, self.pulse.per_symbol);
        let i = i.rem_euclid(samples.len() as i64) as usize;
        let x = samples[i];
        let cancelled: f64 = (1..=self.dfe).map(|j| samples[(i + j * n) % samples.len()].abs()).sum();
        x - self.weight * (self.sums[i % n] - x.abs() - cancelled)
    }

    /// For every phase the sample that makes the best main cursor: the largest, unless feedback cancels much elsewhere.
    fn mains(&self) -> Vec<i64> {
        let (samples, n) = (&self.pulse.samples, self.pulse.per_symbol);
        let mut best = vec![f64::NEG_INFINITY; n];
        let mut rows = vec![0u32; n];
        let mut scratch = vec![0.0; n];
        for (k, row) in samples.chunks_exact(n).enumerate() {
            scratch
                .iter_mut()
                .zip(row)
                .for_each(|(s, x)| *s = x + self.weight * x.abs());
            for j in 1..=self.dfe {
                let from = (k + j) * n % samples.len();
                let later = &samples[from..from + n];
                scratch
                    .iter_mut()
                    .zip(later)
                    .for_each(|(s, x)| *s += self.weight * x.abs());
            }
            for ((best, at), s) in best.iter_mut().zip(&mut rows).zip(&scratch) {
                if s > best {
                    (*best, *at) = (*s, k as u32);
                }
            }
        }
        rows.iter()
            .enumerate()
            .map(|(phase, row)| (*row as usize * n + phase) as i64)
            .collect()
    }

    /// The best position, in samples, and EH there.
    fn best(&self) -> (f64, f64) {
        let mains = self.mains();
        let (mut position, mut height) = (0.0, f64::NEG_INFINITY);
        for &i in &mains {
            let h = self.at(i);
            if h > height {
                (position, height) = (i as f64, h);
            }
        }
        // Between two samples the better end's main cursor, seen from either side.
        let mut cells: Vec<(f64, i64)> = mains
            .iter()
            .flat_map(|&i| [i - 1, i])
            .map(|i| (reach([self.at(i - 1), self.at(i), self.at(i + 1), self.at(i + 2)]), i))
            .collect();
        cells.sort_by(|x, y| y.0.total_cmp(&x.0).then(x.1.cmp(&y.1)));
        cells.dedup_by_key(|cell| cell.1);
        for (reach, i) in cells {
            if reach <= height {
                break;
            }
            let cell = self.cell(i);
            let (u, h) = highest(|u| cell.height(u));
            if h > height {
                (position, height) = (i as f64 + u, h);
            }
        }
        (position, height)
    }

    /// What EH changes by when the tails of earlier periods are told apart from the cursors they fall on.
    ///
    /// In a periodic record the slow tail of a lossy line comes round: under the main cursor it passes for signal, and on
    /// cursors of the other sign it hides interference. The record itself shows the tail, a power of time, and so what
    /// has come round is known; it is counted as the interference it is. The shift vanishes as the record grows.
    fn tail_shift(&self, position: f64) -> f64 {
        let main = position.floor();
        let cell = main as usize % self.pulse.samples.len();
        let cursors = cursors(&self.pulse.samples, self.pulse.per_symbol, cell, position - main);
        let Some(tail) = Tail::of(&cursors) else { return 0.0 };
        // What comes round falls with k: a cursor of its sign beyond the first value needs no look.
        let most = tail.come_round(1 - QUIET as i64);
        let apart = |k: i64| {
            let seen = cursors[k.rem_euclid(cursors.len() as i64) as usize];
            let is_cancelled = k > 0 && k as usize <= self.dfe;
            if k != 0 && !is_cancelled && seen * most.signum() >= most.abs() {
                return 0.0;
            }
            let w = tail.come_round(k);
            match k {
                0 => -w - self.weight * w.abs(),
                _ if is_cancelled => -self.weight * w.abs(),
                _ => self.weight * (seen.abs() - (seen - w).abs() - w.abs()),
            }
        };
        (1 - QUIET as i64..=(cursors.len() - QUIET) as i64).map(apart).sum()
    }

    /// Span in unit intervals around `position` with EH + `shift` above zero.
    fn width(&self, position: f64, raw: f64, shift: f64) -> f64 {
        if raw + shift <= 0.0 {
            return 0.0;
        }
        let n = self.pulse.per_symbol as i64;
        let open = |i: i64| self.at(i) + shift > 0.0;
        let cell = position.floor() as i64;
        let edge = |mut inside: f64, mut i: i64, way: i64| {
            for _ in 0..n {
                if !open(i) {
                    return self.crossing(inside, i, shift);
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
    fn crossing(&self, inside: f64, outside: i64, shift: f64) -> f64 {
        let start = inside.min(outside as f64).floor();
        let cell = self.cell(start as i64);
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

/// What the middle cell of four samples can rise to: where the lines from either side meet, and half as much again.
fn reach([a, b, c, d]: [f64; 4]) -> f64 {
    let (rise, fall) = (b - a, d - c);
    let top = b.max(c);
    if rise <= fall {
        return top;
    }
    let u = ((c - fall - b) / (rise - fall)).clamp(0.0, 1.0);
    top + 1.5 * (b + rise * u - top).max(0.0)
}

/// Place and value of the maximum of `f` on 0 … 1: a coarse look, then golden sections.
fn highest(mut f: impl FnMut(f64) -> f64) -> (f64, f64) {
    const COARSE: usize = 4;
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let mut best = (0.0, f64::NEG_INFINITY);
    let mut take = |u: f64, best: &mut (f64, f64)| {
        let value = f(u);
        if value > best.1 {
            *best = (u, value);
        }
        value
    };
    for i in 0..=COARSE {
        take(i as f64 / COARSE as f64, &mut best);
    }
    let (mut a, mut b) = (
        (best.0 - 1.0 / COARSE as f64).max(0.0),
        (best.0 + 1.0 / COARSE as f64).min(1.0),
    );
    let (mut c, mut d) = (b - GOLDEN * (b - a), a + GOLDEN * (b - a));
    let (mut fc, mut fd) = (take(c, &mut best), take(d, &mut best));
    while b - a > 1e-6 {
        if fc > fd {
            (b, d, fd) = (d, c, fc);
            c = b - GOLDEN * (b - a);
            fc = take(c, &mut best);
        } else {
            (a, c, fc) = (c, d, fd);
            d = a + GOLDEN * (b - a);
            fd = take(d, &mut best);
        }
    }
    best
}
