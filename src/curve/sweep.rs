//! The limits and the penalty over the capacitance.

use super::bounded::bounded;
use super::data::{Margin, Sweep};
use crate::budget::{Fault, Inequality, LaneOutcome, Modulus, TimeChanges, usual_capacitance};
use crate::figures::Figure;
use crate::model::{Bounds, Lane, LaneLimit, Mask, Over};
use crate::network::{Chain, Mobius};
use crate::response::{Case, LaneTime, LossChanges, Pair, TimeMetrics, volts_per_eye};
use crate::units::Hertz;

/// Capacitances of a curve with a closed form, and of one of the time domain.
const FINE: usize = 160;
const COARSE: usize = 32;
/// Frequencies between two corners of a mask.
const PER_SEGMENT: usize = 200;

/// The margins and penalties of a lane up to somewhat beyond its budget and its fitted capacitance.
pub(crate) fn sweep(lane: &Lane, chain: &Chain, outcome: &LaneOutcome) -> Result<Sweep, Fault> {
    let point = chain.at(lane.nyquist());
    let last_f = last(lane, chain, outcome);
    let fine = capacitances(last_f, FINE, outcome);
    // Where a part far beyond the budget is fitted, what matters is small.
    let near = outcome.sized.budget.capacitance.map_or(last_f, |c| 1.6 * c.0).min(last_f);
    let mut coarse = capacitances(last_f, COARSE, outcome);
    if near < last_f / 2.0 {
        coarse.extend((1..COARSE).map(|i| near * i as f64 / COARSE as f64));
        coarse.sort_by(f64::total_cmp);
    }
    let times = Times::of(lane, chain, &coarse);
    let penalty = |c: &f64| (*c, LossChanges::between(&point.absent, &point.at(*c)).eye_penalty);
    let mut margins = Vec::with_capacity(lane.limits.len());
    for limit in &lane.limits {
        let at_one = |modulus, level| closed_form(&[Inequality::new(modulus, level, &point)], &fine);
        let points = match &limit.of {
            LaneLimit::Loss(loss, Over::Level(level)) => at_one((*loss).into(), *level),
            LaneLimit::EyePenalty(level) => at_one(Modulus::Fundamental, *level),
            LaneLimit::Loss(loss, Over::Mask(corners)) => closed_form(&mask(chain, (*loss).into(), corners)?, &fine),
            LaneLimit::ModeConversion(_) => conversion(lane, &point.s21, &limit.of, &fine),
            LaneLimit::ModeConversionReflected(_) => conversion(lane, &point.s11, &limit.of, &fine),
            timed => times.margins(lane, timed),
        };
        margins.push(Margin { limit: bounded(&limit.of), points });
    }
    Ok(Sweep {
        margins,
        eye_penalty: finite(fine.iter().map(penalty)),
        worst_eye_penalty: times.figure(|absent, with| TimeChanges::between(absent, with).worst_eye_penalty),
        allowed: outcome.sized.budget.allowed.ends(),
        last_f,
    })
}

fn last(lane: &Lane, chain: &Chain, outcome: &LaneOutcome) -> f64 {
    let most = known(outcome).fold(0.0, f64::max);
    if most > 0.0 { 1.6 * most } else { usual_capacitance(lane, chain).0 }
}

/// The budget, the window's lower end and the fitted value.
fn known(outcome: &LaneOutcome) -> impl Iterator<Item = f64> {
    let budget = &outcome.sized.budget;
    let fitted = outcome.sized.fitted.as_ref().map(|fitted| fitted.at.capacitance);
    [budget.capacitance, budget.lowest, fitted].into_iter().flatten().map(|c| c.0)
}

/// Even steps from 0 to `last`, with what is known among them.
fn capacitances(last: f64, count: usize, outcome: &LaneOutcome) -> Vec<f64> {
    let even = (0..=count).map(|i| last * i as f64 / count as f64);
    let mut all: Vec<f64> = even.chain(known(outcome)).collect();
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

fn finite(points: impl Iterator<Item = (f64, f64)>) -> Vec<(f64, f64)> {
    points.filter(|point| point.1.is_finite()).collect()
}

/// Distance to `bound` relative to it, positive where the limit holds.
fn relative(figure: &Figure, value: f64, bound: f64) -> f64 {
    figure.sense().margin(value, bound) / if bound == 0.0 { 1.0 } else { bound.abs() }
}

/// The least margin of the limit at any of its frequencies.
fn closed_form(inequalities: &[Inequality], capacitances: &[f64]) -> Vec<(f64, f64)> {
    let margin = |i: &Inequality, c: f64| match i.value(Case::With(c)) {
        Some(value) => relative(i.figure(), value, i.level()),
        // A perfect match, or nothing passes.
        None if i.modulus().is_reflection() => f64::INFINITY,
        None => f64::NEG_INFINITY,
    };
    let least = |c: &f64| {
        let margins = inequalities.iter().map(|i| margin(i, *c));
        (*c, margins.fold(f64::INFINITY, f64::min))
    };
    finite(capacitances.iter().map(least))
}

fn mask(chain: &Chain, modulus: Modulus, corners: &Mask) -> Result<Vec<Inequality>, Fault> {
    let at = |(f, level): (f64, f64)| {
        let point = chain.at(Hertz(f));
        if point.is_finite() { Ok(Inequality::new(modulus, level, &point)) } else { Err(Fault::NotFinite(Hertz(f))) }
    };
    corners.line(PER_SEGMENT).map(at).collect()
}

fn conversion(lane: &Lane, of: &Mobius, limit: &LaneLimit, capacitances: &[f64]) -> Vec<(f64, f64)> {
    let (Some(mismatch), Some(level)) = (lane.path.protector().and_then(|p| p.mismatch), limit.bound()) else {
        return Vec::new();
    };
    let margin = |c: &f64| {
        let conversion = Pair::new(of, *c, mismatch.at(*c)).conversion_db()?;
        Some((*c, relative(limit.figure(), conversion, level)))
    };
    finite(capacitances.iter().filter_map(margin))
}

/// The time domain at each of some capacitances.
struct Times {
    absent: TimeMetrics,
    with: Vec<(f64, TimeMetrics)>,
}

impl Times {
    fn of(lane: &Lane, chain: &Chain, capacitances: &[f64]) -> Times {
        let mut time = LaneTime::new(lane, chain);
        // A figure that does not settle is left out; the lane's warnings say so.
        let mut at = |case| time.metrics(case).0;
        Times { absent: at(Case::Absent), with: capacitances.iter().map(|c| (*c, at(Case::With(*c)))).collect() }
    }

    fn figure(&self, of: impl Fn(&TimeMetrics, &TimeMetrics) -> Option<f64>) -> Vec<(f64, f64)> {
        let value = |(c, with): &(f64, TimeMetrics)| Some((*c, of(&self.absent, with)?));
        finite(self.with.iter().filter_map(value))
    }

    fn margins(&self, lane: &Lane, limit: &LaneLimit) -> Vec<(f64, f64)> {
        let volts = volts_per_eye(lane);
        self.figure(|absent, with| {
            let value = match limit {
                LaneLimit::WorstEyePenalty(_) => TimeChanges::between(absent, with).worst_eye_penalty?,
                LaneLimit::EyeHeight(_) => with.eye_height?,
                LaneLimit::EyeOpening(_) => with.eye_height? * volts?,
                LaneLimit::AddedRise(_) => TimeChanges::between(absent, with).added_rise?.0,
                LaneLimit::ImpedanceDip(..) => with.limited_dip?,
                LaneLimit::ImpedanceExcursion { .. } => with.impedance_excursion?,
                _ => return None,
            };
            Some(relative(limit.figure(), value, limit.bound()?))
        })
    }
}
