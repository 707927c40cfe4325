//! Numbers as an engineer writes them: a power of 1000, four significant digits, the unit.

const STEPS: [(f64, &str); 11] = [
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
    (1e-18, "a"),
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
        let magnitude = value.abs();
        if magnitude == 0.0 || !magnitude.is_finite() {
            return Scale { factor: 1.0, prefix: "" };
        }
        // 999.95 shows as 1000 with four digits: step up before that happens.
        let (factor, prefix) =
            STEPS.into_iter().find(|(factor, _)| magnitude >= factor * 0.999_95).unwrap_or(STEPS[STEPS.len() - 1]);
        Scale { factor, prefix }
    }
}

/// `value` with its prefix and unit, to four significant digits.
///
/// ```
/// use lanecap::units::engineering;
/// assert_eq!(engineering(0.42e-12, "F"), "420 fF");
/// assert_eq!(engineering(2.5e9, "Hz"), "2.5 GHz");
/// ```
pub fn engineering(value: f64, unit: &str) -> String {
    let scale = Scale::of(value);
    format!("{} {}{unit}", significant(value / scale.factor, 4), scale.prefix)
}

/// `value` rounded to `digits` significant digits, without trailing zeros.
///
/// ```
/// use lanecap::units::significant;
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
