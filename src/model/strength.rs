//! What a part withstands, and what a line asks of it.

use crate::units::{Ampere, Ohm, Volt};

/// What the data sheet of a part states of its strength. `None` is not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Strength {
    /// Stand-off: the highest working voltage.
    pub standoff: Option<Volt>,
    /// For a part that snaps back: the voltage it holds at.
    pub holding: Option<Volt>,
    /// For a part that snaps back: the voltage it turns on at.
    pub trigger: Option<Volt>,
    /// A point of its curve under a 100 ns pulse.
    pub clamp: Option<ClampPoint>,
    /// Slope of that curve.
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

/// Properties a part must have.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Needs {
    /// Qualifications, each of which the part must state.
    pub qualified: Vec<String>,
    /// The package.
    pub package: Option<String>,
    /// Channels of one package, at least.
    pub channels: Option<u32>,
    /// Leakage at the line's voltage and highest temperature, at most.
    pub leakage: Option<Ampere>,
    /// Whether it must conduct alike in both directions.
    pub bidirectional: bool,
}

/// What any kind of line meets and asks for. What is `None` or empty is not asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asks {
    /// Contact discharge, IEC 61000-4-2.
    pub contact: Option<Volt>,
    /// Air discharge, IEC 61000-4-2.
    pub air: Option<Volt>,
    /// 8/20 µs surge current; one stated as a voltage through an impedance is V/Z.
    pub surge: Option<Ampere>,
    /// What the protected chip survives at its pin.
    pub withstands: Option<Volt>,
    /// What the part must have.
    pub needs: Needs,
    /// Ambient temperature.
    pub temperature: Option<TemperatureRange>,
}
