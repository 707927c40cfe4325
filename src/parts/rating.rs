//! What the data sheet of a part states of its strength.

use crate::model::{ClampPoint, Leakage, Polarity, TemperatureRange};
use crate::units::{Ampere, Henry, Ohm, Volt};

/// What a part states. `None` is not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rating {
    /// How it conducts.
    pub polarity: Option<Polarity>,
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
    /// Series inductance of the part itself.
    pub inductance: Henry,
    /// Whether it is stated across the pair alone: no ground via then lies in its path.
    pub across: bool,
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
}

impl Rating {
    /// Whether the part snaps back: it states a holding or a trigger voltage.
    pub fn snaps_back(&self) -> bool {
        self.holding.is_some() || self.trigger.is_some()
    }

    /// Highest working voltage: the stand-off, or the supply of a part with rail diodes, whichever is lower.
    pub fn working_voltage(&self) -> Option<Volt> {
        let rail = match self.polarity {
            Some(Polarity::Rails(supply)) => Some(supply),
            _ => None,
        };
        match (self.standoff, rail) {
            (Some(a), Some(b)) => Some(Volt(a.0.min(b.0))),
            (a, b) => a.or(b),
        }
    }

    /// The voltage below which the part does not clamp: the holding voltage of one that snaps back, else the
    /// working voltage.
    pub fn clamping_floor(&self) -> Option<Volt> {
        self.holding.or_else(|| self.working_voltage())
    }
}
