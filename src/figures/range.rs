//! Quantities and their legal ranges, each defined once.

use crate::units::{Dimension, engineering};

/// A quantity: its dimension and its legal range in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// What is measured.
    pub dimension: Dimension,
    /// Least legal value.
    pub low: f64,
    /// Largest legal value.
    pub high: f64,
}

const fn range(dimension: Dimension, low: f64, high: f64) -> Range {
    Range { dimension, low, high }
}

impl Range {
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
pub const CAPACITANCE: Range = range(Dimension::Capacitance, 0.0, 1e-3);
/// Capacitance that may not be 0.
pub const CAPACITANCE_ABOVE_ZERO: Range = range(Dimension::Capacitance, 1e-21, 1e-3);
/// Inductance that may not be 0.
pub const INDUCTANCE_ABOVE_ZERO: Range = range(Dimension::Inductance, 1e-18, 1.0);
/// Inductance of any element.
pub const INDUCTANCE: Range = range(Dimension::Inductance, 0.0, 1.0);
/// Resistance in series.
pub const RESISTANCE: Range = range(Dimension::Resistance, 0.0, 1e9);
/// Resistance across the path.
pub const SHUNT_RESISTANCE: Range = range(Dimension::Resistance, 1e-6, 1e12);
/// Impedance of a line, an end or the reference.
pub const IMPEDANCE: Range = range(Dimension::Resistance, 1e-2, 1e5);
/// Length of a line or stub.
pub const LENGTH: Range = range(Dimension::Length, 0.0, 1e4);
/// Length of a line as its delay.
pub const DELAY: Range = range(Dimension::Time, 1e-18, 1e-3);
/// Any other time.
pub const TIME: Range = range(Dimension::Time, 1e-15, 1.0);
/// Frequency.
pub const FREQUENCY: Range = range(Dimension::Frequency, 1.0, 1e12);
/// Bit rate.
pub const BIT_RATE: Range = range(Dimension::BitRate, 1.0, 1e12);
/// Symbol rate.
pub const SYMBOL_RATE: Range = range(Dimension::SymbolRate, 1.0, 1e12);
/// Relative permittivity.
pub const PERMITTIVITY: Range = range(Dimension::Number, 1.0, 1000.0);
/// Loss tangent.
pub const LOSS_TANGENT: Range = range(Dimension::Number, 0.0, 1.0);
/// Loss of a whole line.
pub const LOSS: Range = range(Dimension::Decibel, 0.0, 1000.0);
/// Loss per length.
pub const LOSS_PER_LENGTH: Range = range(Dimension::DecibelPerLength, 0.0, 1e5);
/// A voltage of either sign.
pub const SIGNED_VOLTAGE: Range = range(Dimension::Voltage, -1e5, 1e5);
/// A voltage above 0.
pub const VOLTAGE: Range = range(Dimension::Voltage, 1e-6, 1e6);
/// A count.
pub const COUNT: Range = range(Dimension::Number, 1.0, 4096.0);
/// A spread.
pub const SPREAD: Range = range(Dimension::Percent, 0.0, 10.0);
/// Grading exponent of a junction.
pub const EXPONENT: Range = range(Dimension::Number, 0.0, 2.0);
/// A length that may not be 0: a width, a height, a diameter.
pub const SIZE: Range = range(Dimension::Length, 1e-9, 1.0);
/// A height of roughness.
pub const ROUGHNESS: Range = range(Dimension::Length, 0.0, 1e-3);
/// An area.
pub const AREA: Range = range(Dimension::Area, 1e-18, 1.0);
/// Number of balls.
pub const BALLS: Range = range(Dimension::Number, 1.0, 1e4);
/// Resistivity.
pub const RESISTIVITY: Range = range(Dimension::Resistivity, 1e-10, 1.0);
/// A tap of the transmitter's equaliser.
pub const TAP: Range = range(Dimension::Number, -1.0, 1.0);
/// Peaking of the receiver's equaliser.
pub const PEAKING: Range = range(Dimension::Decibel, 0.0, 60.0);
/// Number of taps of the decision feedback.
pub const FEEDBACK: Range = range(Dimension::Number, 1.0, 64.0);
/// Largest tap of a decision feedback, of the main cursor.
pub const TAP_LIMIT: Range = range(Dimension::Number, 0.0, 1.0);
/// Largest difference between the lines of a pair.
pub const MISMATCH: Range = range(Dimension::Percent, 0.0, 2.0);
/// Conversion between modes.
pub const CONVERSION: Range = range(Dimension::Decibel, -200.0, 0.0);
/// An added time.
pub const ADDED_TIME: Range = range(Dimension::Time, 0.0, 1.0);
/// A limit in decibels.
pub const LEVEL: Range = range(Dimension::Decibel, 0.0, 200.0);
/// A limit as a share.
pub const SHARE: Range = range(Dimension::Percent, 0.0, 1.0);
/// A current.
pub const CURRENT: Range = range(Dimension::Current, 1e-18, 1e6);
/// Resistance of a chip's own clamp.
pub const CHIP_RESISTANCE: Range = range(Dimension::Resistance, 1e-3, 1e5);
/// Time constant of a part that turns on.
pub const TURN_ON: Range = range(Dimension::Time, 1e-12, 1e-3);
/// Channels of a package.
pub const CHANNELS: Range = range(Dimension::Number, 1.0, 256.0);
/// Cost of a package.
pub const COST: Range = range(Dimension::Number, 0.0, 1e9);
/// A temperature.
pub const TEMPERATURE: Range = range(Dimension::Temperature, -273.15, 1000.0);
/// A level of a rising edge.
pub const EDGE_LEVEL: Range = range(Dimension::Percent, 1e-3, 0.999);
/// Power a radio sends.
pub const POWER: Range = range(Dimension::Power, 1e-15, 1e6);
/// The same over a milliwatt.
pub const POWER_LEVEL: Range = range(Dimension::PowerLevel, -120.0, 90.0);
/// Magnitude of a measured reflection.
pub const REFLECTION: Range = range(Dimension::Number, 1e-9, 1.0 - 1e-9);
/// Angle of a measured reflection.
pub const ANGLE: Range = range(Dimension::Angle, -1e6, 1e6);
/// Quality factor of a resonator.
pub const QUALITY: Range = range(Dimension::Number, 1e-3, 1e4);
/// A limit of the standing-wave ratio.
pub const STANDING_WAVE: Range = range(Dimension::Number, 1.0, 1e6);
