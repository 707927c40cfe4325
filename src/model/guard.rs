//! A further part that is fitted in a path beside its protector.

use std::sync::Arc;

use super::{Part, PartOnLine};
use crate::units::{Farad, Henry, Metre, Ohm, Volt};

/// A further, fitted part as the circuit has it: the branch of a [`Protector`](super::Protector) with a capacitance that is
/// known.
#[derive(Debug, Clone)]
pub struct Guard {
    /// The part.
    pub part: Arc<Part>,
    /// Its capacitance, per line to ground: worst case on this line.
    pub capacitance: Farad,
    /// The bias that it was moved to.
    pub bias: Option<Volt>,
    /// Series inductance of the part itself in the half circuit.
    pub part_inductance: Henry,
    /// Series resistance of the part itself in the half circuit.
    pub part_resistance: Ohm,
    /// Ground-via inductance of the footprint, in series with the part unless it hangs across the pair; 0 where none is
    /// stated.
    pub inductance: Henry,
    /// Whether the part hangs across the pair: the ground via is not in its way then.
    pub across: bool,
    /// Footprint pad capacitance, per line.
    pub pad: Farad,
    /// Length from the trace to the part.
    pub stub: Metre,
    /// Permittivity of that stub.
    pub stub_permittivity: f64,
}

impl Guard {
    /// A part as it is on a line, without a footprint; the permittivity of its stub, which has no length, is 4.
    pub fn new(part: &Arc<Part>, on_line: &PartOnLine) -> Guard {
        Guard {
            part: Arc::clone(part),
            capacitance: on_line.capacitance,
            bias: on_line.bias,
            part_inductance: on_line.inductance,
            part_resistance: on_line.resistance,
            inductance: Henry::ZERO,
            across: on_line.across,
            pad: Farad::ZERO,
            stub: Metre::ZERO,
            stub_permittivity: 4.0,
        }
    }

    /// Inductance of the ground via as it enters the circuit.
    pub fn ground_inductance(&self) -> Henry {
        if self.across { Henry::ZERO } else { self.inductance }
    }
}

/// A guard as the sheet states it.
#[derive(Debug, Clone, PartialEq)]
pub struct StatedGuard {
    /// The part.
    pub part: Arc<Part>,
    /// Footprint pad capacitance, per line.
    pub pad: Farad,
    /// Ground-via inductance of the footprint.
    pub inductance: Henry,
    /// Length from the trace to the part.
    pub stub: Metre,
}

impl From<Arc<Part>> for StatedGuard {
    /// A part without a footprint.
    fn from(part: Arc<Part>) -> StatedGuard {
        StatedGuard { part, pad: Farad::ZERO, inductance: Henry::ZERO, stub: Metre::ZERO }
    }
}
