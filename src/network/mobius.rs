//! Fractional linear functions of the capacitance.

use num_complex::Complex64;

/// S(C) = (p + qC)/(r + sC), C in farad.
///
/// Every S-parameter and the voltage transfer of a chain take this form at one frequency, because the protector's
/// admittance does and a chain of two-ports keeps it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mobius {
    /// Constant of the numerator.
    pub p: Complex64,
    /// Slope of the numerator, per farad.
    pub q: Complex64,
    /// Constant of the denominator.
    pub r: Complex64,
    /// Slope of the denominator, per farad.
    pub s: Complex64,
}

impl Mobius {
    /// The function that does not depend on C.
    pub fn constant(value: Complex64) -> Self {
        let zero = Complex64::new(0.0, 0.0);
        Mobius { p: value, q: zero, r: Complex64::new(1.0, 0.0), s: zero }
    }

    /// The value at `c` farad; at infinity the limit.
    pub fn at(&self, c: f64) -> Complex64 {
        if c.is_finite() {
            (self.p + self.q * c) / (self.r + self.s * c)
        } else if self.is_constant() {
            self.p / self.r
        } else {
            self.q / self.s
        }
    }

    /// Whether C enters nowhere.
    pub fn is_constant(&self) -> bool {
        self.q.norm_sqr() == 0.0 && self.s.norm_sqr() == 0.0
    }

    /// Whether every coefficient is a finite number.
    pub fn is_finite(&self) -> bool {
        self.p.is_finite() && self.q.is_finite() && self.r.is_finite() && self.s.is_finite()
    }
}
