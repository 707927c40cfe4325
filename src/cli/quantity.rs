//! Quantities typed on the command line.

use crate::units::{Dimension, Farad, parse_unit, suggest_unit};

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
    const CURE: &str = "write a number and its unit, e.g. 0.3pF or \"0.3 pF\"";
    let trimmed = text.trim();
    let end = number_length(trimmed);
    let (number, unit) = trimmed.split_at(end);
    if number.parse::<f64>().is_err() {
        return Err(format!("expected a capacitance, but found no number; {CURE}"));
    }
    let unit = unit.trim_start();
    if unit.is_empty() {
        return Err(format!("the unit is missing; {CURE}"));
    }
    let Some(known) = parse_unit(unit) else {
        let shown = crate::diag::shorten(unit, 20);
        return Err(match suggest_unit(unit, &[Dimension::Capacitance]) {
            Some(meant) => format!("unknown unit `{shown}`; did you mean `{meant}`?"),
            None => format!("unknown unit `{shown}`; {CURE}"),
        });
    };
    if known.dimension != Dimension::Capacitance {
        return Err(format!("expected a capacitance, but `{unit}` is a unit of {}; {CURE}", known.dimension));
    }
    let value = known.value_of(number).unwrap_or(f64::NAN);
    if (0.0..=1e-3).contains(&value) {
        Ok(Farad(value))
    } else {
        Err(format!("expected a capacitance from 0 F to 1 mF; {CURE}"))
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
