//! Maxima between the points of a grid.

use std::ops::RangeInclusive;

use super::{TO_ROUND_OFF, maximum};

/// Share of a step from the end of a grid at which the way in is looked at.
const INWARD: f64 = 1e-6;
/// Relative error that an exponential may have.
pub const ROUGH: f64 = 1e-9;
/// Exponentials beyond these are not compared: their squares may not be numbers.
const COMPARED: RangeInclusive<f64> = 1e-60..=1e60;

/// The maxima among `values` whose hill may rise above `threshold` between the points of the grid, rising: the index of
/// each between those of its neighbours, an end being its own neighbour.
///
/// What stands out by no more than `quiet` is round-off.
///
/// Needs: between neighbours the function is about a parabola. It then rises above the highest of three values by at most
/// an eighth of what that stands out by; eight times as much is allowed for here. No value is asked for.
pub fn peaks(values: &[f64], threshold: f64, quiet: f64) -> impl Iterator<Item = [usize; 3]> + '_ {
    let last = values.len().saturating_sub(1);
    let each = (0..values.len()).map(move |i| [i.saturating_sub(1), i, (i + 1).min(last)]);
    each.filter(move |indices| is_peak(indices.map(|i| values[i]), threshold, quiet))
}

/// Whether the second of three neighbouring values is one of [`peaks`].
pub fn is_peak([before, here, after]: [f64; 3], threshold: f64, quiet: f64) -> bool {
    let rise = here - before.min(after);
    here >= before && here >= after && rise > quiet && here + rise > threshold + quiet
}

/// Whether the second of three neighbouring values may be one of [`peaks`], by e to twice each of them and to twice the
/// threshold, off by [`ROUGH`] of themselves at most: `false` only where it is none for certain. It saves the logarithms.
pub fn may_be_peak(squares: [f64; 3], threshold: f64) -> bool {
    const SURE: f64 = 1.0 - 4.0 * ROUGH;
    let [before, here, after] = squares;
    // here + rise > threshold is here²/min(before, after) > e^threshold.
    let is_none = here < before * SURE || here < after * SURE || here * here < before.min(after) * threshold * SURE;
    !(is_none && squares.iter().all(|square| COMPARED.contains(square)) && threshold <= *COMPARED.end())
}

/// Place of the maximum of `f` between the neighbours `low` and `high` of the point `at` of a grid, where `f` is `here`;
/// `None` at an end of the grid, its own neighbour, from which `f` falls.
///
/// Needs: `f` is smooth with one hill between the neighbours, which are above 0. To [`TO_ROUND_OFF`] of itself, as by
/// [`maximum`]. At most 82 values.
///
/// # Errors
/// Whatever `f` returns.
pub fn summit<E>(
    [low, at, high]: [f64; 3],
    here: f64,
    mut f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<Option<f64>, E> {
    let mut start = at;
    if low == at || at == high {
        let inside = at + INWARD * ((low - at) + (high - at));
        if f(inside)? <= here {
            return Ok(None);
        }
        start = 0.5 * (low + high);
    }
    maximum(TO_ROUND_OFF, low, start, high, f).map(Some)
}
