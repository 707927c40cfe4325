//! Loss of a uniform line: from stated decibels to the constants of the causal model.

use crate::units::Hertz;

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
