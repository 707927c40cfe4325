//! What the data sheet of a part states of its strength.

use crate::model::{Polarity, Strength};
use crate::units::{Henry, Volt};

/// What a part states, and how it lies on a line. `None` is not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rating {
    /// How it conducts.
    pub polarity: Option<Polarity>,
    /// Series inductance of the part itself.
    pub inductance: Henry,
    /// Whether it is stated across the pair alone: no ground via then lies in its path.
    pub across: bool,
    /// What it withstands and clamps to, its package and its cost.
    pub strength: Strength,
}

impl Rating {
    /// Whether the part snaps back: it states a holding or a trigger voltage.
    pub fn snaps_back(&self) -> bool {
        self.strength.holding.is_some() || self.strength.trigger.is_some()
    }

    /// Highest working voltage: the stand-off, or the supply of a part with rail diodes, whichever is lower.
    pub fn working_voltage(&self) -> Option<Volt> {
        let rail = match self.polarity {
            Some(Polarity::Rails(supply)) => Some(supply),
            _ => None,
        };
        match (self.strength.standoff, rail) {
            (Some(a), Some(b)) => Some(Volt(a.0.min(b.0))),
            (a, b) => a.or(b),
        }
    }

    /// The voltage below which the part does not clamp: the holding voltage of one that snaps back, else the
    /// working voltage.
    pub fn clamping_floor(&self) -> Option<Volt> {
        self.strength.holding.or_else(|| self.working_voltage())
    }
}
