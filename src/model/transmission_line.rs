//! A uniform line as the circuit has it.

use std::f64::consts::PI;

use crate::units::{Hertz, Metre, Ohm, SPEED_OF_LIGHT};

/// Whether a line is on the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// Off the board.
    Cable,
    /// On the board: its permittivity serves a protector's stub.
    Trace,
}

impl Medium {
    /// The word of the sheet.
    pub fn word(self) -> &'static str {
        match self {
            Medium::Cable => "cable",
            Medium::Trace => "trace",
        }
    }
}

/// A uniform line, causal, with loss.
#[derive(Debug, Clone, PartialEq)]
pub struct TransmissionLine {
    /// Cable or trace.
    pub medium: Medium,
    /// Characteristic impedance Z0 at the loss reference frequency, across the pair where differential.
    pub impedance: Ohm,
    /// Length; one stated as a delay is c·delay/√ε_r.
    pub length: Metre,
    /// Effective relative permittivity at the loss reference frequency.
    pub permittivity: f64,
    /// Loss.
    pub loss: LineLoss,
}

/// Loss constants of a line at its reference frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineLoss {
    /// f_ref: impedance, permittivity and loss hold here.
    pub reference: Hertz,
    /// Conductor attenuation α_c at f_ref in Np/m.
    pub conductor: f64,
    /// Loss tangent at f_ref.
    pub loss_tangent: f64,
}

impl LineLoss {
    /// Internal reactance over total reactance of the conductor at f_ref, for the line's relative `permittivity`:
    /// R_s/(Z0 √ε_r 2π f_ref/c) with R_s = 2 Z0 α_c, which is α_c c/(π f_ref √ε_r) for every Z0.
    ///
    /// # Validity
    /// The causal line takes the internal inductance out of the stated one, so the ratio must stay below 1;
    /// above 0.2 the first-order R_s = 2 Z0 α_c misses the stated loss by more than 0.5 %.
    pub fn inductance_ratio(&self, permittivity: f64) -> f64 {
        self.conductor * SPEED_OF_LIGHT / (PI * self.reference.0 * permittivity.sqrt())
    }
}
