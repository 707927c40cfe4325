//! A decimal that is exact in every digit it shows.

use std::fmt;

/// Significant digits that tell any two numbers apart.
pub(super) const MOST: usize = 17;

/// Which way a number is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Round {
    /// To the nearest.
    Nearest,
    /// To the next at or below: an upper end that must not be exceeded.
    Down,
    /// To the next at or above: a lower end.
    Up,
}

/// A rounded decimal, mantissa · 10^exponent, exact in every digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Decimal {
    negative: bool,
    mantissa: u64,
    exponent: i32,
}

impl Decimal {
    /// `value`, which is finite, rounded to `digits` significant digits, 17 at most.
    ///
    /// ```
    /// use lanecap::units::decimal::{Decimal, Round};
    /// assert_eq!(Decimal::new(0.65359, 3, Round::Nearest).to_string(), "0.654");
    /// assert_eq!(Decimal::new(0.65359, 3, Round::Down).to_string(), "0.653");
    /// assert_eq!(Decimal::new(0.65359, 3, Round::Down).times_ten_to(2).signed(), "+65.3");
    /// ```
    pub fn new(value: f64, digits: usize, round: Round) -> Decimal {
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
        if step < 0 && rounded.mantissa == 10u64.pow(places as u32) {
            // Below a power of ten the same number of digits is ten times as fine.
            rounded.mantissa *= 10;
            rounded.exponent -= 1;
        }
        rounded.mantissa = rounded.mantissa.saturating_add_signed(step);
        rounded
    }

    /// The nearest `f64`.
    pub fn value(self) -> f64 {
        let sign = if self.negative { "-" } else { "" };
        format!("{sign}{}e{}", self.mantissa, self.exponent).parse().unwrap_or(f64::NAN)
    }

    /// The same number times 10^`by`, exactly.
    pub fn times_ten_to(self, by: i32) -> Decimal {
        Decimal { exponent: self.exponent + by, ..self }
    }

    /// The number with its sign, `+0` for zero.
    pub fn signed(self) -> String {
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
