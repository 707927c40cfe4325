//! What a part withstands.

use crate::units::{Ampere, Ohm, Second, Volt};

/// What the data sheet of a part states of its strength. `None` is not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Strength {
    /// Stand-off: the highest working voltage.
    pub standoff: Option<Volt>,
    /// The lowest working voltage, where it is stated beside the highest: 0 or below.
    pub standoff_low: Option<Volt>,
    /// For a part that snaps back: the voltage it holds at.
    pub holding: Option<Volt>,
    /// The least current it holds at, where it is stated.
    pub holding_current: Option<Ampere>,
    /// For a part that snaps back: the voltage it turns on at.
    pub trigger: Option<Volt>,
    /// For a part that snaps back: the time constant of its turning on.
    pub turn_on: Option<Second>,
    /// Where it conducts in the other polarity, as a positive voltage; of no use for a bidirectional part.
    pub negative: Option<Volt>,
    /// Where its curve begins: the breakdown voltage and the current it is stated at, else 0 A.
    pub breakdown: Option<ClampPoint>,
    /// A point of its curve under a 100 ns pulse.
    pub clamp: Option<ClampPoint>,
    /// Slope of that curve from there on.
    pub dynamic_resistance: Option<Ohm>,
    /// Rated contact discharge.
    pub contact: Option<Volt>,
    /// Rated air discharge.
    pub air: Option<Volt>,
    /// Rated 8/20 µs surge current.
    pub surge: Option<Ampere>,
    /// A point of its curve under an 8/20 µs surge.
    pub surge_clamp: Option<ClampPoint>,
    /// Leakage at 25 °C.
    pub leakage: Option<Leakage>,
    /// Operating temperature.
    pub temperature: Option<TemperatureRange>,
    /// Channels of a package.
    pub channels: Option<u32>,
    /// Package.
    pub package: Option<String>,
    /// Qualifications.
    pub qualified: Vec<String>,
    /// Cost of a package, in no currency.
    pub cost: Option<f64>,
}

/// A clamping voltage at its current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClampPoint {
    /// Voltage across the part.
    pub voltage: Volt,
    /// Current through it.
    pub current: Ampere,
}

/// A leakage current, and the voltage it is stated at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leakage {
    /// Current at 25 °C.
    pub current: Ampere,
    /// Voltage it is stated at; the stand-off where none is given.
    pub at: Option<Volt>,
}

/// A range of temperatures in degrees Celsius, low to high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TemperatureRange {
    /// Lowest temperature in °C.
    pub low: f64,
    /// Highest temperature in °C.
    pub high: f64,
}
