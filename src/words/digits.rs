//! Decimals with as many digits as it takes to tell two numbers apart.

use std::cmp::Ordering;
use std::fmt;

/// Significant digits of a number that nothing is close to.
const FEWEST: usize = 4;
/// Significant digits that tell any two numbers apart.
const MOST: usize = 17;

/// Which way a number is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Round {
    /// To the nearest.
    Nearest,
    /// To the next at or below: an upper end that must not be exceeded.
    Down,
    /// To the next at or above: a lower end.
    Up,
}

/// A rounded decimal, mantissa · 10^exponent, exact in every digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Decimal {
    negative: bool,
    mantissa: u64,
    exponent: i32,
}

impl Decimal {
    /// `value`, which is finite, rounded to `digits` significant digits, 17 at most.
    fn new(value: f64, digits: usize, round: Round) -> Decimal {
        let text = format!("{:.*e}", digits.clamp(1, MOST) - 1, value.abs());
        let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
        let places = mantissa.split_once('.').map_or(0, |(_, after)| after.len());
        let mut rounded = Decimal {
            negative: value < 0.0,
            mantissa: mantissa.replace('.', "").parse().unwrap_or(0),
            exponent: exponent.parse::<i32>().unwrap_or(0) - places as i32,
        };
        let step = match round {
            Round::Down if rounded.value() > value => -1,
            Round::Up if rounded.value() < value => 1,
            Round::Nearest | Round::Down | Round::Up => 0,
        };
        let step = if rounded.negative { -step } else { step };
        rounded.mantissa = rounded.mantissa.saturating_add_signed(step);
        rounded
    }

    /// The nearest `f64`.
    pub(crate) fn value(self) -> f64 {
        let sign = if self.negative { "-" } else { "" };
        format!("{sign}{}e{}", self.mantissa, self.exponent).parse().unwrap_or(f64::NAN)
    }

    /// The same number times 10^`by`, exactly.
    pub(crate) fn times_ten_to(self, by: i32) -> Decimal {
        Decimal { exponent: self.exponent + by, ..self }
    }

    /// The number with its sign, `+0` for zero.
    pub(crate) fn signed(self) -> String {
        if self.negative && self.mantissa != 0 { self.to_string() } else { format!("+{self}") }
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.mantissa == 0 {
            return f.write_str("0");
        }
        if self.negative {
            f.write_str("-")?;
        }
        let mut digits = self.mantissa.to_string();
        let mut exponent = self.exponent;
        while digits.ends_with('0') {
            digits.pop();
            exponent += 1;
        }
        let point = digits.len() as i32 + exponent;
        match point {
            // Far beyond any unit's scale.
            ..-12 | 22.. => write!(f, "{digits}e{exponent}"),
            ..=0 => write!(f, "0.{}{digits}", "0".repeat(point.unsigned_abs() as usize)),
            _ if exponent >= 0 => write!(f, "{digits}{}", "0".repeat(exponent.unsigned_abs() as usize)),
            _ => {
                let (whole, part) = digits.split_at(point.unsigned_abs() as usize);
                write!(f, "{whole}.{part}")
            }
        }
    }
}

/// `value` in as few digits, four at least, as leave it on the wanted side of each of the other numbers shown.
pub(crate) fn apart_from(value: f64, round: Round, others: &[(f64, Ordering)]) -> Decimal {
    let right = |shown: &Decimal| {
        let shown = shown.value();
        others.iter().all(|(other, wanted)| shown.partial_cmp(other) == Some(*wanted))
    };
    (FEWEST..MOST)
        .map(|digits| Decimal::new(value, digits, round))
        .find(right)
        .unwrap_or_else(|| Decimal::new(value, MOST, round))
}

/// `value` in four digits.
pub(crate) fn short(value: f64) -> Decimal {
    Decimal::new(value, FEWEST, Round::Nearest)
}

/// A value beside its bound, both rounded and still in their true order.
pub(crate) fn pair(value: f64, bound: f64) -> (Decimal, Decimal) {
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
/// use lanecap::words::digits_apart;
/// assert_eq!(digits_apart(13.123456, 12.0), ("13.12".to_owned(), "12".to_owned()));
/// assert_eq!(digits_apart(11.9996, 12.0), ("11.9996".to_owned(), "12".to_owned()));
/// ```
pub fn digits_apart(value: f64, bound: f64) -> (String, String) {
    let (value, bound) = pair(value, bound);
    (value.to_string(), bound.to_string())
}
