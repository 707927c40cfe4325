//! What the chip at the inner end of a path does in a discharge, and what it survives.

use crate::units::{Ampere, Ohm, Volt};

/// Resistance of the human-body model: a rating of V is taken to survive V/1.5 kΩ for 100 ns (common practice, no source; an
/// estimate).
pub const HUMAN_BODY: Ohm = Ohm(1500.0);

/// What is stated of the chip at an end of a path; the default states nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Chip {
    /// Its own clamp.
    pub clamp: Option<ChipClamp>,
    /// The currents it survives.
    pub survives: Option<Survives>,
    /// Where its clamp conducts in the other polarity, as a positive voltage.
    pub negative: Option<Volt>,
}

/// The clamp of a chip: no current below its voltage, then voltage + resistance · I.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChipClamp {
    /// Where it begins to conduct.
    pub voltage: Volt,
    /// Its resistance from there on.
    pub resistance: Ohm,
}

/// The currents a chip survives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Survives {
    /// Of a pulse of 100 ns.
    pub current: Ampere,
    /// Of the first nanoseconds, where stated.
    pub peak: Option<Ampere>,
    /// The human-body rating it was taken from, where it was.
    pub human_body: Option<Volt>,
}

impl Survives {
    /// What a human-body rating survives: V/1.5 kΩ for 100 ns, an estimate.
    pub fn of_human_body(rating: Volt) -> Survives {
        Survives { current: Ampere(rating.0 / HUMAN_BODY.0), peak: None, human_body: Some(rating) }
    }
}

impl Chip {
    /// Whether anything is stated of it.
    pub fn is_stated(&self) -> bool {
        *self != Chip::default()
    }

    /// The first word that says nothing of a chip without a clamp, where it has none.
    pub fn word_without_clamp(&self) -> Option<&'static str> {
        let survives = self.survives.map(|s| if s.human_body.is_some() { "human_body" } else { "survives" });
        survives.or(self.negative.map(|_| "negative")).filter(|_| self.clamp.is_none())
    }
}
