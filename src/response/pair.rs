//! A pair whose two lines do not carry the same capacitance.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::network::Mobius;

/// Mixed-mode transfer of an uncoupled pair at one frequency.
///
/// S_dd21 = (S_p + S_n)/2, S_cd21 = (S_p − S_n)/2.
///
/// # References
/// D. E. Bockelman, W. R. Eisenstadt, *IEEE Trans. MTT* 43(7), 1995 (from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// S21 of the line with the larger capacitance.
    pub larger: Complex64,
    /// S21 of the line with the smaller capacitance.
    pub smaller: Complex64,
}

impl Pair {
    /// A pair with C ± ΔC/2 in farad; a smaller side below zero counts as zero.
    pub fn new(s21: &Mobius, c: f64, difference: f64) -> Pair {
        Pair { larger: s21.at(c + difference / 2.0), smaller: s21.at((c - difference / 2.0).max(0.0)) }
    }

    /// S_dd21: differential to differential.
    pub fn differential(&self) -> Complex64 {
        (self.larger + self.smaller) / 2.0
    }

    /// S_cd21: differential to common.
    pub fn conversion(&self) -> Complex64 {
        (self.larger - self.smaller) / 2.0
    }

    /// 20 log10 |S_cd21| in dB; `None` for a symmetric pair.
    pub fn conversion_db(&self) -> Option<f64> {
        let size = self.conversion().norm();
        (size > 0.0).then(|| 20.0 * size.log10())
    }

    /// Phase delay of the line with the larger capacitance minus that of the other, in second at `f_hz`.
    pub fn skew_s(&self, f_hz: f64) -> f64 {
        (self.smaller * self.larger.conj()).arg() / (2.0 * PI * f_hz)
    }
}

/// Skew of a small mismatch on a matched line in second: Z_ref ΔC/2.
pub fn skew_estimate(reference_ohm: f64, difference: f64) -> f64 {
    reference_ohm * difference / 2.0
}
