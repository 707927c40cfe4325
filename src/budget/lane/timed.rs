//! Limits of a lane without a closed form: eye, rise, impedance dip; and mode conversion, a quartic.

use super::circuit::LaneCircuit;
use super::figures::worst_eye_penalty;
use super::scale::usual_capacitance;
use crate::budget::judged::{Headroom, LimitOutcome};
use crate::budget::{Fault, IntervalSet, conversion_allowed};
use crate::model::{Bounds, Lane, LaneLimit};
use crate::network::Mobius;
use crate::response::{CLOSED, Case, Pair, probes, scan, volts_per_eye};
use crate::units::Farad;

/// Judges a limit of the time domain or of mode conversion.
pub(super) fn judge(
    limit: &LaneLimit,
    circuit: &mut LaneCircuit<'_>,
    fitted: Option<Farad>,
) -> Result<LimitOutcome, Fault> {
    let allowed = allowed(limit, circuit)?;
    // No part converts nothing; a closed eye has no penalty to tell.
    let untold = converted(limit, circuit).is_some();
    let (figure, level, lane) = (limit.figure(), level(limit), circuit.lane);
    let holds = |absent: Option<f64>| absent.map_or(untold, |value| holds(limit, lane, value));
    LimitOutcome::by_value((figure, level), allowed, fitted, |case| value(limit, circuit, case), holds)
}

/// The distance of a capacitance to a limit of the time domain.
pub(super) fn headroom(limit: &LaneLimit, circuit: &mut LaneCircuit<'_>, c: Farad) -> Result<Headroom, Fault> {
    let value = value(limit, circuit, Case::With(c.0))?;
    let holds = value.is_some_and(|value| holds(limit, circuit.lane, value));
    Ok(Headroom::new(limit.figure(), level(limit), value, holds, None))
}

/// Whether a value keeps a limit, and leaves an eye open where that is asked.
fn holds(limit: &LaneLimit, lane: &Lane, value: f64) -> bool {
    let open = least_open(limit, lane).is_none_or(|least| value >= least);
    open && limit.figure().sense().margin(value, level(limit)) >= 0.0
}

fn level(limit: &LaneLimit) -> f64 {
    limit.bound().unwrap_or(0.0)
}

/// The capacitances that keep the limit.
pub(super) fn allowed(limit: &LaneLimit, circuit: &mut LaneCircuit<'_>) -> Result<IntervalSet, Fault> {
    if let Some(converted) = converted(limit, circuit) {
        let Some(mismatch) = circuit.mismatch() else {
            return Ok(IntervalSet::all());
        };
        return Ok(conversion_allowed(converted, mismatch, 10f64.powf(level(limit) / 20.0)).into());
    }
    let probes = probes(usual_capacitance(circuit.lane, &circuit.chain).0);
    let set = match limit {
        LaneLimit::AddedRise(most) => {
            let Some(absent) = circuit.time().rise(Case::Absent)? else {
                return Ok(IntervalSet::none());
            };
            let mut margin = |c: f64| circuit.time().rise_margin(Case::With(c), absent + most.0);
            scan(|c| margin(c).map(|m| m.unwrap_or(f64::NEG_INFINITY)), &probes)?
        }
        LaneLimit::ImpedanceDip(least, read) => {
            scan(|c| circuit.time().dip(Case::With(c), read).map(|dip| dip - least.0), &probes)?
        }
        LaneLimit::ImpedanceExcursion { most, below, rise } => {
            scan(|c| circuit.time().excursion_margin(Case::With(c), *below, *rise, *most), &probes)?
        }
        eye => match least_height(eye, circuit)? {
            Some(height) => {
                // Where the eye itself does not settle, the many of a search are not asked first.
                circuit.time().domain().eye(Case::With(0.0))?;
                scan(|c| circuit.time().eye_margin(Case::With(c), height), &probes)?
            }
            None => Vec::new(),
        },
    };
    Ok(set.into())
}

/// The eye height a limit asks for, that of an open eye at least; `None` where no eye can keep it.
fn least_height(limit: &LaneLimit, circuit: &mut LaneCircuit<'_>) -> Result<Option<f64>, Fault> {
    let height = match limit {
        LaneLimit::WorstEyePenalty(most) => {
            let (eye, _) = circuit.time().domain().eye(Case::Absent)?;
            (eye.height >= CLOSED).then_some((1.0 - most) * eye.height)
        }
        LaneLimit::EyeOpening(least) => volts_per_eye(circuit.lane).map(|volts| least.0 / volts),
        other => Some(level(other)),
    };
    Ok(height.map(|height| height.max(CLOSED)))
}

/// The figure of a limit on the eye below which the eye counts as closed.
fn least_open(limit: &LaneLimit, lane: &Lane) -> Option<f64> {
    match limit {
        LaneLimit::EyeHeight(_) => Some(CLOSED),
        LaneLimit::EyeOpening(_) => Some(CLOSED * volts_per_eye(lane)?),
        _ => None,
    }
}

/// What a limit on mode conversion asks of both lines of a pair; `None` of any other limit.
fn converted<'a>(limit: &LaneLimit, circuit: &'a LaneCircuit<'_>) -> Option<&'a Mobius> {
    match limit {
        LaneLimit::ModeConversion(_) => Some(&circuit.nyquist.s21),
        LaneLimit::ModeConversionReflected(_) => Some(&circuit.nyquist.s11),
        _ => None,
    }
}

/// The limit's own figure.
fn value(limit: &LaneLimit, circuit: &mut LaneCircuit<'_>, case: Case) -> Result<Option<f64>, Fault> {
    if let Some(converted) = converted(limit, circuit) {
        let Case::With(c) = case else { return Ok(None) };
        let pair = circuit.mismatch().map(|m| Pair::new(converted, c, m.at(c)));
        return Ok(pair.and_then(|pair| pair.conversion_db()));
    }
    match limit {
        LaneLimit::ImpedanceDip(_, read) => return Ok(Some(circuit.time().dip(case, read)?)),
        LaneLimit::ImpedanceExcursion { below, rise, .. } => {
            let stays = circuit.time().excursion(case, *below, *rise)?;
            return Ok(Some(stays).filter(|stays| stays.is_finite()));
        }
        _ => {}
    }
    if let LaneLimit::AddedRise(_) = limit {
        let (absent, with) = (circuit.time().rise(Case::Absent)?, circuit.time().rise(case)?);
        return Ok(with.zip(absent).map(|(with, absent)| with - absent));
    }
    let mut height = |case| circuit.time().domain().eye(case).map(|(eye, _)| eye.height);
    let with = height(case)?;
    Ok(match limit {
        LaneLimit::WorstEyePenalty(_) => worst_eye_penalty(Some(height(Case::Absent)?), Some(with)),
        LaneLimit::EyeOpening(_) => volts_per_eye(circuit.lane).map(|volts| with * volts),
        _ => Some(with),
    })
}
