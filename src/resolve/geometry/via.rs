//! A via from its drill, pad and clearance.

use std::fmt;

use crate::units::{Metre, Ohm, SPEED_OF_LIGHT, Second};

/// A plated through-hole through planes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViaGeometry {
    barrel: f64,
    drill: f64,
    antipad: f64,
}

/// Diameters that no via can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ViaGeometryError {
    /// The clearance hole is not wider than the pad.
    AntipadNotAbovePad,
    /// The pad is not wider than the drill.
    PadNotAboveDrill,
}

impl fmt::Display for ViaGeometryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            ViaGeometryError::AntipadNotAbovePad => "expected an antipad wider than the pad",
            ViaGeometryError::PadNotAboveDrill => "expected a pad wider than the drill",
        })
    }
}

impl std::error::Error for ViaGeometryError {}

impl ViaGeometry {
    /// A via of `barrel` (the length the signal travels) and the diameters of drill, pad and antipad.
    ///
    /// # Errors
    /// The antipad must be wider than the pad, the pad wider than the drill. Lengths are positive.
    pub fn new(barrel: Metre, drill: Metre, pad: Metre, antipad: Metre) -> Result<Self, ViaGeometryError> {
        if antipad.0 <= pad.0 {
            return Err(ViaGeometryError::AntipadNotAbovePad);
        }
        if pad.0 <= drill.0 {
            return Err(ViaGeometryError::PadNotAboveDrill);
        }
        Ok(Self { barrel: barrel.0, drill: drill.0, antipad: antipad.0 })
    }

    /// Impedance of the barrel as a coaxial line: 60/√ε_r · ln(antipad/drill).
    ///
    /// # Validity
    /// An estimate: it takes closely spaced planes for a closed outer conductor and leaves out the pads.
    pub fn impedance(&self, permittivity: f64) -> Ohm {
        Ohm(60.0 / permittivity.sqrt() * (self.antipad / self.drill).ln())
    }

    /// Time the signal takes through the barrel: h √ε_r/c.
    pub fn delay(&self, permittivity: f64) -> Second {
        Second(self.barrel * permittivity.sqrt() / SPEED_OF_LIGHT)
    }
}
