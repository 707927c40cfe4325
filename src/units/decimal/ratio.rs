//! Ratios in percent.

use super::apart::short;

/// A ratio, which is finite, in percent with four digits.
///
/// ```
/// use lanecap::units::decimal::percent;
/// assert_eq!(percent(0.125), "12.5 %");
/// ```
pub fn percent(ratio: f64) -> String {
    format!("{} %", short(ratio).times_ten_to(2))
}

/// A relative margin, which is finite, in percent with four digits and its sign; `+0 %` for none.
///
/// ```
/// use lanecap::units::decimal::signed_percent;
/// assert_eq!(signed_percent(0.125), "+12.5 %");
/// assert_eq!(signed_percent(-0.07), "-7 %");
/// ```
pub fn signed_percent(margin: f64) -> String {
    format!("{} %", short(margin).times_ten_to(2).signed())
}
