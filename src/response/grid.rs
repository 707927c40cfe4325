//! A grid of frequencies dense enough for a path.

/// Most frequencies of a grid.
pub const MOST_FREQUENCIES: usize = 1 << 18;
/// Points per 2π of the path's round-trip phase.
const PER_TURN: f64 = 32.0;
/// Largest ratio of neighbouring frequencies.
const RATIO: f64 = 1.02;
/// Relative distance below which two frequencies count as one.
const CLOSEST: f64 = 1e-9;

/// Frequencies from `low` to `high`, rising, both included: at least `steps` steps, 32 points per turn of the round-trip
/// phase of a `delay` in second, none more than 2 % above its neighbour, and those of `narrow`, which lie between.
///
/// `None` where that takes more than [`MOST_FREQUENCIES`].
pub fn span(low: f64, high: f64, steps: f64, delay: f64, narrow: Vec<f64>) -> Option<Vec<f64>> {
    if low == high {
        return Some(vec![low]);
    }
    let ratio = (high / low).powf(1.0 / steps).min(RATIO);
    let step = 1.0 / (2.0 * PER_TURN * delay);
    if (high / low).ln() / ratio.ln() + (high - low) / step > MOST_FREQUENCIES as f64 {
        return None;
    }
    let mut frequencies = narrow;
    let next = |f: &f64| Some((f * ratio).min(f + step));
    frequencies.extend(std::iter::successors(Some(low), next).take_while(|f| *f < high * (1.0 - CLOSEST)));
    frequencies.push(high);
    frequencies.sort_by(f64::total_cmp);
    frequencies.dedup();
    Some(frequencies)
}
