//! The capacitances a mode-conversion limit allows: a quartic.

use num_complex::Complex64;

use crate::model::Mismatch;
use crate::network::Mobius;
use crate::response::real_roots;
use crate::units::Farad;

/// The capacitances with |S_cd21| ≤ `limit` (a ratio), as closed intervals; an upper end of `None` is open.
///
/// With D = qr − ps, a and b the two capacitances, S(a) − S(b) = D(a − b)/((r + sa)(r + sb)): the limit is
/// |D|²(a − b)² ≤ 4·limit²·|r + sa|²·|r + sb|², a polynomial in C of at most the fourth degree, piecewise where the
/// smaller side is clipped at zero.
pub fn conversion_allowed(s21: &Mobius, mismatch: Mismatch, limit: f64) -> Vec<(f64, Option<f64>)> {
    let spread = (s21.q * s21.r - s21.p * s21.s).norm();
    if spread == 0.0 {
        return vec![(0.0, None)];
    }
    // In the unit |r/s| the coefficients are of like size.
    let unit = if s21.s.norm() > 0.0 { s21.r.norm() / s21.s.norm() } else { 1e-12 };
    let unit = if unit > 0.0 { unit } else { 1e-12 };
    let piece = |larger: [f64; 2], smaller: [f64; 2]| {
        let side = |line: [f64; 2]| squared(s21.r + s21.s * (line[0] * unit), s21.s * (line[1] * unit));
        let (x, y) = (side(larger), side(smaller));
        let apart = [larger[0] - smaller[0], larger[1] - smaller[1]].map(|v| v * unit * spread);
        let mut polynomial = [0.0; 5];
        for (i, a) in x.iter().enumerate() {
            for (j, b) in y.iter().enumerate() {
                polynomial[i + j] += 4.0 * limit * limit * a * b;
            }
        }
        polynomial[0] -= apart[0] * apart[0];
        polynomial[1] -= 2.0 * apart[0] * apart[1];
        polynomial[2] -= apart[1] * apart[1];
        polynomial
    };
    // Each side as [constant, slope] in C/unit.
    let pieces: Vec<(f64, f64, [f64; 5])> = match mismatch {
        Mismatch::Absolute(Farad(difference)) => {
            let half = difference / 2.0 / unit;
            vec![(0.0, half, piece([half, 1.0], [0.0, 0.0])), (half, f64::INFINITY, piece([half, 1.0], [-half, 1.0]))]
        }
        Mismatch::Share(share) => {
            let smaller = (1.0 - share / 2.0).max(0.0);
            vec![(0.0, f64::INFINITY, piece([0.0, 1.0 + share / 2.0], [0.0, smaller]))]
        }
    };
    let mut allowed: Vec<(f64, Option<f64>)> = Vec::new();
    for (from, to, polynomial) in pieces {
        for (low, high) in where_positive(&polynomial, from, to) {
            match allowed.last_mut() {
                Some(last) if last.1 == Some(low) => last.1 = high,
                _ => allowed.push((low, high)),
            }
        }
    }
    allowed.iter().map(|(low, high)| (low * unit, high.map(|x| x * unit))).collect()
}

/// |a + bx|² as coefficients of x.
fn squared(a: Complex64, b: Complex64) -> [f64; 3] {
    [a.norm_sqr(), 2.0 * (a.conj() * b).re, b.norm_sqr()]
}

/// Where a polynomial is not below zero, from `from` to `to`.
fn where_positive(polynomial: &[f64], from: f64, to: f64) -> Vec<(f64, Option<f64>)> {
    let value = |x: f64| polynomial.iter().rev().fold(0.0, |sum, c| sum * x + c);
    let mut ends = vec![from];
    ends.extend(real_roots(polynomial).into_iter().filter(|&x| x > from && x < to));
    let mut spans: Vec<(f64, Option<f64>)> = Vec::new();
    for (i, &low) in ends.iter().enumerate() {
        let high = ends.get(i + 1).copied().unwrap_or(to);
        let middle = if high.is_finite() { 0.5 * (low + high) } else { 2.0 * low + 1.0 };
        if high > low && value(middle) >= 0.0 {
            spans.push((low, high.is_finite().then_some(high)));
        }
    }
    spans
}
