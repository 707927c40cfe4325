//! The place of the protector, as the circuit has it and as the sheet states it.

use std::sync::Arc;

use super::{Mismatch, Part};
use crate::units::{Farad, Henry, Metre, Ohm, Volt};

/// A narrowed piece of the traces on both sides of the protector, which makes up for its capacitance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neck {
    /// Characteristic impedance, across the pair where differential as that of a trace.
    pub impedance: Ohm,
    /// Length on either side, part of the trace there; of 0 it changes nothing.
    pub length: Metre,
}

/// The place of the protector as the circuit has it.
#[derive(Debug, Clone)]
pub struct Protector {
    /// The capacitance to judge, per line to ground: stated, or the part's worst case; `None` where nothing is fitted.
    pub fitted: Option<Farad>,
    /// The part named, where one is.
    pub part: Option<Arc<Part>>,
    /// The bias that its capacitance was moved to.
    pub bias: Option<Volt>,
    /// Footprint pad capacitance, per line.
    pub pad: Farad,
    /// Series inductance of the part itself in the half circuit.
    pub part_inductance: Henry,
    /// Series resistance of the part itself in the half circuit.
    pub part_resistance: Ohm,
    /// Ground-via inductance of the footprint, in series with the part unless it hangs across the pair.
    pub inductance: Henry,
    /// Whether the part hangs across the pair: the ground via is not in its way then.
    pub across: bool,
    /// Further series resistance stated in the sheet.
    pub resistance: Ohm,
    /// Length from the trace to the part.
    pub stub: Metre,
    /// Permittivity of that stub.
    pub stub_permittivity: f64,
    /// Narrowed pieces of the traces that touch it.
    pub neck: Option<Neck>,
    /// Largest difference between the lines of the pair, as they enter the half circuit; `None` where it is not stated.
    pub mismatch: Option<Mismatch>,
    /// Spread t of the capacitance: a typical part of C/(1 + t) stays below C.
    pub spread: Option<f64>,
}

impl Default for Protector {
    /// The bare place of a protector: nothing fitted, no footprint. The permittivity of its stub, which has no length,
    /// is 4.
    fn default() -> Protector {
        Protector {
            fitted: None,
            part: None,
            bias: None,
            pad: Farad::ZERO,
            part_inductance: Henry::ZERO,
            part_resistance: Ohm::ZERO,
            inductance: Henry::ZERO,
            across: false,
            resistance: Ohm::ZERO,
            stub: Metre::ZERO,
            stub_permittivity: 4.0,
            neck: None,
            mismatch: None,
            spread: None,
        }
    }
}

impl Protector {
    /// Inductance of the ground via as it enters the circuit.
    pub fn ground_inductance(&self) -> Henry {
        if self.across { Henry(0.0) } else { self.inductance }
    }

    /// Puts a part in its place, as it is on this line.
    pub fn fit_part(&mut self, part: &Arc<Part>, on_line: &PartOnLine) {
        self.fitted = Some(on_line.capacitance);
        self.bias = on_line.bias;
        self.part_inductance = on_line.inductance;
        self.part_resistance = on_line.resistance;
        self.across = on_line.across;
        self.mismatch = on_line.mismatch;
        self.part = Some(Arc::clone(part));
    }
}

/// A part as it enters the circuit of one line to ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartOnLine {
    /// Worst-case capacitance of a line to ground: the larger of the value to ground and twice the one across the pair.
    pub capacitance: Farad,
    /// The bias it was moved to; `None` where the value stands as stated.
    pub bias: Option<Volt>,
    /// Series inductance: half of the part's across a pair.
    pub inductance: Henry,
    /// Series resistance: half of the part's across a pair.
    pub resistance: Ohm,
    /// Whether the value across the pair counts.
    pub across: bool,
    /// Largest difference between the lines of a pair, moved to the line's bias; where it takes two packages the larger of
    /// what is stated and what these differ by.
    pub mismatch: Option<Mismatch>,
}

/// The place of the protector as the sheet states it; the default is the bare place.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StatedProtector {
    /// The capacitance to judge, per line to ground; beside a part it stands in place of the part's.
    pub capacitance: Option<Farad>,
    /// The part named, where one is.
    pub part: Option<Arc<Part>>,
    /// Footprint pad capacitance, per line.
    pub pad: Farad,
    /// Ground-via inductance of the footprint.
    pub inductance: Henry,
    /// Further series resistance.
    pub resistance: Ohm,
    /// Length from the trace to the part.
    pub stub: Metre,
    /// Narrowed pieces of the traces that touch it.
    pub neck: Option<Neck>,
    /// Spread t of the capacitance.
    pub spread: Option<f64>,
}
