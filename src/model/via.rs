//! A via, as the circuit has it and as the sheet states it.

use std::sync::Arc;

use super::Laminate;
use crate::units::{Farad, Henry, Metre, Ohm};

/// A via as the circuit has it.
#[derive(Debug, Clone, PartialEq)]
pub struct Via {
    /// What the signal travels.
    pub barrel: Barrel,
    /// The unused length of its barrel.
    pub stub: Option<ViaStub>,
}

/// The way through a via, per line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Barrel {
    /// A symmetric π.
    Lumped {
        /// To ground.
        capacitance: Farad,
        /// In series.
        inductance: Option<Henry>,
    },
    /// A line without loss.
    Line {
        /// Its characteristic impedance.
        impedance: Ohm,
        /// The length the signal travels.
        length: Metre,
        /// Relative permittivity.
        permittivity: f64,
    },
}

/// The unused length of a via's barrel, an open line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViaStub {
    /// Length.
    pub length: Metre,
    /// Relative permittivity.
    pub permittivity: f64,
    /// The side of the via it hangs at.
    pub side: StubSide,
}

/// The side of a via.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StubSide {
    /// Towards the outer end of the path.
    Outer,
    /// Towards the inner end of the path.
    Inner,
}

/// A via as the sheet states it.
#[derive(Debug, Clone, PartialEq)]
pub struct StatedVia {
    /// What it is made as.
    pub make: ViaMake,
    /// The unused length of its barrel.
    pub stub: Option<StatedStub>,
}

/// What a via is made as.
#[derive(Debug, Clone, PartialEq)]
pub enum ViaMake {
    /// By what it is on a signal's way.
    Lumped {
        /// Per line to ground.
        capacitance: Farad,
        /// Per line, in series.
        inductance: Option<Henry>,
    },
    /// By its geometry.
    Geometry {
        /// The length the signal travels.
        barrel: Metre,
        /// Diameter of the hole.
        drill: Metre,
        /// Diameter of the pad.
        pad: Metre,
        /// Diameter of the clearance in the planes.
        antipad: Metre,
        /// The board.
        laminate: Arc<Laminate>,
    },
}

/// The unused length of a via's barrel as the sheet states it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatedStub {
    /// Length.
    pub length: Metre,
    /// Relative permittivity; one from its geometry has that of its board where none is stated.
    pub permittivity: Option<f64>,
    /// The side of the via it hangs at.
    pub side: StubSide,
}
