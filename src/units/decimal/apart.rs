//! Numbers with as many digits as it takes to tell two of them apart: no shown number contradicts its verdict.

use std::cmp::Ordering;

use super::engineering::{Scale, rounded, significant};
use super::exact::{Decimal, MOST, Round};

/// Significant digits of a number that nothing is close to.
const FEWEST: usize = 4;
/// Significant digits of an estimate.
const ESTIMATE: usize = 3;

/// `value`, which is finite, in as few digits, four at least, as leave it on the wanted side of each of the other
/// numbers shown.
///
/// ```
/// use std::cmp::Ordering;
///
/// use lanecap::units::decimal::{Round, apart_from};
/// assert_eq!(apart_from(0.653594, Round::Down, &[]).to_string(), "0.6535");
/// assert_eq!(apart_from(0.653594, Round::Down, &[(0.65355, Ordering::Greater)]).to_string(), "0.65359");
/// ```
pub fn apart_from(value: f64, round: Round, others: &[(f64, Ordering)]) -> Decimal {
    let right = |shown: &Decimal| {
        let shown = shown.value();
        others.iter().all(|(other, wanted)| shown.partial_cmp(other) == Some(*wanted))
    };
    (FEWEST..MOST)
        .map(|digits| Decimal::new(value, digits, round))
        .find(right)
        .unwrap_or_else(|| Decimal::new(value, MOST, round))
}

/// `value`, which is finite, in four digits.
pub fn short(value: f64) -> Decimal {
    Decimal::new(value, FEWEST, Round::Nearest)
}

/// A value beside its bound, both finite, rounded and still in their true order.
pub fn pair(value: f64, bound: f64) -> (Decimal, Decimal) {
    let wanted = value.partial_cmp(&bound);
    (FEWEST..MOST)
        .map(|digits| {
            let shown = Decimal::new(value, digits, Round::Nearest);
            (shown, Decimal::new(bound, digits.max(6), Round::Nearest))
        })
        .find(|(shown, bound)| shown.value().partial_cmp(&bound.value()) == wanted)
        .unwrap_or_else(|| {
            let exact = |number| Decimal::new(number, MOST, Round::Nearest);
            (exact(value), exact(bound))
        })
}

/// A value and its bound as text, with as few digits as leave the value on its own side of the bound.
///
/// Four digits where that is enough (six for the bound); as many as it takes where the two are close. Equal numbers
/// give equal texts. Both are finite.
///
/// ```
/// use lanecap::units::decimal::digits_apart;
/// assert_eq!(digits_apart(13.123456, 12.0), ("13.12".to_owned(), "12".to_owned()));
/// assert_eq!(digits_apart(11.9996, 12.0), ("11.9996".to_owned(), "12".to_owned()));
/// ```
pub fn digits_apart(value: f64, bound: f64) -> (String, String) {
    let (value, bound) = pair(value, bound);
    (value.to_string(), bound.to_string())
}

/// An estimate in three digits with its unit, or beside its bound in those that keep it on its own side. Both are finite.
///
/// ```
/// use lanecap::units::decimal::estimate;
/// assert_eq!(estimate(9.24202, None, "V"), "9.24 V");
/// assert_eq!(estimate(22.012, Some(22.0), "V"), "22.01 V");
/// ```
pub fn estimate(value: f64, bound: Option<f64>, unit: &str) -> String {
    let three = Decimal::new(value, ESTIMATE, Round::Nearest).value();
    match bound.filter(|bound| three.partial_cmp(bound) != value.partial_cmp(bound)) {
        Some(bound) => format!("{} {unit}", pair(value, bound).0),
        None => rounded(value, ESTIMATE, unit),
    }
}

/// An estimate beside its bound, both finite: three digits where they leave it on its own side of the bound.
pub fn estimated_pair(value: f64, bound: f64) -> (Decimal, Decimal) {
    let (three, shown) = (Decimal::new(value, ESTIMATE, Round::Nearest), Decimal::new(bound, 6, Round::Nearest));
    let kept = three.value().partial_cmp(&shown.value()) == value.partial_cmp(&bound);
    if kept { (three, shown) } else { pair(value, bound) }
}

/// Two numbers with their unit, with as many digits as it takes to tell them apart, four at least.
///
/// They share the prefix that suits `b`; a number without a unit and a temperature have none.
///
/// ```
/// use lanecap::units::decimal::engineering_apart;
/// assert_eq!(engineering_apart(4.20001, 4.2, "V"), ("4.20001 V".to_owned(), "4.2 V".to_owned()));
/// ```
pub fn engineering_apart(a: f64, b: f64, unit: &str) -> (String, String) {
    let scale = match unit {
        "" | "degC" => Scale { factor: 1.0, prefix: "" },
        _ => Scale::of(b),
    };
    let show = |value: f64, digits| {
        let text = format!("{} {}{unit}", significant(value / scale.factor, digits), scale.prefix);
        text.trim_end().to_owned()
    };
    (FEWEST..=MOST)
        .map(|digits| (show(a, digits), show(b, digits)))
        .find(|(a, b)| a != b)
        .unwrap_or_else(|| (show(a, MOST), show(b, MOST)))
}
