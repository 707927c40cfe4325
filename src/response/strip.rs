//! The few samples of every unit interval that one cell of the sampling phase needs.

use std::convert::Infallible;

use super::interpolate::{BEFORE, POINTS, dot, weights};
use super::optimum::highest_in_cell;
use super::{Feedback, brent};

/// Values below this, relative to a symbol of 1, are rounding; their sign means nothing.
const ROUNDING: f64 = 1e-12;

/// A smooth curve rises above the chord of a cell by an eighth of its second difference; half as much again allows for a
/// second difference that is larger between two samples.
pub(super) const SMOOTH: f64 = 1.5 / 8.0;

/// What a cusp, or a hill between two of them, has to add to an eye height to be looked at.
const NEGLIGIBLE: f64 = 1e-8;

/// Accuracy of the place of a cusp, of a cell.
const PLACE: f64 = 1e-9;

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

/// A pulse and how its eye is looked at.
pub(super) struct Settings<'a> {
    pub(super) samples: &'a [f64],
    pub(super) per_symbol: usize,
    /// M − 1.
    pub(super) weight: f64,
    pub(super) feedback: Feedback,
    /// Taps that do not follow the phase; `None` where they are set anew at each.
    pub(super) held: Option<&'a [f64]>,
}

/// h_0 − weight Σ|h_k| as a function of the phase between two samples.
///
/// Cursors that keep their sign there add up to one row; only the others need a look each.
#[derive(Default)]
pub(super) struct Cell {
    /// The main cursor less `weight` times what keeps its sign.
    steady: Row,
    turning: Vec<Row>,
    weight: f64,
}

impl Cell {
    /// The cell from sample `main` to the next.
    pub(super) fn new(of: &Settings<'_>, main: usize) -> Cell {
        let Feedback { taps, limit } = of.feedback;
        let mut cell = Cell { weight: of.weight, ..Cell::default() };
        let (mut above, mut below, mut first) = ([0.0; POINTS], [0.0; POINTS], [0.0; POINTS]);
        let mut interfere = |row: &Row| match side(row) {
            Side::Above => add(&mut above, 1.0, row),
            Side::Below => add(&mut below, 1.0, row),
            Side::Turns => cell.turning.push(*row),
        };
        each_row(of.samples, of.per_symbol, main, |k, row| {
            if k == 0 {
                first = *row;
            } else if k > taps {
                interfere(row);
            } else if let Some(held) = of.held {
                interfere(&row.map(|x| x - held[k - 1]));
            } else if limit.is_finite() {
                // max(0, |h| − a) is half of |h − a| and |h + a|, less a.
                let most = |sign: f64| std::array::from_fn(|j| 0.5 * (row[j] + sign * limit * first[j]));
                [-1.0, 1.0].map(most).iter().for_each(&mut interfere);
            }
        });
        let size = if limit.is_finite() && of.held.is_none() { limit * taps as f64 } else { 0.0 };
        add(&mut cell.steady, 1.0 + (of.weight * size).copysign(first[BEFORE]), &first);
        add(&mut cell.steady, -of.weight, &above);
        add(&mut cell.steady, of.weight, &below);
        cell
    }

    /// The value at `u` of the cell, 0 ≤ u ≤ 1.
    pub(super) fn height(&self, u: f64) -> f64 {
        let weights = weights(u);
        let turning: f64 = self.turning.iter().map(|row| dot(&weights, row).abs()).sum();
        dot(&weights, &self.steady) - self.weight * turning
    }

    /// Place and value of the maximum, to 1e-8 of a symbol; where it is not above `known`, any value that is not either.
    ///
    /// The cell falls into pieces at the places where a cursor vanishes. Each is smooth with at most one hill.
    pub(super) fn highest(&self, known: f64) -> (f64, f64) {
        let mut ends = vec![0.0, 1.0];
        self.turning.iter().for_each(|row| zeros(row, NEGLIGIBLE / self.weight, &mut ends));
        ends.sort_by(f64::total_cmp);
        let heights: Vec<f64> = ends.iter().map(|u| self.height(*u)).collect();
        let mut best = (0.0, known);
        let mut better = |u: f64, h: f64| {
            if h > best.1 {
                best = (u, h);
            }
            best.1
        };
        ends.iter().zip(&heights).for_each(|(u, h)| {
            better(*u, *h);
        });
        let bulge = bulge(&self.steady) + self.weight * self.turning.iter().map(bulge).sum::<f64>();
        for (ends, heights) in ends.windows(2).zip(heights.windows(2)) {
            let (start, width) = (ends[0], ends[1] - ends[0]);
            let most = heights[0].max(heights[1]) + bulge * width * width;
            if most > better(0.0, known) + NEGLIGIBLE {
                let (v, h) = highest_in_cell(|v| self.height(start + v * width));
                better(start + v * width, h);
            }
        }
        best
    }
}

/// Whether a cursor keeps its sign in its cell.
enum Side {
    Above,
    Below,
    Turns,
}

fn side(row: &Row) -> Side {
    let (x, y) = (row[BEFORE], row[BEFORE + 1]);
    let least = x.abs().min(y.abs());
    // Between samples of one sign lie two zeros only where the curve bulges beyond the chord.
    match bulge(row) {
        _ if x.abs().max(y.abs()) <= ROUNDING => Side::Above,
        bulge if x > 0.0 && y > 0.0 && least >= bulge => Side::Above,
        bulge if x < 0.0 && y < 0.0 && least >= bulge => Side::Below,
        _ => Side::Turns,
    }
}

/// What a smooth curve through a row may rise above the chord of its cell, or fall below it.
fn bulge(row: &Row) -> f64 {
    let bend = |j: usize| (row[j - 1] - 2.0 * row[j] + row[j + 1]).abs();
    SMOOTH * bend(BEFORE).max(bend(BEFORE + 1))
}

fn add(sum: &mut Row, factor: f64, row: &Row) {
    sum.iter_mut().zip(row).for_each(|(s, x)| *s += factor * x);
}

/// Adds the places within its cell where a row vanishes, but for those around which it stays below `least`.
fn zeros(row: &Row, least: f64, places: &mut Vec<f64>) {
    let value = |u: f64| dot(&weights(u), row);
    let (x, y) = (row[BEFORE], row[BEFORE + 1]);
    if x.abs().max(y.abs()).max(bulge(row)) < least {
        return;
    }
    let mut between = |a: f64, fa: f64, b: f64, fb: f64| {
        // Counted from 1, so that the accuracy is one of the cell.
        let Ok(u) = brent(|u| Ok::<_, Infallible>(value(u - 1.0)), 1.0 + a, fa, 1.0 + b, fb, PLACE);
        places.push((u - 1.0).clamp(0.0, 1.0));
    };
    if (x > 0.0) != (y > 0.0) {
        return between(0.0, x, 1.0, y);
    }
    // The vertex of the parabola through both ends and the middle.
    let middle = value(0.5);
    let bend = x - 2.0 * middle + y;
    let vertex = 0.5 + (x - y) / (4.0 * bend);
    if vertex > 0.0 && vertex < 1.0 {
        let lowest = value(vertex);
        if (lowest > 0.0) != (x > 0.0) {
            between(0.0, x, vertex, lowest);
            between(vertex, lowest, 1.0, y);
        }
    }
}
