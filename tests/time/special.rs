//! Special functions for the closed forms.

use std::f64::consts::PI;

/// erfc(x) to about 1e-15: Abramowitz & Stegun, *Handbook of Mathematical Functions* (1964), 7.1.6 (series) and
/// 7.1.14 (continued fraction); equation numbers from memory.
pub(super) fn erfc(x: f64) -> f64 {
    if x < 0.0 {
        return 2.0 - erfc(-x);
    }
    if x < 2.5 {
        let (mut term, mut sum) = (x, x);
        for n in 1..200 {
            term *= 2.0 * x * x / (2.0 * f64::from(n) + 1.0);
            sum += term;
        }
        return 1.0 - 2.0 / PI.sqrt() * (-x * x).exp() * sum;
    }
    let fraction = (1..200).rev().fold(x, |tail, n| x + 0.5 * f64::from(n) / tail);
    (-x * x).exp() / (PI.sqrt() * fraction)
}

/// Normal distribution.
pub(super) fn normal(x: f64) -> f64 {
    0.5 * erfc(-x / 2f64.sqrt())
}

/// Step of a single pole of time constant `tau` to a Gaussian edge of `sigma`: the exponentially modified Gaussian.
pub(super) fn pole_step(t: f64, tau: f64, sigma: f64) -> f64 {
    let r = sigma / tau;
    normal(t / sigma) - (0.5 * r * r - t / tau).exp() * normal(t / sigma - r)
}

/// Root of a rising function by halving.
pub(super) fn solve(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if f(middle) < 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[test]
fn erfc_has_its_printed_values() {
    // Abramowitz & Stegun (1964), table 7.1: erf 0.5 = 0.5204998778, erf 1 = 0.8427007929, erf 2 = 0.9953222650.
    for (x, erf) in [(0.5, 0.520_499_877_8), (1.0, 0.842_700_792_9), (2.0, 0.995_322_265_0)] {
        approx::assert_abs_diff_eq!(1.0 - erfc(x), erf, epsilon = 6e-11);
    }
    // Both branches meet.
    approx::assert_relative_eq!(erfc(2.5 - 1e-12), erfc(2.5 + 1e-12), max_relative = 1e-10);
}
