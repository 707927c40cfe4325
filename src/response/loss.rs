//! Losses at one frequency.

use crate::network::Scattering;

/// |S11| below this is a perfect match: no return loss, reflection 0.
pub const PERFECT_MATCH: f64 = 1e-9;

/// Losses of a lane at one frequency and one capacitance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LossMetrics {
    /// −20 log10 |S21| in dB; `None` where nothing passes.
    pub insertion_loss: Option<f64>,
    /// −20 log10 |S11| at the reference plane in dB; `None` for a perfect match.
    pub return_loss: Option<f64>,
    /// |S11|; 0 for a perfect match.
    pub reflection: f64,
    /// −20 log10 |S22| in dB; `None` for a perfect match.
    pub return_loss_inner: Option<f64>,
    /// |H|.
    pub nyquist_amplitude: f64,
}

impl LossMetrics {
    /// The losses of a scattering.
    pub fn of(scattering: &Scattering) -> Self {
        let reflection = scattering.s11.norm();
        LossMetrics {
            insertion_loss: decibels(scattering.s21.norm()),
            return_loss: return_loss(reflection),
            reflection: if reflection < PERFECT_MATCH { 0.0 } else { reflection },
            return_loss_inner: return_loss(scattering.s22.norm()),
            nyquist_amplitude: scattering.transfer.norm(),
        }
    }
}

/// What a capacitance changes against absent, at one frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LossChanges {
    /// IL − IL(absent) in dB, negative where the capacitance improves the match.
    pub added_loss: Option<f64>,
    /// 1 − |H|/|H(absent)|: the loss of the fundamental, no eye measurement.
    pub eye_penalty: f64,
    /// −20 log10 |H|/|H(absent)| in dB: the voltage at the receiver, whatever ends the lane; `None` where nothing passes.
    pub lost_voltage: Option<f64>,
}

impl LossChanges {
    /// The changes from `absent` to `fitted`. Not finite where nothing passes the path even without the protector.
    pub fn between(absent: &Scattering, fitted: &Scattering) -> Self {
        let voltage = fitted.transfer.norm() / absent.transfer.norm();
        LossChanges {
            added_loss: decibels(fitted.s21.norm() / absent.s21.norm()),
            eye_penalty: 1.0 - voltage,
            lost_voltage: decibels(voltage),
        }
    }
}

/// −20 log10 of a ratio; `None` for 0.
pub fn decibels(ratio: f64) -> Option<f64> {
    // Adding 0 turns the −0 of a ratio of 1 into 0.
    (ratio > 0.0).then(|| -20.0 * ratio.log10() + 0.0)
}

/// −20 log10 of a reflection; `None` for a perfect match.
pub fn return_loss(reflection: f64) -> Option<f64> {
    if reflection < PERFECT_MATCH { None } else { decibels(reflection) }
}

/// Standing-wave ratio (1 + |Γ|)/(1 − |Γ|); `None` for a total reflection.
pub fn vswr(reflection: f64) -> Option<f64> {
    (reflection < 1.0).then(|| (1.0 + reflection) / (1.0 - reflection))
}

/// Mismatch loss −10 log10(1 − |Γ|²) in dB; `None` for a total reflection.
pub fn mismatch_loss(reflection: f64) -> Option<f64> {
    // The logarithm of a sum with 1 keeps its digits for a small reflection.
    (reflection < 1.0).then(|| -10.0 * (-reflection * reflection).ln_1p() / std::f64::consts::LN_10 + 0.0)
}
