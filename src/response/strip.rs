//! The few samples of every unit interval that one cell of the sampling phase needs.

use super::interpolate::{BEFORE, POINTS, weights};

/// All cursors near one sample, gathered so that values between samples are sums of whole rows.
pub(super) struct Strip {
    /// Row j holds the samples j − 5 away from the cell's start, main cursor first, then the later ones in turn.
    rows: Vec<f64>,
    record: usize,
    cursors: Vec<f64>,
}

impl Strip {
    /// The cell between samples `main` and `main + 1` of a periodic record of `per_symbol` samples a symbol.
    pub(super) fn new(samples: &[f64], per_symbol: usize, main: usize) -> Strip {
        let len = samples.len();
        let record = len / per_symbol;
        let mut rows = vec![0.0; POINTS * record];
        for (j, row) in rows.chunks_exact_mut(record).enumerate() {
            let mut i = (main + len + j - BEFORE) % len;
            for slot in row {
                *slot = samples[i];
                i += per_symbol;
                if i >= len {
                    i -= len;
                }
            }
        }
        Strip {
            rows,
            record,
            cursors: vec![0.0; record],
        }
    }

    /// The cursors h_0, h_1, … (cyclic: the last is h_−1) at `u` of the cell, 0 ≤ u ≤ 1.
    pub(super) fn cursors(&mut self, u: f64) -> &[f64] {
        self.cursors.fill(0.0);
        for (w, row) in weights(u).iter().zip(self.rows.chunks_exact(self.record)) {
            for (sum, x) in self.cursors.iter_mut().zip(row) {
                *sum += w * x;
            }
        }
        &self.cursors
    }

    /// h_0 − `weight` Σ|h_k| at `u`, the first `dfe` later cursors left out.
    pub(super) fn height(&mut self, u: f64, weight: f64, dfe: usize) -> f64 {
        let cursors = self.cursors(u);
        let interference: f64 = cursors.iter().skip(1 + dfe).map(|h| h.abs()).sum();
        cursors[0] - weight * interference
    }
}
