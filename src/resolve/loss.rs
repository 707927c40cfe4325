//! Loss of a uniform line: from stated attenuation to the constants of the causal model.

use std::f64::consts::PI;

use crate::model::LineLoss;
use crate::units::{Hertz, SPEED_OF_LIGHT};

/// A stated loss: the total attenuation at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LossPoint {
    /// Where it holds.
    pub frequency: Hertz,
    /// Total attenuation in Np/m.
    pub attenuation: f64,
}

/// Why stated losses cannot be met. Attenuations in Np/m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LineFault {
    /// The stated loss is smaller than what the loss tangent alone explains.
    BelowDielectric {
        /// The stated attenuation.
        stated: f64,
        /// The dielectric's attenuation at the same frequency.
        dielectric: f64,
    },
    /// Two losses at one frequency.
    SameFrequency(Hertz),
    /// α = a√f + bf would need a negative a or b.
    SecondOutOfRange {
        /// The second stated attenuation.
        stated: f64,
        /// The least it may be.
        low: f64,
        /// The most it may be.
        high: f64,
    },
    /// Two points leave no room for a loss tangent.
    TangentBesideTwoPoints,
    /// More points than the two that α = a√f + bf can meet.
    TooManyPoints(usize),
}

/// Relative difference that counts as round-off of the stated numbers.
const ROUND_OFF: f64 = 1e-12;

/// Dielectric attenuation α_d = π f √ε_r tan δ/c in Np/m (Pozar, *Microwave Engineering*, 2nd ed., eq. 3.30 with k_c = 0,
/// equation number from memory).
pub fn dielectric_attenuation(frequency: Hertz, permittivity: f64, loss_tangent: f64) -> f64 {
    PI * frequency.0 * permittivity.sqrt() * loss_tangent / SPEED_OF_LIGHT
}

/// The loss constants that meet the stated `points`.
///
/// - no point: f_ref is `nyquist`, the conductor is lossless, `loss_tangent` stands;
/// - one point: α_c = α − α_d at its frequency;
/// - two points: α = a√f + bf through both; α_c = a√f_ref at the first one, tan δ = b c/(π√ε_r).
///
/// # Errors
/// [`LineFault`] where a conductor loss or a loss tangent would be negative by more than round-off, the two points stand
/// at one frequency, or there are more data than unknowns.
pub fn resolve_loss(
    points: &[LossPoint],
    loss_tangent: Option<f64>,
    permittivity: f64,
    nyquist: Hertz,
) -> Result<LineLoss, LineFault> {
    match *points {
        [] => Ok(LineLoss { reference: nyquist, conductor: 0.0, loss_tangent: loss_tangent.unwrap_or(0.0) }),
        [point] => {
            let loss_tangent = loss_tangent.unwrap_or(0.0);
            let dielectric = dielectric_attenuation(point.frequency, permittivity, loss_tangent);
            let conductor = point.attenuation - dielectric;
            if conductor < -ROUND_OFF * dielectric {
                return Err(LineFault::BelowDielectric { stated: point.attenuation, dielectric });
            }
            Ok(LineLoss { reference: point.frequency, conductor: conductor.max(0.0), loss_tangent })
        }
        [_, _] if loss_tangent.is_some() => Err(LineFault::TangentBesideTwoPoints),
        [first, second] => two_points(first, second, permittivity),
        _ => Err(LineFault::TooManyPoints(points.len())),
    }
}

fn two_points(first: LossPoint, second: LossPoint, permittivity: f64) -> Result<LineLoss, LineFault> {
    let ratio = second.frequency.0 / first.frequency.0;
    if ratio == 1.0 {
        return Err(LineFault::SameFrequency(first.frequency));
    }
    let (by_root, by_frequency) = (first.attenuation * ratio.sqrt(), first.attenuation * ratio);
    let (low, high) = (by_root.min(by_frequency), by_root.max(by_frequency));
    let stated = second.attenuation;
    if stated < low * (1.0 - ROUND_OFF) || stated > high * (1.0 + ROUND_OFF) {
        return Err(LineFault::SecondOutOfRange { stated, low, high });
    }
    // With x = √(f2/f1): α1 = a' + b', α2 = a'x + b'x², where a' = a√f1 and b' = b f1.
    let span = by_frequency - by_root;
    let share = if span == 0.0 { 0.0 } else { ((stated - by_root) / span).clamp(0.0, 1.0) };
    let dielectric = share * first.attenuation;
    Ok(LineLoss {
        reference: first.frequency,
        conductor: first.attenuation - dielectric,
        loss_tangent: dielectric / dielectric_attenuation(first.frequency, permittivity, 1.0),
    })
}
