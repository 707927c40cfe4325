//! Quantities typed on the command line.

use std::ops::RangeInclusive;

use crate::units::{Dimension, Farad, Volt, parse_unit, suggest_unit};

/// Reads a capacitance such as `0.3pF` or `0.3 pF`.
///
/// # Errors
/// What is wrong and how to write it instead: no number, no unit, an unknown unit, one of another kind, a value below 0
/// or above 1 mF.
///
/// ```
/// use lanecap::cli::capacitance;
/// assert_eq!(capacitance("0.5 pF").map(|c| c.0), Ok(0.5e-12));
/// assert!(capacitance("0.5").is_err());
/// ```
pub fn capacitance(text: &str) -> Result<Farad, String> {
    CAPACITANCE.read(text).map(Farad)
}

/// Reads the level of a discharge such as `4kV` or `4 kV`.
///
/// # Errors
/// As [`capacitance`]; a value below 1 uV or above 1 MV.
///
/// ```
/// use lanecap::cli::level;
/// assert_eq!(level("4 kV").map(|level| level.0), Ok(4e3));
/// assert!(level("4").is_err() && level("0V").is_err());
/// ```
pub fn level(text: &str) -> Result<Volt, String> {
    LEVEL.read(text).map(Volt)
}

const CAPACITANCE: Asked = Asked {
    dimension: Dimension::Capacitance,
    what: "a capacitance",
    range: 0.0..=1e-3,
    from_to: "from 0 F to 1 mF",
    cure: "write a number and its unit, e.g. 0.3pF or \"0.3 pF\"",
};

const LEVEL: Asked = Asked {
    dimension: Dimension::Voltage,
    what: "a voltage",
    range: 1e-6..=1e6,
    from_to: "from 1 uV to 1 MV",
    cure: "write a number and its unit, e.g. 4kV or \"4 kV\"",
};

/// What is asked for.
struct Asked {
    dimension: Dimension,
    what: &'static str,
    range: RangeInclusive<f64>,
    from_to: &'static str,
    cure: &'static str,
}

impl Asked {
    /// The value in SI.
    fn read(&self, text: &str) -> Result<f64, String> {
        let Asked { what, cure, .. } = self;
        let trimmed = text.trim();
        let end = number_length(trimmed);
        let (number, unit) = trimmed.split_at(end);
        if number.parse::<f64>().is_err() {
            return Err(format!("expected {what}, but found no number; {cure}"));
        }
        let unit = unit.trim_start();
        if unit.is_empty() {
            return Err(format!("the unit is missing; {cure}"));
        }
        let Some(known) = parse_unit(unit) else {
            let shown = crate::diag::shorten(unit, 20);
            return Err(match suggest_unit(unit, &[self.dimension]) {
                Some(meant) => format!("unknown unit `{shown}`; did you mean `{meant}`?"),
                None => format!("unknown unit `{shown}`; {cure}"),
            });
        };
        if known.dimension != self.dimension {
            return Err(format!("expected {what}, but `{unit}` is a unit of {}; {cure}", known.dimension));
        }
        let value = known.value_of(number).unwrap_or(f64::NAN);
        if self.range.contains(&value) { Ok(value) } else { Err(format!("expected {what} {}; {cure}", self.from_to)) }
    }
}

/// Length of the decimal number that `text` begins with.
fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let sign = |at: usize| usize::from(matches!(bytes.get(at), Some(b'+' | b'-')));
    let mut end = sign(0);
    end += digits(end);
    if bytes.get(end) == Some(&b'.') && digits(end + 1) > 0 {
        end += 1 + digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let exponent = end + 1 + sign(end + 1);
        if exponent <= bytes.len() && digits(exponent) > 0 {
            end = exponent + digits(exponent);
        }
    }
    end
}
