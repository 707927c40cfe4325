//! A via.

use crate::units::{Farad, Henry, Metre, Ohm};

/// A via.
#[derive(Debug, Clone, PartialEq)]
pub struct Via {
    /// Per line to ground.
    pub capacitance: Farad,
    /// Per line, in series.
    pub inductance: Option<Henry>,
    /// The unused length of its barrel.
    pub stub: Option<ViaStub>,
}

/// The unused length of a via's barrel, an open line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViaStub {
    /// Length.
    pub length: Metre,
    /// Relative permittivity.
    pub permittivity: f64,
    /// Its characteristic impedance, where the via's geometry gives it.
    pub impedance: Option<Ohm>,
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
