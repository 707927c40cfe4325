//! Values between samples: the polynomial through the twelve nearest.

/// Samples the polynomial goes through.
pub(super) const POINTS: usize = 12;

/// How many of them lie before the sample at the start of the cell.
pub(super) const BEFORE: usize = POINTS / 2 - 1;

/// 1/Π(j − m) over the other points m, for each point j: (−1)^{11−j}/(j! (11−j)!).
const SCALE: [f64; POINTS] = {
    let mut factorial = [1.0; POINTS];
    let mut j = 1;
    while j < POINTS {
        factorial[j] = factorial[j - 1] * j as f64;
        j += 1;
    }
    let mut scale = [0.0; POINTS];
    let mut j = 0;
    while j < POINTS {
        let size = 1.0 / (factorial[j] * factorial[POINTS - 1 - j]);
        scale[j] = if j % 2 == 0 { -size } else { size };
        j += 1;
    }
    scale
};

/// Weights of the samples `i − 5 … i + 6` for the value at `i + u`, 0 ≤ u ≤ 1: Lagrange's polynomials Π(u − m)/Π(j − m).
///
/// All distances to the left of a point and all to the right are multiplied once, without a division.
#[inline]
pub(super) fn weights(u: f64) -> [f64; POINTS] {
    let distance = |j: usize| u - (j as f64 - BEFORE as f64);
    let (mut left, mut right) = ([1.0; POINTS], [1.0; POINTS]);
    for j in 1..POINTS {
        left[j] = left[j - 1] * distance(j - 1);
        right[POINTS - 1 - j] = right[POINTS - j] * distance(POINTS - j);
    }
    for ((w, right), scale) in left.iter_mut().zip(&right).zip(&SCALE) {
        *w *= right * scale;
    }
    left
}

/// The value that `weights` give between the samples of `row`.
#[inline]
pub(super) fn dot(weights: &[f64; POINTS], row: &[f64; POINTS]) -> f64 {
    let mut sums = [0.0; 4];
    for (w, x) in weights.chunks_exact(4).zip(row.chunks_exact(4)) {
        for (sum, (w, x)) in sums.iter_mut().zip(w.iter().zip(x)) {
            *sum += w * x;
        }
    }
    (sums[0] + sums[2]) + (sums[1] + sums[3])
}

/// The value at `i + u` of a sequence given by its samples.
pub(super) fn between(sample: impl Fn(i64) -> f64, i: i64, u: f64) -> f64 {
    weights(u).iter().enumerate().map(|(j, w)| w * sample(i + j as i64 - BEFORE as i64)).sum()
}
