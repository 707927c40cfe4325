//! Kinds of quantity and their legal ranges.

use crate::units::{Dimension, engineering};

/// A kind of quantity: its dimension and its legal range in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kind {
    /// What is measured.
    pub dimension: Dimension,
    /// Least legal value.
    pub low: f64,
    /// Largest legal value.
    pub high: f64,
}

const fn kind(dimension: Dimension, low: f64, high: f64) -> Kind {
    Kind { dimension, low, high }
}

impl Kind {
    /// Whether `value` is legal.
    pub fn contains(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// The legal range in words.
    pub fn range(&self) -> String {
        let show = |v: f64| match self.dimension {
            Dimension::Percent => format!("{} %", v * 100.0),
            Dimension::Number => format!("{v}"),
            _ => engineering(v, self.dimension.symbol()),
        };
        if self.low == 0.0 {
            format!("0 to {}", show(self.high))
        } else {
            format!("{} to {}", show(self.low), show(self.high))
        }
    }
}

/// Capacitance of any element.
pub const CAPACITANCE: Kind = kind(Dimension::Capacitance, 0.0, 1e-3);
/// Capacitance that may not be 0.
pub const CAPACITANCE_ABOVE_ZERO: Kind = kind(Dimension::Capacitance, 1e-21, 1e-3);
/// Inductance that may not be 0.
pub const INDUCTANCE_ABOVE_ZERO: Kind = kind(Dimension::Inductance, 1e-18, 1.0);
/// Inductance of any element.
pub const INDUCTANCE: Kind = kind(Dimension::Inductance, 0.0, 1.0);
/// Resistance in series.
pub const RESISTANCE: Kind = kind(Dimension::Resistance, 0.0, 1e9);
/// Resistance across the path.
pub const SHUNT_RESISTANCE: Kind = kind(Dimension::Resistance, 1e-6, 1e12);
/// Impedance of a line, an end or the reference.
pub const IMPEDANCE: Kind = kind(Dimension::Resistance, 1e-2, 1e5);
/// Length of a line or stub.
pub const LENGTH: Kind = kind(Dimension::Length, 0.0, 1e4);
/// Length of a line as its delay.
pub const DELAY: Kind = kind(Dimension::Time, 1e-18, 1e-3);
/// Any other time.
pub const TIME: Kind = kind(Dimension::Time, 1e-15, 1.0);
/// Frequency.
pub const FREQUENCY: Kind = kind(Dimension::Frequency, 1.0, 1e12);
/// Bit rate.
pub const BIT_RATE: Kind = kind(Dimension::BitRate, 1.0, 1e12);
/// Symbol rate.
pub const SYMBOL_RATE: Kind = kind(Dimension::SymbolRate, 1.0, 1e12);
/// Relative permittivity.
pub const PERMITTIVITY: Kind = kind(Dimension::Number, 1.0, 1000.0);
/// Loss tangent.
pub const LOSS_TANGENT: Kind = kind(Dimension::Number, 0.0, 1.0);
/// Loss of a whole line.
pub const LOSS: Kind = kind(Dimension::Decibel, 0.0, 1000.0);
/// Loss per length.
pub const LOSS_PER_LENGTH: Kind = kind(Dimension::DecibelPerLength, 0.0, 1e5);
/// A voltage of either sign.
pub const SIGNED_VOLTAGE: Kind = kind(Dimension::Voltage, -1e5, 1e5);
/// A voltage above 0.
pub const VOLTAGE: Kind = kind(Dimension::Voltage, 1e-6, 1e6);
/// A count.
pub const COUNT: Kind = kind(Dimension::Number, 1.0, 4096.0);
/// A spread.
pub const SPREAD: Kind = kind(Dimension::Percent, 0.0, 10.0);
/// Grading exponent of a junction.
pub const EXPONENT: Kind = kind(Dimension::Number, 0.0, 2.0);
/// A length that may not be 0: a width, a height, a diameter.
pub const SIZE: Kind = kind(Dimension::Length, 1e-9, 1.0);
/// A height of roughness.
pub const ROUGHNESS: Kind = kind(Dimension::Length, 0.0, 1e-3);
/// An area.
pub const AREA: Kind = kind(Dimension::Area, 1e-18, 1.0);
/// Number of balls.
pub const BALLS: Kind = kind(Dimension::Number, 1.0, 1e4);
/// Resistivity.
pub const RESISTIVITY: Kind = kind(Dimension::Resistivity, 1e-10, 1.0);
/// A tap of the transmitter's equaliser.
pub const TAP: Kind = kind(Dimension::Number, -1.0, 1.0);
/// Peaking of the receiver's equaliser.
pub const PEAKING: Kind = kind(Dimension::Decibel, 0.0, 60.0);
/// Number of taps of the decision feedback.
pub const FEEDBACK: Kind = kind(Dimension::Number, 1.0, 64.0);
/// Largest difference between the lines of a pair.
pub const MISMATCH: Kind = kind(Dimension::Percent, 0.0, 2.0);
/// Conversion between modes.
pub const CONVERSION: Kind = kind(Dimension::Decibel, -200.0, 0.0);
/// An added time.
pub const ADDED_TIME: Kind = kind(Dimension::Time, 0.0, 1.0);
/// A limit in decibels.
pub const LEVEL: Kind = kind(Dimension::Decibel, 0.0, 200.0);
/// A limit as a share.
pub const SHARE: Kind = kind(Dimension::Percent, 0.0, 1.0);
/// A current.
pub const CURRENT: Kind = kind(Dimension::Current, 1e-18, 1e6);
/// Channels of a package.
pub const CHANNELS: Kind = kind(Dimension::Number, 1.0, 256.0);
/// Cost of a package.
pub const COST: Kind = kind(Dimension::Number, 0.0, 1e9);
/// A temperature.
pub const TEMPERATURE: Kind = kind(Dimension::Temperature, -273.15, 1000.0);
/// A level of a rising edge.
pub const EDGE_LEVEL: Kind = kind(Dimension::Percent, 1e-3, 0.999);
/// Power a radio sends.
pub const POWER: Kind = kind(Dimension::Power, 1e-15, 1e6);
/// The same over a milliwatt.
pub const POWER_LEVEL: Kind = kind(Dimension::PowerLevel, -120.0, 90.0);
/// Magnitude of a measured reflection.
pub const REFLECTION: Kind = kind(Dimension::Number, 1e-9, 1.0 - 1e-9);
/// Angle of a measured reflection.
pub const ANGLE: Kind = kind(Dimension::Angle, -1e6, 1e6);
/// Quality factor of a resonator.
pub const QUALITY: Kind = kind(Dimension::Number, 1e-3, 1e4);
/// A limit of the standing-wave ratio.
pub const STANDING_WAVE: Kind = kind(Dimension::Number, 1.0, 1e6);
