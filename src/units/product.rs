//! What two quantities make of each other.
//!
//! A row `A * B = C` gives four operations: `A * B` and `B * A`, `C / A` and `C / B`. A row with a bare number is a
//! pair of reciprocals. Each is one operation on the SI values, rounded once.
//!
//! An angular frequency is no [`Hertz`], so that no row gives a reactance: 2πfL stands where it is used.

use std::ops::{Div, Mul};

use super::quantity::{Ampere, Coulomb, Farad, Henry, Hertz, Joule, Ohm, Second, Siemens, Volt, Watt};

/// `$output` as the product of `$a` and `$b`, in one direction.
macro_rules! operation {
    ($operator:ident $method:ident: $a:ident $symbol:tt $b:ident = $output:ident) => {
        impl $operator<$b> for $a {
            type Output = $output;
            fn $method(self, other: $b) -> $output {
                $output(self.0 $symbol other.0)
            }
        }
    };
}

macro_rules! reciprocal {
    ($a:ident, $b:ident) => {
        impl Mul<$b> for $a {
            type Output = f64;
            fn mul(self, other: $b) -> f64 {
                self.0 * other.0
            }
        }

        impl Div<$a> for f64 {
            type Output = $b;
            fn div(self, divisor: $a) -> $b {
                $b(self / divisor.0)
            }
        }
    };
}

macro_rules! product {
    () => {};
    ($a:ident * $b:ident = 1; $($rest:tt)*) => {
        reciprocal!($a, $b);
        reciprocal!($b, $a);
        product! { $($rest)* }
    };
    ($a:ident * $b:ident = $c:ident; $($rest:tt)*) => {
        operation!(Mul mul: $a * $b = $c);
        operation!(Mul mul: $b * $a = $c);
        operation!(Div div: $c / $a = $b);
        operation!(Div div: $c / $b = $a);
        product! { $($rest)* }
    };
}

product! {
    Ohm * Ampere = Volt;
    Volt * Siemens = Ampere;
    Volt * Ampere = Watt;
    Watt * Second = Joule;
    Joule * Hertz = Watt;
    Ampere * Second = Coulomb;
    Coulomb * Hertz = Ampere;
    Coulomb * Volt = Joule;
    Farad * Volt = Coulomb;
    Ohm * Farad = Second;
    Ohm * Second = Henry;
    Siemens * Second = Farad;
    Siemens * Henry = Second;
    Ohm * Siemens = 1;
    Hertz * Second = 1;
}
