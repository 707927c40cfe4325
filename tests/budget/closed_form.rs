//! The quadratic and its degenerate cases.

use num_complex::Complex64;

use lanecap::budget::{Interval, IntervalSet, at_least, at_most};
use lanecap::network::Mobius;

fn real(p: f64, q: f64, r: f64, s: f64) -> Mobius {
    let [p, q, r, s] = [p, q, r, s].map(|x| Complex64::new(x, 0.0));
    Mobius { p, q, r, s }
}

fn check(found: &[Interval], want: &[(f64, f64)]) {
    let same = |a: f64, b: f64| a == b || (a - b).abs() <= 1e-12 * b.abs();
    let matches = found.len() == want.len()
        && found.iter().zip(want).all(|(i, (low, high))| same(i.low, *low) && same(i.high, *high));
    assert!(matches, "{found:?} is not {want:?}");
}

const INF: f64 = f64::INFINITY;

/// |C/pF − 3| ≤ 1, ≥ 1 and the like: solved by eye.
#[test]
fn two_roots() {
    let f = real(-3.0, 1e12, 1.0, 0.0);
    check(at_most(&f, 1.0).intervals(), &[(2e-12, 4e-12)]);
    check(at_least(&f, 1.0).intervals(), &[(0.0, 2e-12), (4e-12, INF)]);
    check(at_most(&f, 5.0).intervals(), &[(0.0, 8e-12)]);
    check(at_least(&f, 5.0).intervals(), &[(8e-12, INF)]);
    check(at_least(&real(3.0, 1e12, 1.0, 0.0), 1.0).intervals(), &[(0.0, INF)]);
    check(at_most(&real(3.0, 1e12, 1.0, 0.0), 1.0).intervals(), &[]);
}

#[test]
fn tangents() {
    let f = real(-3.0, 1e12, 1.0, 0.0);
    check(at_most(&f, 0.0).intervals(), &[(3e-12, 3e-12)]);
    check(at_least(&f, 0.0).intervals(), &[(0.0, INF)]);
    // |1 + jC| ≤ 1 holds at 0 alone, as `added_loss <= 0 dB` does on a matched path.
    let grows = Mobius { q: Complex64::new(0.0, 1e12), ..real(1.0, 0.0, 1.0, 0.0) };
    check(at_most(&grows, 1.0).intervals(), &[(0.0, 0.0)]);
    check(at_most(&grows, 1.0 + f64::EPSILON).intervals(), &[(0.0, 0.0)]);
    check(at_least(&grows, 1.0).intervals(), &[(0.0, INF)]);
}

/// |(1 + C)/(2 + C)| against 1: the squares cancel and a line is left; against 1/2 and for constants.
#[test]
fn linear_and_constant() {
    check(at_most(&real(1.0, 1e12, 2.0, 1e12), 1.0).intervals(), &[(0.0, INF)]);
    check(at_least(&real(1.0, 1e12, 2.0, 1e12), 1.0).intervals(), &[]);
    // |(4 − C)/(2 + C)| ≤ 1 from C = 1 on.
    check(at_most(&real(4.0, -1e12, 2.0, 1e12), 1.0).intervals(), &[(1e-12, INF)]);
    check(at_least(&real(4.0, -1e12, 2.0, 1e12), 1.0).intervals(), &[(0.0, 1e-12)]);
    let constant = Mobius::constant(Complex64::new(0.3, 0.4));
    check(at_most(&constant, 0.5).intervals(), &[(0.0, INF)]);
    check(at_least(&constant, 0.5).intervals(), &[(0.0, INF)]);
    check(at_most(&constant, 0.49).intervals(), &[]);
    check(at_least(&constant, 0.51).intervals(), &[]);
}

/// Coefficients of 1e200 and 1e-200 neither overflow nor vanish.
#[test]
fn sizes_that_would_overflow_when_squared() {
    for scale in [1e-200, 1e200] {
        let f = real(-3.0 * scale, 1e12 * scale, scale, 0.0);
        check(at_most(&f, 1.0).intervals(), &[(2e-12, 4e-12)]);
    }
}

#[test]
fn sets_intersect() {
    let set = |parts: &[(f64, f64)]| {
        let parts: Vec<Interval> = parts.iter().map(|&(low, high)| Interval { low, high }).collect();
        IntervalSet::from(parts.as_slice())
    };
    let both = set(&[(0.0, 2.0), (3.0, INF)]).intersect(set(&[(1.0, 3.0), (5.0, 7.0), (8.0, INF)]).intervals());
    assert_eq!(both, set(&[(1.0, 2.0), (3.0, 3.0), (5.0, 7.0), (8.0, INF)]));
    assert!(both.contains(3.0) && !both.contains(2.5) && both.contains(1e9) && !both.is_all());
    assert!(IntervalSet::all().intersect(&[]).is_empty() && IntervalSet::all().is_all());
}
