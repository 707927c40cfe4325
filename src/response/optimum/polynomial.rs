//! Real roots of a polynomial.

use std::convert::Infallible;

use super::brent;

/// The real roots of Σ a_k x^k above zero, rising, for coefficients `a` from a_0 up; a root without a change of sign is left out.
///
/// Between two roots of the derivative a polynomial is monotone, so each sign change there holds exactly one root: [`brent`]
/// finds it to 1e-15 of itself. For the degree n at most n(n + 1)/2 such searches, 200 values each.
///
/// # Example
/// ```
/// // (x − 1)(x − 3)
/// assert_eq!(lanecap::response::real_roots(&[3.0, -4.0, 1.0]).len(), 2);
/// ```
pub fn real_roots(a: &[f64]) -> Vec<f64> {
    let degree = a.iter().rposition(|&x| x != 0.0).unwrap_or(0);
    if degree == 0 {
        return Vec::new();
    }
    let a = &a[..=degree];
    let derivative: Vec<f64> = a.iter().enumerate().skip(1).map(|(k, x)| k as f64 * x).collect();
    // Cauchy's bound on the size of every root.
    let bound = 1.0 + a[..degree].iter().fold(0.0, |m: f64, x| m.max((x / a[degree]).abs()));
    let mut ends = vec![0.0];
    ends.extend(real_roots(&derivative).into_iter().filter(|&x| x < bound));
    ends.push(bound);
    let value = |x: f64| a.iter().rev().fold(0.0, |sum, c| sum * x + c);
    let mut roots = Vec::new();
    for pair in ends.windows(2) {
        let (low, high) = (value(pair[0]), value(pair[1]));
        if (low < 0.0) != (high < 0.0) {
            let Ok(x) = brent(|x| Ok::<_, Infallible>(value(x)), pair[0], low, pair[1], high, 1e-15);
            roots.push(x);
        }
    }
    roots
}
