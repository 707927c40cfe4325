//! The maximum of a function that is known at whole numbers, cell by cell.

use std::convert::Infallible;

use super::maximum;

/// Accuracy of a place within a cell.
const PLACE: f64 = 1e-6;

/// How far inside an end the function is looked at, to see whether it rises from there.
const JUST_INSIDE: f64 = 1e-3;

/// Place and value of the maximum over many cells, begun at `best`: that of a place already known.
///
/// `reaches` holds what each cell can rise to at most. Cells are taken from the highest reach down, each once, until none
/// reaches more than `allowed` above the best; `look` asks one of them and betters `best`. A `best` that is not a number
/// ends the search.
///
/// Needs: no cell rises above its reach. The maximum is then met to `allowed`, beside what `look` leaves. At most one look
/// for each cell.
pub fn best_of_cells(
    mut reaches: Vec<f64>,
    allowed: f64,
    mut best: (f64, f64),
    mut look: impl FnMut(usize, &mut (f64, f64)),
) -> (f64, f64) {
    loop {
        let next = largest(&reaches);
        if reaches[next] <= best.1 + allowed || best.1.is_nan() {
            return best;
        }
        reaches[next] = f64::NEG_INFINITY;
        look(next, &mut best);
    }
}

/// Index of the largest value, the first of equal ones.
pub fn largest(values: &[f64]) -> usize {
    let larger = |best: usize, i: usize| if values[i] > values[best] { i } else { best };
    (0..values.len()).fold(0, larger)
}

/// Place and value of the maximum of `f` on 0 … 1: a coarse look at both ends and the middle, then [`maximum`].
///
/// Needs: `f` is continuous with one hill between 0 and 1; an end from which it falls is taken for the maximum. Place to
/// 1e-6 (the best value seen is what counts). At most 85 values.
pub fn highest_in_cell(f: impl Fn(f64) -> f64) -> (f64, f64) {
    let (left, middle, right) = (f(0.0), f(0.5), f(1.0));
    let (mut best, low, high) = if left > middle.max(right) {
        ((0.0, left), 0.0, 0.5)
    } else if right > middle {
        ((1.0, right), 0.5, 1.0)
    } else {
        ((0.5, middle), 0.0, 1.0)
    };
    let start = best.0;
    if start != 0.5 && f((start - JUST_INSIDE).abs()) <= best.1 {
        return best;
    }
    // Counted from 1, so that the accuracy is one of the cell and not of a place near its start.
    let value = |x: f64| {
        let value = f(x - 1.0);
        if value > best.1 {
            best = (x - 1.0, value);
        }
        Ok::<_, Infallible>(value)
    };
    let Ok(_) = maximum(PLACE, 1.0 + low, 1.0 + start, 1.0 + high, value);
    best
}
