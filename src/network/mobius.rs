//! The form every transfer of a chain takes in the protector's capacitance.

use num_complex::Complex64;

/// A Möbius function (p + qC)/(r + sC) of a real capacitance C in farad.
///
/// The protector's admittance is one, and a chain of two-ports keeps it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mobius {
    /// Numerator at C = 0.
    pub p: Complex64,
    /// Numerator, per farad.
    pub q: Complex64,
    /// Denominator at C = 0.
    pub r: Complex64,
    /// Denominator, per farad.
    pub s: Complex64,
}

impl Mobius {
    /// The value at `c` farad; at infinity the limit q/s (p/r where C has no effect, as at zero frequency).
    #[inline]
    pub fn at(&self, c: f64) -> Complex64 {
        if c.is_finite() {
            (self.p + self.q * c) / (self.r + self.s * c)
        } else if self.q == Complex64::ZERO && self.s == Complex64::ZERO {
            self.p / self.r
        } else {
            self.q / self.s
        }
    }
}
