//! Numbers to retype into a calculator.

use num_complex::Complex64;

use super::engineering::{Scale, significant};

/// Significant digits: enough to find every result again to four or more.
const DIGITS: usize = 8;

/// A number with enough digits to go on with: eight, with an exponent where it is far from 1.
///
/// ```
/// use lanecap::units::decimal::working::real;
/// assert_eq!(real(2.0 / 3.0), "0.66666667");
/// assert_eq!(real(4.2e-13), "4.2000000e-13");
/// ```
pub fn real(value: f64) -> String {
    let size = value.abs();
    if value == 0.0 {
        "0".to_owned()
    } else if (1e-3..1e6).contains(&size) {
        significant(value, DIGITS)
    } else {
        format!("{value:.*e}", DIGITS - 1)
    }
}

/// A complex number as `a + j b`.
pub fn complex(value: Complex64) -> String {
    let sign = if value.im < 0.0 { '-' } else { '+' };
    format!("{} {sign} j {}", real(value.re), real(value.im.abs()))
}

/// A frequency with its prefix, with digits to go on with.
pub fn frequency(value: f64) -> String {
    let scale = Scale::of(value);
    format!("{} {}Hz", real(value / scale.factor), scale.prefix)
}

/// A capacitance in picofarad, with digits to go on with.
pub fn picofarad(value: f64) -> String {
    format!("{} pF", real(value * 1e12))
}
