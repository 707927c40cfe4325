//! Numbers as an engineer writes them: a power of 1000, four significant digits, the unit.

use std::fmt;

/// Significant digits where nothing else is asked for.
const DIGITS: usize = 4;

const STEPS: [(f64, &str); 10] = [
    (1e12, "T"),
    (1e9, "G"),
    (1e6, "M"),
    (1e3, "k"),
    (1.0, ""),
    (1e-3, "m"),
    (1e-6, "u"),
    (1e-9, "n"),
    (1e-12, "p"),
    (1e-15, "f"),
];

/// A power of 1000 and its prefix: one scale for a whole column of a table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// The SI value of one displayed unit, e.g. `1e-12`.
    pub factor: f64,
    /// The prefix letter, e.g. `"p"`.
    pub prefix: &'static str,
}

impl Scale {
    /// The scale that shows `value` with one to three digits before the point.
    ///
    /// Zero and numbers that are not finite get no prefix.
    pub fn of(value: f64) -> Scale {
        Scale::of_rounded(value, DIGITS)
    }

    /// The scale that shows `value` rounded to `digits` significant digits.
    fn of_rounded(value: f64, digits: usize) -> Scale {
        let magnitude = value.abs();
        if magnitude == 0.0 || !magnitude.is_finite() {
            return Scale { factor: 1.0, prefix: "" };
        }
        // 999.95 shows as 1000 with four digits: step up before that happens. Digits before the point always stand.
        let threshold = 1.0 - 0.5 / 10f64.powi(digits.clamp(3, 17) as i32);
        let (factor, prefix) =
            STEPS.into_iter().find(|(factor, _)| magnitude >= factor * threshold).unwrap_or(STEPS[STEPS.len() - 1]);
        Scale { factor, prefix }
    }
}

/// `value` with its prefix and unit, to four significant digits.
///
/// ```
/// use lanecap::units::decimal::engineering;
/// assert_eq!(engineering(0.42e-12, "F"), "420 fF");
/// assert_eq!(engineering(2.5e9, "Hz"), "2.5 GHz");
/// ```
pub fn engineering(value: f64, unit: &str) -> String {
    rounded(value, DIGITS, unit)
}

/// `value` with its prefix and unit, to `digits` significant digits, those before the point at least.
pub(super) fn rounded(value: f64, digits: usize, unit: &str) -> String {
    let scale = Scale::of_rounded(value, digits);
    format!("{} {}{unit}", significant(value / scale.factor, digits), scale.prefix)
}

/// `value` with its prefix and unit, as the formatter asks: its precision is the significant digits, four without one.
pub(in crate::units) fn write_engineering(f: &mut fmt::Formatter<'_>, value: f64, unit: &str) -> fmt::Result {
    let text = rounded(value, f.precision().unwrap_or(DIGITS), unit);
    match (f.width(), f.align()) {
        (None, _) => f.write_str(&text),
        (Some(width), Some(fmt::Alignment::Right)) => write!(f, "{text:>width$}"),
        (Some(width), Some(fmt::Alignment::Center)) => write!(f, "{text:^width$}"),
        (Some(width), _) => write!(f, "{text:<width$}"),
    }
}

/// `value` rounded to `digits` significant digits, without trailing zeros.
///
/// ```
/// use lanecap::units::decimal::significant;
/// assert_eq!(significant(0.123456, 3), "0.123");
/// assert_eq!(significant(45.0, 4), "45");
/// ```
pub fn significant(value: f64, digits: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}").replace("-0", "0");
    }
    let exponent = value.abs().log10().floor() as i32;
    let decimals = (digits as i32 - 1 - exponent).max(0) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
