//! Numbers close to one another, and numbers as they were shown.

/// The number that was shown.
pub(crate) fn number(text: &str) -> f64 {
    text.parse().expect(text)
}

/// A number a little or a lot beside another.
pub(crate) fn beside(bound: f64, exponent: i32, above: bool, exact: bool) -> f64 {
    let step = bound * 10f64.powi(exponent);
    match (exact, above) {
        (true, _) => bound,
        (false, true) => bound + step,
        (false, false) => bound - step,
    }
}
