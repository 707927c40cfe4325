//! A via from its drill, pad and clearance.

use std::fmt;

use super::range::{RangeNote, Ranges};
use crate::units::{Farad, Henry, Metre, Ohm};

const METRES_PER_INCH: f64 = 0.0254;

/// A plated through-hole through planes.
///
/// # References
/// H. Johnson, M. Graham, *High-Speed Digital Design* (1993), chapter 7 (equation numbers 7.1–7.3 from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViaGeometry {
    barrel: f64,
    drill: f64,
    pad: f64,
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
        Ok(Self { barrel: barrel.0, drill: drill.0, pad: pad.0, antipad: antipad.0 })
    }

    /// Capacitance to the planes: C = 1.41 ε_r T D1/(D2 − D1) pF, T the barrel, D1 the pad, D2 the antipad in inch.
    ///
    /// # Validity
    /// An estimate: the exact coaxial value can be a third higher (0.72 pF against 0.53 pF in the book's example).
    pub fn capacitance(&self, permittivity: f64) -> Farad {
        let barrel = self.barrel / METRES_PER_INCH;
        Farad(1.41e-12 * permittivity * barrel * self.pad / (self.antipad - self.pad))
    }

    /// Partial self-inductance: L = 5.08 h (ln(4h/d) + 1) nH, h the barrel, d the drill in inch.
    ///
    /// # Validity
    /// An estimate that ignores the return vias. It assumes a barrel longer than its diameter; where the
    /// formula would be negative the result is zero.
    pub fn inductance(&self) -> Henry {
        let h = self.barrel / METRES_PER_INCH;
        Henry((5.08e-9 * h * ((4.0 * self.barrel / self.drill).ln() + 1.0)).max(0.0))
    }

    /// Impedance of the barrel beyond the signal's layers, as a coaxial line: 60/√ε_r · ln(antipad/drill).
    ///
    /// # Validity
    /// An estimate: it takes the planes for a closed outer conductor.
    pub fn stub_impedance(&self, permittivity: f64) -> Ohm {
        Ohm(60.0 / permittivity.sqrt() * (self.antipad / self.drill).ln())
    }

    /// Ranges that the via exceeds.
    pub fn notes(&self) -> Vec<RangeNote> {
        let mut ranges = Ranges::new();
        ranges.check(
            "the via inductance (Johnson & Graham 1993, ch. 7)",
            ("barrel/drill", ""),
            self.barrel / self.drill,
            (1.0, f64::INFINITY),
        );
        ranges.notes
    }
}
