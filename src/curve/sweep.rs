//! The limits and the penalty over the capacitance.

use super::bounded::bounded;
use super::data::{Margin, Sweep};
use crate::budget::{Fault, Inequality, LaneOutcome, Modulus, usual_capacitance, worst_eye_penalty};
use crate::figures::{EYE_HEIGHT, EYE_OPENING, Figure};
use crate::model::{Bounds, Lane, LaneLimit, Mask, Over};
use crate::network::{Chain, Mobius};
use crate::response::{Case, LaneTime, LossChanges, Pair, volts_per_eye};
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
    let mut times = Times::of(lane, chain, &coarse);
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
        worst_eye_penalty: times.penalties(),
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

/// The time domain at each of some capacitances. A figure that does not settle is left out; the lane's warnings say so.
struct Times<'a> {
    time: LaneTime,
    capacitances: &'a [f64],
    /// Eye height without the protector, and with each capacitance where it is drawn.
    absent: Option<f64>,
    heights: Vec<(f64, f64)>,
}

impl<'a> Times<'a> {
    fn of(lane: &Lane, chain: &Chain, capacitances: &'a [f64]) -> Times<'a> {
        let mut time = LaneTime::new(lane, chain);
        let mut height = |case| time.domain().eye(case).ok().map(|(eye, _)| eye.height);
        let absent = height(Case::Absent);
        let limited = [&EYE_HEIGHT, &EYE_OPENING].into_iter().any(|of| lane.limits.iter().any(|l| l.of.figure() == of));
        let drawn = if limited || absent.is_some() { capacitances } else { &[] };
        let heights = drawn.iter().filter_map(|c| Some((*c, height(Case::With(*c))?))).collect();
        Times { time, capacitances, absent, heights }
    }

    fn penalties(&self) -> Vec<(f64, f64)> {
        let penalty = |(c, height): &(f64, f64)| Some((*c, worst_eye_penalty(self.absent, Some(*height))?));
        finite(self.heights.iter().filter_map(penalty))
    }

    fn margins(&mut self, lane: &Lane, limit: &LaneLimit) -> Vec<(f64, f64)> {
        let volts = volts_per_eye(lane);
        let values = match limit {
            LaneLimit::WorstEyePenalty(_) => self.penalties(),
            LaneLimit::EyeHeight(_) => self.heights.clone(),
            LaneLimit::EyeOpening(_) => {
                self.heights.iter().filter_map(|(c, height)| Some((*c, height * volts?))).collect()
            }
            LaneLimit::AddedRise(_) => match self.time.rise(Case::Absent).ok().flatten() {
                Some(absent) => self.each(|time, case| Some(time.rise(case).ok()?? - absent)),
                None => Vec::new(),
            },
            LaneLimit::ImpedanceDip(_, read) => self.each(|time, case| time.dip(case, read).ok()),
            LaneLimit::ImpedanceExcursion { below, rise, .. } => {
                self.each(|time, case| time.excursion(case, *below, *rise).ok())
            }
            _ => Vec::new(),
        };
        let margin = |(c, value): (f64, f64)| Some((c, relative(limit.figure(), value, limit.bound()?)));
        finite(values.into_iter().filter_map(margin))
    }

    fn each(&mut self, of: impl Fn(&mut LaneTime, Case) -> Option<f64>) -> Vec<(f64, f64)> {
        let time = &mut self.time;
        self.capacitances.iter().filter_map(|c| Some((*c, of(time, Case::With(*c))?))).collect()
    }
}
