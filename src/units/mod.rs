//! Physical quantities in SI units, their prefixes, and engineering notation.
//!
//! Every quantity is a newtype over `f64` holding the SI value, so that a capacitance cannot be
//! passed where an inductance is meant. `.0` is the bare SI number.

mod constants;
mod engineering;
mod unit;

pub use constants::{DB_PER_NEPER, SPEED_OF_LIGHT};
pub use engineering::{Scale, engineering, significant};
pub use unit::{Dimension, PREFIXES, Unit, parse_unit, suggest_unit};

macro_rules! quantity {
    ($($(#[$doc:meta])* $name:ident = $symbol:literal;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(pub f64);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(&engineering(self.0, $symbol))
            }
        }
    )*};
}

quantity! {
    /// Frequency in hertz.
    Hertz = "Hz";
    /// Symbol rate in baud (symbols per second).
    Baud = "Bd";
    /// Capacitance in farad.
    Farad = "F";
    /// Inductance in henry.
    Henry = "H";
    /// Impedance or resistance in ohm.
    Ohm = "ohm";
    /// Time in second.
    Second = "s";
    /// Length in metre.
    Metre = "m";
    /// Voltage in volt.
    Volt = "V";
    /// Current in ampere.
    Ampere = "A";
    /// Power in watt.
    Watt = "W";
}
