//! Values between samples: the polynomial through the twelve nearest.

/// Samples the polynomial goes through.
pub(super) const POINTS: usize = 12;

/// How many of them lie before the sample at the start of the cell.
pub(super) const BEFORE: usize = POINTS / 2 - 1;

/// Binomial coefficients of 11 with alternating sign: barycentric weights of equally spaced points.
///
/// J.-P. Berrut, L. N. Trefethen, "Barycentric Lagrange interpolation", SIAM Review 46(3), 2004, eq. (5.1) (from memory).
const BARYCENTRIC: [f64; POINTS] = [
    1.0, -11.0, 55.0, -165.0, 330.0, -462.0, 462.0, -330.0, 165.0, -55.0, 11.0, -1.0,
];

/// Weights of the samples `i − 5 … i + 6` for the value at `i + u`, 0 ≤ u ≤ 1.
pub(super) fn weights(u: f64) -> [f64; POINTS] {
    let mut w = [0.0; POINTS];
    for (j, slot) in w.iter_mut().enumerate() {
        let distance = u - (j as f64 - BEFORE as f64);
        if distance == 0.0 {
            w = [0.0; POINTS];
            w[j] = 1.0;
            return w;
        }
        *slot = BARYCENTRIC[j] / distance;
    }
    let sum: f64 = w.iter().sum();
    w.map(|x| x / sum)
}

/// The value at `i + u` of a sequence given by its samples.
pub(super) fn between(sample: impl Fn(i64) -> f64, i: i64, u: f64) -> f64 {
    weights(u)
        .iter()
        .enumerate()
        .map(|(j, w)| w * sample(i + j as i64 - BEFORE as i64))
        .sum()
}
