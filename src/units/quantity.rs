//! The quantities: one newtype per SI unit, with its scaled constructors, its arithmetic and its text.
//!
//! A row of the table below is a quantity, its symbol, and the prefixes it is usually written with. Everything else
//! follows from the row. What two different quantities make of each other stands in `product.rs`.

use std::cmp::Ordering;
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::decimal::write_engineering;
use super::unit::scaled;

/// The power of ten of a prefix.
macro_rules! exponent {
    (femto) => {
        -15
    };
    (pico) => {
        -12
    };
    (nano) => {
        -9
    };
    (micro) => {
        -6
    };
    (milli) => {
        -3
    };
    (centi) => {
        -2
    };
    (kilo) => {
        3
    };
    (mega) => {
        6
    };
    (giga) => {
        9
    };
    (tera) => {
        12
    };
}

macro_rules! quantity {
    ($($(#[$doc:meta])* $name:ident = $symbol:literal: $($prefix:ident)*;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(pub f64);

        impl $name {
            /// The symbol of the SI unit, as in the lane sheet.
            pub const SYMBOL: &'static str = $symbol;

            /// None of it: the neutral element of the sum.
            pub const ZERO: $name = $name(0.0);

            $(
                #[doc = concat!("`value` ", stringify!($prefix), "-", $symbol, ", rounded once.")]
                ///
                /// The same double as a sheet gives for the same decimal of up to 15 digits. What is not finite stays
                /// as it is.
                pub fn $prefix(value: f64) -> $name {
                    $name(scaled(value, exponent!($prefix)))
                }
            )*

            /// Its size without its sign.
            pub const fn abs(self) -> $name {
                $name(self.0.abs())
            }

            /// The smaller of two; a number rather than NaN.
            pub const fn min(self, other: $name) -> $name {
                $name(self.0.min(other.0))
            }

            /// The larger of two; a number rather than NaN.
            pub const fn max(self, other: $name) -> $name {
                $name(self.0.max(other.0))
            }

            /// Whether it is neither infinite nor NaN.
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }

            /// The order of [`f64::total_cmp`], for sorting: NaN has a place too.
            pub fn total_cmp(&self, other: &$name) -> Ordering {
                self.0.total_cmp(&other.0)
            }
        }

        /// Engineering notation with four significant digits, or as many as the precision says: `{:.3}`. A width and
        /// an alignment hold as for a text.
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write_engineering(f, self.0, $symbol)
            }
        }

        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = $name;
            fn neg(self) -> $name {
                $name(-self.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: $name) {
                self.0 += other.0;
            }
        }

        impl SubAssign for $name {
            fn sub_assign(&mut self, other: $name) {
                self.0 -= other.0;
            }
        }

        impl Mul<f64> for $name {
            type Output = $name;
            fn mul(self, factor: f64) -> $name {
                $name(self.0 * factor)
            }
        }

        impl Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, value: $name) -> $name {
                $name(self * value.0)
            }
        }

        impl Div<f64> for $name {
            type Output = $name;
            fn div(self, divisor: f64) -> $name {
                $name(self.0 / divisor)
            }
        }

        /// The ratio of two.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: $name) -> f64 {
                self.0 / other.0
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = $name>>(values: I) -> $name {
                values.fold($name::ZERO, Add::add)
            }
        }

        impl<'a> Sum<&'a $name> for $name {
            fn sum<I: Iterator<Item = &'a $name>>(values: I) -> $name {
                values.copied().sum()
            }
        }
    )*};
}

quantity! {
    /// Frequency in hertz.
    Hertz = "Hz": kilo mega giga tera;
    /// Symbol rate in baud (symbols per second).
    Baud = "Bd": kilo mega giga tera;
    /// Capacitance in farad.
    Farad = "F": femto pico nano micro milli;
    /// Inductance in henry.
    Henry = "H": femto pico nano micro milli;
    /// Impedance or resistance in ohm.
    Ohm = "ohm": micro milli kilo mega giga;
    /// Conductance in siemens.
    Siemens = "S": nano micro milli kilo;
    /// Time in second.
    Second = "s": femto pico nano micro milli;
    /// Length in metre.
    Metre = "m": nano micro milli centi kilo;
    /// Voltage in volt.
    Volt = "V": nano micro milli kilo;
    /// Current in ampere.
    Ampere = "A": femto pico nano micro milli kilo;
    /// Power in watt.
    Watt = "W": nano micro milli kilo mega;
    /// Charge in coulomb.
    Coulomb = "C": femto pico nano micro milli;
    /// Energy in joule.
    Joule = "J": femto pico nano micro milli kilo;
}
