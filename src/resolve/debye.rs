//! Wideband Debye permittivity of a laminate.

use std::f64::consts::LN_10;
use std::fmt;

use num_complex::Complex64;

use crate::units::Hertz;

/// The model's poles lie between 10^3 Hz …
const LOW: f64 = 1e3;
/// … and 10^12 Hz.
const HIGH: f64 = 1e12;
/// m2 − m1.
const DECADES: f64 = 9.0;

/// Causal permittivity ε(f) = ε_inf + Δε/(m2 − m1) · log10((10^m2 + jf)/(10^m1 + jf)), m1 = 3, m2 = 12.
///
/// # References
/// A. R. Djordjević, R. M. Biljić, V. D. Likar-Smiljanić, T. K. Sarkar, *IEEE Trans. EMC* 43(4), 662–667 (2001).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Debye {
    infinite: f64,
    step: f64,
}

/// No such dielectric: the loss tangent is too large for the permittivity to be carried from one frequency to
/// the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DebyeError;

impl fmt::Display for DebyeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the loss tangent is too large for a wideband Debye permittivity")
    }
}

impl std::error::Error for DebyeError {}

impl Debye {
    /// The dielectric whose relative permittivity is `permittivity` at one frequency and whose loss tangent is
    /// `loss_tangent` at another (or the same): the solution of two linear equations in ε_inf and Δε.
    ///
    /// # Errors
    /// [`DebyeError`] where that solution has no Δε ≥ 0 with ε_inf ≥ 1. `permittivity` ≥ 1 and
    /// `loss_tangent` ≥ 0 are the caller's.
    pub fn from_points(
        (permittivity, at): (f64, Hertz),
        (loss_tangent, loss_at): (f64, Hertz),
    ) -> Result<Self, DebyeError> {
        let (one, two) = (wideband(at), wideband(loss_at));
        // −Δ Im L2 = tan δ (ε1 + Δ (Re L2 − Re L1))
        let divisor = -two.im - loss_tangent * (two.re - one.re);
        let step = loss_tangent * permittivity / divisor;
        let infinite = permittivity - step * one.re;
        if loss_tangent > 0.0 && (divisor <= 0.0 || infinite < 1.0) {
            return Err(DebyeError);
        }
        Ok(if loss_tangent > 0.0 { Self { infinite, step } } else { Self { infinite: permittivity, step: 0.0 } })
    }

    /// Complex relative permittivity; its imaginary part is not positive.
    pub fn permittivity(&self, frequency: Hertz) -> Complex64 {
        self.infinite + self.step * wideband(frequency)
    }

    /// Loss tangent −Im ε/Re ε.
    pub fn loss_tangent(&self, frequency: Hertz) -> f64 {
        let e = self.permittivity(frequency);
        -e.im / e.re
    }
}

/// log10((10^m2 + jf)/(10^m1 + jf))/(m2 − m1), from 1 at rest to 0 far above both poles: what Δε is multiplied by.
pub fn wideband(frequency: Hertz) -> Complex64 {
    // The angle of the ratio lies within a quarter turn: no branch cut.
    let ratio = Complex64::new(HIGH, frequency.0) / Complex64::new(LOW, frequency.0);
    Complex64::new(0.5 * ratio.norm_sqr().ln(), ratio.im.atan2(ratio.re)) / (LN_10 * DECADES)
}
