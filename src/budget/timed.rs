//! Limits without a closed form: eye, rise, impedance dip; and mode conversion, a quartic.

use std::f64::consts::PI;

use super::limits::{Circuit, Headroom, LimitOutcome, first_end};
use super::{Fault, IntervalSet, conversion_allowed};
use crate::model::{LimitKind, Mismatch};
use crate::response::{Case, Pair, probes, scan, volts_per_eye};
use crate::units::Farad;

/// Judges a limit of the time domain or of mode conversion.
pub(super) fn judge(
    kind: LimitKind,
    level: f64,
    circuit: &mut Circuit<'_>,
    fitted: Option<Farad>,
) -> Result<LimitOutcome, Fault> {
    let allowed = allowed(kind, level, circuit)?;
    let mut headroom = |c: f64| -> Result<Headroom, Fault> {
        let value = value(kind, circuit, Case::With(c))?;
        Ok(Headroom::of(kind, level, value, allowed.contains(c), None))
    };
    let at_zero = headroom(0.0)?;
    let fitted = fitted.map(|c| headroom(c.0)).transpose()?;
    let absent = value(kind, circuit, Case::Absent)?;
    let distance = absent.map(|v| if kind.is_floor() { v - level } else { level - v });
    // No part converts nothing; a closed eye has no penalty to tell.
    let holds = distance.map_or(kind == LimitKind::ModeConversion, |d| d >= 0.0);
    Ok(LimitOutcome {
        kind,
        capacitance: first_end(&allowed),
        at: None,
        ends_at: Vec::new(),
        absent: Headroom::of(kind, level, absent, holds, None),
        at_zero,
        fitted,
        allowed,
    })
}

/// The capacitances that keep the limit.
pub(super) fn allowed(kind: LimitKind, level: f64, circuit: &mut Circuit<'_>) -> Result<IntervalSet, Fault> {
    if kind == LimitKind::ModeConversion {
        let Some(mismatch) = mismatch(circuit) else {
            return Ok(IntervalSet::all());
        };
        return Ok(conversion_allowed(&circuit.nyquist.s21, mismatch, 10f64.powf(level / 20.0)).into());
    }
    // The capacitance whose reactance at Nyquist is half the reference: budgets lie around it.
    let scale = 1.0 / (PI * circuit.lane.nyquist().0 * circuit.chain.reference().0);
    let probes = probes(scale);
    let set = match kind {
        LimitKind::AddedRise => {
            let Some(absent) = circuit.time().metrics(Case::Absent).0.rise else {
                return Ok(IntervalSet::none());
            };
            let margin = |c: f64| circuit.time().rise_margin(Case::With(c), absent + level);
            let mut margin = margin;
            scan(|c| margin(c).map(|m| m.unwrap_or(f64::NEG_INFINITY)), &probes)?
        }
        LimitKind::ImpedanceDip => scan(|c| circuit.time().dip(Case::With(c)).map(|dip| dip - level), &probes)?,
        _ => match least_height(kind, level, circuit)? {
            Some(height) => scan(|c| circuit.time().eye_margin(Case::With(c), height), &probes)?,
            None => Vec::new(),
        },
    };
    Ok(set.into())
}

/// The eye height a limit asks for; `None` where no eye can keep it.
fn least_height(kind: LimitKind, level: f64, circuit: &mut Circuit<'_>) -> Result<Option<f64>, Fault> {
    Ok(match kind {
        LimitKind::WorstEyePenalty => {
            let (eye, _) = circuit.time().domain().eye(Case::Absent)?;
            (eye.height > 0.0).then_some((1.0 - level) * eye.height)
        }
        LimitKind::EyeOpening => volts_per_eye(circuit.lane).map(|volts| level / volts),
        _ => Some(level),
    })
}

/// The limit's own figure.
fn value(kind: LimitKind, circuit: &mut Circuit<'_>, case: Case) -> Result<Option<f64>, Fault> {
    match kind {
        LimitKind::ModeConversion => {
            let Case::With(c) = case else { return Ok(None) };
            let pair = mismatch(circuit).map(|m| Pair::new(&circuit.nyquist.s21, c, m.at(c)));
            return Ok(pair.and_then(|pair| pair.conversion_db()));
        }
        LimitKind::ImpedanceDip => return Ok(Some(circuit.time().dip(case)?)),
        _ => {}
    }
    let (metrics, fault) = circuit.time().metrics(case);
    if let Some(fault) = fault {
        return Err(fault.into());
    }
    let (absent, _) = circuit.time().metrics(Case::Absent);
    Ok(match kind {
        LimitKind::WorstEyePenalty => worst_eye_penalty(absent.eye_height, metrics.eye_height),
        LimitKind::EyeHeight => metrics.eye_height,
        LimitKind::EyeOpening => metrics.eye_height.zip(volts_per_eye(circuit.lane)).map(|(eye, volts)| eye * volts),
        _ => metrics.rise.zip(absent.rise).map(|(rise, absent)| rise - absent),
    })
}

/// 1 − EH/EH(absent); `None` where the eye is closed before the protector.
pub(super) fn worst_eye_penalty(absent: Option<f64>, with: Option<f64>) -> Option<f64> {
    let absent = absent.filter(|height| *height > 0.0)?;
    Some(1.0 - with? / absent)
}

/// How unlike the part's lines are; `None` without such a part.
pub(super) fn mismatch(circuit: &Circuit<'_>) -> Option<Mismatch> {
    circuit.lane.path.protector()?.mismatch
}
