//! The minimum of a function that is known by its slope.

use std::convert::Infallible;

use super::brent;

/// Relative accuracy of a turn of the slope.
const ROOT: f64 = 1e-14;
/// Relative move below which a secant stands.
const SETTLED: f64 = 1e-12;
/// Most secants.
const SECANTS: usize = 12;
/// Growth of a step downhill.
const GROWTH: f64 = 1.1;

/// The minimum between `low` and `high`, where the slope turns from falling to rising; `None` where it does not.
///
/// Needs: a continuous slope. To 1e-14 of itself. At most 202 slopes.
pub fn bottom(slope: impl Fn(f64) -> f64, low: f64, high: f64) -> Option<f64> {
    let (left, right) = (slope(low), slope(high));
    let turns = left <= 0.0 && right >= 0.0;
    if !turns {
        return None;
    }
    let Ok(x) = brent(|x| Ok::<_, Infallible>(slope(x)), low, left, high, right, ROOT);
    Some(x)
}

/// The minimum near `guess` by secants of the slope; `None` where the slope does not rise throughout or a secant leads
/// further than `stride` away.
///
/// Needs: a slope that rises, all but straight, around the guess. To 1e-12 of itself. At most 13 slopes.
pub fn secants(slope: impl Fn(f64) -> f64, guess: f64, stride: f64) -> Option<f64> {
    let (mut before, mut left) = (guess, slope(guess));
    let mut x = guess - (0.01 * stride).copysign(left);
    for _ in 0..SECANTS {
        let here = slope(x);
        let rise = (here - left) / (x - before);
        let next = x - here / rise;
        if here == 0.0 || (next - x).abs() <= SETTLED * x {
            return Some(if here == 0.0 { x } else { next });
        }
        if rise.is_nan() || rise <= 0.0 || (next - guess).abs() > stride {
            break;
        }
        (before, left, x) = (x, here, next);
    }
    None
}

/// The minimum that lies downhill from `from`, between `low` and `high`; `None` where one of these comes first.
///
/// Needs: a continuous slope that does not turn twice within a step, `stride` at first and 1.1 times longer each time. To
/// 1e-14 of itself. At most 203 slopes and one a step, ln(1 + (high − low)/(10 stride))/ln 1.1 steps.
pub fn downhill(slope: impl Fn(f64) -> f64, from: f64, mut stride: f64, low: f64, high: f64) -> Option<f64> {
    let down = -slope(from).signum();
    let mut x = from;
    loop {
        let next = (x + down * stride).clamp(low, high);
        let onward = slope(next) * down;
        if onward.is_nan() {
            return None;
        }
        if onward >= 0.0 {
            return bottom(slope, x.min(next), x.max(next)).filter(|x| low < *x && *x < high);
        }
        if next <= low || next >= high {
            return None;
        }
        x = next;
        stride *= GROWTH;
    }
}
