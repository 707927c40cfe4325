//! A protector part and its worst-case junction capacitance.

use super::Strength;
use crate::diag::Span;
use crate::units::{Farad, Henry, Ohm, Volt};

/// A protector as its data sheet states it; the default states nothing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// Where the name stands.
    pub span: Span,
    /// Capacitance of a line to ground.
    pub to_ground: Option<CapacitanceRating>,
    /// Capacitance across the pair.
    pub across: Option<CapacitanceRating>,
    /// Junction law, where stated.
    pub grading: Option<Grading>,
    /// Polarity, where stated.
    pub polarity: Option<Polarity>,
    /// In series with the capacitance.
    pub inductance: Henry,
    /// In series with the capacitance.
    pub resistance: Ohm,
    /// Largest difference between the two lines of a pair, where stated.
    pub mismatch: Option<Mismatch>,
    /// Whole spread of the capacitance to ground, from part to part: 2 (maximum − typical), an estimate; `None` where one of
    /// them is not stated.
    pub spread: Option<Farad>,
    /// The same of the capacitance across the pair.
    pub across_spread: Option<Farad>,
    /// Whether a capacitance is stated as a typical value alone.
    pub typical_only: bool,
    /// What it withstands, its package and cost.
    pub strength: Strength,
}

impl Part {
    /// Whether the part snaps back: it states a holding or a trigger voltage.
    pub fn snaps_back(&self) -> bool {
        self.strength.holding.is_some() || self.strength.trigger.is_some()
    }

    /// Whether a pair takes two packages of it: it has one channel, to ground.
    pub fn is_taken_twice(&self, differential: bool) -> bool {
        differential && self.strength.channels == Some(1) && self.across.is_none()
    }

    /// Largest difference of two packages that have `c` farad at most, from the [spread](Part::spread).
    pub fn apart(&self, c: Farad) -> Option<Mismatch> {
        let (spread, maximum) = (self.spread?.0, self.to_ground?.maximum.0);
        let share = if spread == 0.0 { 0.0 } else { spread / maximum };
        Some(Mismatch::Absolute(Farad(share * c.0))).filter(|_| share >= 0.0 && share.is_finite())
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

/// A capacitance of a data sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CapacitanceRating {
    /// The maximum (the typical value where no maximum is stated).
    pub maximum: Farad,
    /// The bias it is stated at.
    pub bias: Option<Volt>,
    /// Where it is stated.
    pub span: Span,
}

/// Largest difference ΔC between the two lines of a pair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mismatch {
    /// ΔC itself.
    Absolute(Farad),
    /// ΔC as a share of C.
    Share(f64),
}

impl Mismatch {
    /// ΔC in farad at `c` farad.
    pub fn at(self, c: f64) -> f64 {
        match self {
            Mismatch::Absolute(difference) => difference.0,
            Mismatch::Share(share) => share * c,
        }
    }
}

/// Junction law C ∝ (1 + V/V_j)^−m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grading {
    /// Built-in voltage V_j.
    pub voltage: Volt,
    /// Grading exponent m.
    pub exponent: f64,
}

/// How a part conducts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Polarity {
    /// One junction to ground.
    Unidirectional,
    /// Two junctions back to back.
    Bidirectional,
    /// Two diodes, to ground and to a supply of this voltage.
    Rails(Volt),
}
