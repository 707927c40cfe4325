//! What a picture shows of a contact discharge.

use crate::transient::{PinOutcome, Sign};

/// A contact discharge of the stated level, of the polarity that is worse at the chip: an estimate. Struck below ground,
/// voltages and currents of that direction count as positive.
#[derive(Debug, Clone, PartialEq)]
pub struct DischargeCurves {
    /// The stated level in volt.
    pub level_v: f64,
    /// The polarity; `None` where both are alike.
    pub polarity: Option<Sign>,
    /// Voltages of nodes in volt against second.
    pub volts: Vec<Trail>,
    /// Currents of the parts at their terminals and into the chip's clamp, in ampere against second.
    pub amperes: Vec<Trail>,
    /// Where the first nanoseconds end, and where the curves end, in second.
    pub ends_s: [f64; 2],
    /// What the pin sees at the stated level, and at the worst one.
    pub pin: [PinOutcome; 2],
    /// The same of the other polarity, where it is not alike, and the level that leaves most there, in volt.
    pub other: Option<([PinOutcome; 2], f64)>,
    /// Whether all of that stood still as the step was halved.
    pub settled: bool,
    /// What the pin sees over the level, of both polarities where they differ.
    pub over_level: Vec<LevelCurve>,
    /// The level that leaves most, in volt.
    pub worst_level_v: f64,
    /// Whether there is a protector, and the level in volt from which on it turns on, if it ever does.
    pub turns_on_from_v: Option<Option<f64>>,
    /// What the chip survives.
    pub survives: ChipLimits,
}

/// What is stated of what a chip survives at its pin.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ChipLimits {
    /// Whether its clamp is stated, so that its current is known.
    pub clamps: bool,
    /// Voltage in volt after the first 5 ns.
    pub late_v: Option<f64>,
    /// Voltage in volt before that.
    pub early_v: Option<f64>,
    /// Current of a 100 ns pulse in ampere.
    pub pulse_a: Option<f64>,
    /// Current in ampere of the first nanoseconds.
    pub peak_a: Option<f64>,
}

/// Where something is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// The struck node.
    Connector,
    /// The protector, with its number in the path.
    Protector(usize),
    /// A further part, with its number in the path.
    Guard(usize),
    /// The chip's pin.
    Chip,
}

/// A quantity over time.
#[derive(Debug, Clone, PartialEq)]
pub struct Trail {
    /// Where.
    pub of: Spot,
    /// Its value against second.
    pub points: Vec<(f64, f64)>,
}

/// What is shown of the pin over the level.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtPin {
    /// Equivalent current of 100 ns in ampere.
    Equivalent,
    /// Highest current in ampere.
    PeakCurrent,
    /// Highest voltage after the first nanoseconds, in volt.
    LateVoltage,
    /// Highest voltage in volt.
    PeakVoltage,
}

/// What the pin sees over the level.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelCurve {
    /// What.
    pub of: AtPin,
    /// Of which polarity; `None` where both are alike.
    pub polarity: Option<Sign>,
    /// Its value against the level in volt.
    pub points: Vec<(f64, f64)>,
}
