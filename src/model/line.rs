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
/// A stated loss.
pub struct LossPoint {
    /// Np/m.
    pub attenuation: f64,
    /// Where.
    pub frequency: Hertz,
}
/// Faults.
pub enum LineFault {
    /// a
    BelowDielectric {
        /// s
        stated: f64,
        /// d
        dielectric: f64,
    },
    /// b
    SecondPoint {
        /// l
        low: f64,
        /// h
        high: f64,
    },
    /// c
    SameFrequency,
}
/// Resolve.
pub fn resolve_loss(points: &[LossPoint], _tan: Option<f64>, _eps: f64, nyquist: Hertz) -> Result<LineLoss, LineFault> {
    Ok(LineLoss {
        reference: points.first().map_or(nyquist, |p| p.frequency),
        conductor: 0.0,
        loss_tangent: 0.0,
    })
}
/// Share.
pub fn internal_share(_loss: &LineLoss, _eps: f64) -> f64 {
    0.0
}
