//! The few samples of every unit interval that one cell of the sampling phase needs.

use super::interpolate::{BEFORE, POINTS, dot, weights};

/// Values below this, relative to a symbol of 1, are rounding; their sign means nothing.
const ROUNDING: f64 = 1e-14;

type Row = [f64; POINTS];

/// Looks at the samples around `main`, `main` + 1 symbol, … round the periodic record, with the number of the cursor.
fn each_row(samples: &[f64], per_symbol: usize, main: usize, mut look: impl FnMut(usize, &Row)) {
    let len = samples.len();
    let mut start = (main + len - BEFORE) % len;
    for k in 0..len / per_symbol {
        match samples[start..].first_chunk() {
            Some(row) => look(k, row),
            None => look(k, &std::array::from_fn(|j| samples[(start + j) % len])),
        }
        start += per_symbol;
        start -= if start < len { 0 } else { len };
    }
}

/// The cursors h_0, h_1, … (cyclic: the last is h_−1) with the main one at `main` + `u` samples, 0 ≤ u ≤ 1.
pub(super) fn cursors(samples: &[f64], per_symbol: usize, main: usize, u: f64) -> Vec<f64> {
    if u == 0.0 {
        let phase = samples.iter().skip(main % per_symbol).step_by(per_symbol);
        let count = samples.len() / per_symbol;
        return phase.cycle().skip(main / per_symbol).take(count).copied().collect();
    }
    let weights = weights(u);
    let mut cursors = Vec::with_capacity(samples.len() / per_symbol);
    each_row(samples, per_symbol, main, |_, row| cursors.push(dot(&weights, row)));
    cursors
}

/// h_0 − weight Σ|h_k| as a function of the phase between two samples.
///
/// Cursors that keep their sign there add up to one row; only the others need a look each.
pub(super) struct Cell {
    steady: Row,
    turning: Vec<Row>,
    weight: f64,
}

impl Cell {
    /// The cell from sample `main` to the next, the first `dfe` later cursors left out.
    pub(super) fn new(samples: &[f64], per_symbol: usize, main: usize, weight: f64, dfe: usize) -> Cell {
        let (mut steady, mut above, mut below) = ([0.0; POINTS], [0.0; POINTS], [0.0; POINTS]);
        let mut turning = Vec::new();
        let add = |sum: &mut Row, row: &Row| sum.iter_mut().zip(row).for_each(|(s, x)| *s += x);
        each_row(samples, per_symbol, main, |k, row| {
            let inner = &row[BEFORE - 1..BEFORE + 3];
            if k == 0 {
                steady = *row;
            } else if k <= dfe {
                // Feedback cancels it.
            } else if inner.iter().all(|x| *x >= -ROUNDING) {
                add(&mut above, row);
            } else if inner.iter().all(|x| *x <= ROUNDING) {
                add(&mut below, row);
            } else {
                turning.push(*row);
            }
        });
        for (s, (up, down)) in steady.iter_mut().zip(above.iter().zip(&below)) {
            *s -= weight * (up - down);
        }
        Cell { steady, turning, weight }
    }

    /// The value at `u` of the cell, 0 ≤ u ≤ 1.
    pub(super) fn height(&self, u: f64) -> f64 {
        let weights = weights(u);
        let turning: f64 = self.turning.iter().map(|row| dot(&weights, row).abs()).sum();
        dot(&weights, &self.steady) - self.weight * turning
    }
}
