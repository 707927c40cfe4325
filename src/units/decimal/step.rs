//! Numbers along an axis.

/// `value` with the decimals that a step between ticks needs; above a million, and with more than four of
/// them, with an exponent. Both are finite, the step above 0.
///
/// ```
/// use lanecap::units::decimal::stepped;
/// assert_eq!(stepped(2.0, 0.25), "2.0");
/// assert_eq!(stepped(3e6, 1e6), "3e6");
/// ```
pub fn stepped(value: f64, step: f64) -> String {
    let value = if value.abs() < 1e-9 * step { 0.0 } else { value };
    let decimals = (-(step.log10() + 1e-9).floor()).max(0.0);
    if decimals > 4.0 || value.abs() >= 1e6 {
        let digits = (value.abs().max(step) / step).log10().ceil().clamp(0.0, 6.0) as usize;
        let text = format!("{value:.digits$e}");
        return match text.split_once('e') {
            Some((mantissa, exponent)) if mantissa.contains('.') => {
                format!("{}e{exponent}", mantissa.trim_end_matches('0').trim_end_matches('.'))
            }
            _ => text,
        };
    }
    format!("{value:.*}", decimals as usize)
}
