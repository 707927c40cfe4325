//! The minimum of a function between two points.

/// Accuracy of the place.
const PLACE: f64 = 1e-6;

/// Place and value of the minimum of `f` on 0 … `end`, by thirds.
///
/// Needs: `f` falls to one minimum and rises from there; no smoothness. Place to 5e-7, absolute. For an `end` of at most 1
/// at most 71 values.
pub fn valley(f: impl Fn(f64) -> f64, end: f64) -> (f64, f64) {
    let (mut a, mut b) = (0.0, end);
    while b - a > PLACE {
        let (c, d) = (a + (b - a) / 3.0, b - (b - a) / 3.0);
        if f(c) < f(d) { b = d } else { a = c }
    }
    let u = 0.5 * (a + b);
    (u, f(u))
}
