//! The few samples of every unit interval that one cell of the sampling phase needs.

use super::interpolate::{BEFORE, POINTS, weights};

/// Values below this, relative to a symbol of 1, are rounding; their sign means nothing.
const ROUNDING: f64 = 1e-14;

type Row = [f64; POINTS];

/// Samples around `main`, `main` + 1 symbol, … round the periodic record.
fn rows(samples: &[f64], per_symbol: usize, main: usize) -> impl Iterator<Item = Row> + '_ {
    let len = samples.len();
    (0..len / per_symbol).map(move |k| {
        let start = (main + k * per_symbol + len - BEFORE) % len;
        match samples.get(start..start + POINTS).and_then(|s| Row::try_from(s).ok()) {
            Some(row) => row,
            None => std::array::from_fn(|j| samples[(start + j) % len]),
        }
    })
}

fn dot(weights: &Row, row: &Row) -> f64 {
    weights.iter().zip(row).map(|(w, x)| w * x).sum()
}

/// The cursors h_0, h_1, … (cyclic: the last is h_−1) with the main one at `main` + `u` samples, 0 ≤ u ≤ 1.
pub(super) fn cursors(samples: &[f64], per_symbol: usize, main: usize, u: f64) -> Vec<f64> {
    let weights = weights(u);
    rows(samples, per_symbol, main).map(|row| dot(&weights, &row)).collect()
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
        let (mut steady, mut turning) = ([0.0; POINTS], Vec::new());
        let mut add = |row: &Row, factor: f64| steady.iter_mut().zip(row).for_each(|(s, x)| *s += factor * x);
        for (k, row) in rows(samples, per_symbol, main).enumerate() {
            let inner = &row[BEFORE - 1..BEFORE + 3];
            if k == 0 {
                add(&row, 1.0);
            } else if k <= dfe {
                continue;
            } else if inner.iter().all(|x| *x >= -ROUNDING) {
                add(&row, -weight);
            } else if inner.iter().all(|x| *x <= ROUNDING) {
                add(&row, weight);
            } else {
                turning.push(row);
            }
        }
        Cell {
            steady,
            turning,
            weight,
        }
    }

    /// The value at `u` of the cell, 0 ≤ u ≤ 1.
    pub(super) fn height(&self, u: f64) -> f64 {
        let weights = weights(u);
        let turning: f64 = self.turning.iter().map(|row| dot(&weights, row).abs()).sum();
        dot(&weights, &self.steady) - self.weight * turning
    }
}
