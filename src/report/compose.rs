//! From the port to the report.

use rayon::prelude::*;

use super::chart::{ChartData, Show, chart_data};
use super::explain::explain;
use super::{
    AtBudget, Budget, CAUTIONS, Changes, Fitted, Headroom, LaneReport, LimitReport, Metrics, Note, Report, SCHEMA,
};
use crate::budget::{self, Fault, Figures, FittedOutcome, IntervalSet, Judged, LaneOutcome, LimitOutcome, size_lane};
use crate::diag::{Diagnostic, Sources};
use crate::model::{self, Bound, Lane, Limit, LimitKind, Port};
use crate::response::{LossMetrics, TimeMetrics};
use crate::units::{Farad, Hertz};

/// Sizes the lanes of these indices and reports on them, in that order.
///
/// # Errors
/// The lanes whose numbers go beyond what can be computed.
pub fn size(port: &Port, indices: &[usize], figures: Figures, sources: &Sources) -> Result<Report, Vec<Diagnostic>> {
    let lanes: Vec<&Lane> = indices.iter().filter_map(|index| port.lanes.get(*index)).collect();
    let sized: Vec<Result<LaneReport, Box<Diagnostic>>> = lanes
        .par_iter()
        .map(|lane| match size_lane(lane, figures) {
            Ok(outcome) => Ok(lane_report(lane, &outcome, sources)),
            Err(fault) => Err(not_computable(lane, fault)),
        })
        .collect();
    let mut reports = Vec::with_capacity(sized.len());
    let mut errors = Vec::new();
    for result in sized {
        match result {
            Ok(report) => reports.push(report),
            Err(error) => errors.push(*error),
        }
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    Ok(Report {
        lanecap: env!("CARGO_PKG_VERSION"),
        schema: SCHEMA,
        title: port.title.clone(),
        lanes: reports,
        feeds: Vec::new(),
        buses: Vec::new(),
        rails: Vec::new(),
        cautions: CAUTIONS.to_vec(),
    })
}

/// The working of one lane as text.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn working(lane: &Lane, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    let outcome = size_lane(lane, Figures::All).map_err(|fault| not_computable(lane, fault))?;
    Ok(explain(
        lane,
        &outcome,
        &lane_report(lane, &outcome, sources),
        &CAUTIONS,
    ))
}

/// The numbers of one picture of a lane.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn charted(lane: &Lane, show: Show) -> Result<ChartData, Box<Diagnostic>> {
    let data = size_lane(lane, Figures::Nyquist).and_then(|outcome| chart_data(lane, &outcome, show));
    data.map_err(|fault| not_computable(lane, fault))
}

fn not_computable(lane: &Lane, fault: Fault) -> Box<Diagnostic> {
    let error = Diagnostic::error("not-computable", lane.span, format!("lane \"{}\": {fault}", lane.name))
        .help("check the path for a value that is out of proportion");
    Box::new(error)
}

fn lane_report(lane: &Lane, outcome: &LaneOutcome, sources: &Sources) -> LaneReport {
    LaneReport {
        name: lane.name.clone(),
        port: lane.port.clone(),
        count: lane.count,
        modulation: lane.modulation.word(),
        symbol_rate_bd: lane.symbol_rate.0,
        nyquist_hz: lane.nyquist().0,
        reference_ohm: lane.reference.0,
        differential: lane.differential,
        port_plane: outcome.port_plane.to_string(),
        outer_end: if lane.path.driver_is_outer() {
            "driver"
        } else {
            "receiver"
        },
        absent: metrics(&outcome.absent, &outcome.absent_time),
        fitted: outcome
            .fitted
            .as_ref()
            .map(|fitted| fitted_report(lane, fitted, outcome.droop)),
        at_budget: outcome
            .at_budget
            .as_ref()
            .map(|judged| at_budget(judged, outcome.droop)),
        budget: budget_report(lane, &outcome.budget, sources),
        defaults: notes(&lane.defaults, sources),
        warnings: notes(&lane.warnings, sources)
            .into_iter()
            .chain(findings(lane, outcome))
            .collect(),
    }
}

/// What only the computed figures tell.
fn findings(lane: &Lane, outcome: &LaneOutcome) -> Vec<Note> {
    let mut notes = Vec::new();
    let mut note = |code, text: String| notes.push(Note { code, text, line: None });
    if let Some(height) = outcome.absent_time.eye_height.filter(|height| *height <= 0.0) {
        let closed =
            format!("the worst-pattern eye is closed before the protector (height {height:.4} of the ideal eye)");
        let word = LimitKind::WorstEyePenalty.word();
        let limited = lane.limits.iter().any(|limit| limit.kind == LimitKind::WorstEyePenalty);
        let so = if limited {
            format!("no capacitance keeps {word}")
        } else {
            "no penalty is given".to_owned()
        };
        note("eye-closed", format!("{closed}: {so}"));
    }
    if let Some(fault) = outcome.not_settled {
        note("not-settled", format!("{fault}: left out"));
    }
    notes
}

fn metrics(loss: &LossMetrics, time: &TimeMetrics) -> Metrics {
    Metrics {
        insertion_loss_db: loss.insertion_loss,
        return_loss_db: loss.return_loss,
        reflection: loss.reflection,
        return_loss_inner_db: loss.return_loss_inner,
        nyquist_amplitude: loss.nyquist_amplitude,
        eye_height: time.eye_height,
        eye_width_ui: time.eye_width,
        rise_s: time.rise,
        impedance_dip_ohm: time.impedance_dip,
    }
}

fn changes(judged: &Judged, droop: Option<f64>) -> Changes {
    Changes {
        added_loss_db: judged.changes.added_loss,
        eye_penalty: judged.changes.eye_penalty,
        worst_eye_penalty: judged.time_changes.worst_eye_penalty,
        added_rise_s: judged.time_changes.added_rise.map(|rise| rise.0),
        mode_conversion_db: judged.unlike.and_then(|unlike| unlike.conversion),
        skew_s: judged.unlike.map(|unlike| unlike.skew.0),
        droop,
    }
}

fn fitted_report(lane: &Lane, fitted: &FittedOutcome, droop: Option<f64>) -> Fitted {
    Fitted {
        capacitance_f: fitted.judged.capacitance.0,
        metrics: metrics(&fitted.judged.metrics, &fitted.judged.time),
        changes: changes(&fitted.judged, droop),
        holds: fitted.holds,
        headroom: fitted.headroom.iter().map(headroom).collect(),
        part: lane
            .path
            .protector()
            .and_then(|p| p.part.as_ref())
            .map(|part| part.name.clone()),
        checks: Vec::new(),
    }
}

fn headroom(headroom: &budget::Headroom) -> Headroom {
    Headroom {
        limit: headroom.limit.word(),
        value: headroom.value,
        bound: Some(headroom.bound),
        margin: headroom.margin,
        holds: headroom.holds,
        at_hz: hertz(headroom.at),
    }
}

fn at_budget(judged: &Judged, droop: Option<f64>) -> AtBudget {
    AtBudget {
        capacitance_f: judged.capacitance.0,
        metrics: metrics(&judged.metrics, &judged.time),
        changes: changes(judged, droop),
    }
}

fn budget_report(lane: &Lane, budget: &budget::Budget, sources: &Sources) -> Budget {
    let limits = lane.limits.iter().zip(&budget.limits);
    Budget {
        verdict: budget.verdict.word(),
        capacitance_f: farad(budget.capacitance),
        lowest_f: farad(budget.lowest),
        lowest_set_by: budget.lowest_set_by.map(|kind| kind.word()),
        across_pair_f: farad(budget.across_pair),
        shop_for_f: farad(budget.shop_for),
        without_footprint_f: farad(budget.without_footprint),
        set_by: budget.set_by.map(|kind| kind.word()),
        set_at_hz: hertz(budget.set_at),
        intervals_f: intervals(&budget.allowed),
        limits: limits
            .map(|(limit, outcome)| limit_report(limit, outcome, sources))
            .collect(),
    }
}

fn limit_report(limit: &Limit, outcome: &LimitOutcome, sources: &Sources) -> LimitReport {
    let (bound, points) = match &limit.bound {
        Bound::AtNyquist(level) => (Some(*level), None),
        Bound::Mask(points) => (None, Some(points.iter().map(|p| (p.level, p.frequency.0)).collect())),
    };
    LimitReport {
        limit: limit.kind.word(),
        bound,
        points,
        intervals_f: intervals(&outcome.allowed),
        capacitance_f: farad(outcome.capacitance),
        at_hz: hertz(outcome.at),
        holds_absent: outcome.holds_absent(),
        holds_at_zero: outcome.holds_at_zero(),
        line: limit.span.map(|span| sources.line(span)),
    }
}

pub(super) fn intervals(set: &IntervalSet) -> Vec<(f64, Option<f64>)> {
    set.intervals()
        .iter()
        .map(|i| (i.low, Some(i.high).filter(|high| high.is_finite())))
        .collect()
}

fn farad(capacitance: Option<Farad>) -> Option<f64> {
    capacitance.map(|c| c.0)
}

fn hertz(frequency: Option<Hertz>) -> Option<f64> {
    frequency.map(|f| f.0)
}

fn notes(notes: &[model::Note], sources: &Sources) -> Vec<Note> {
    let note = |note: &model::Note| Note {
        code: note.code,
        text: note.text.clone(),
        line: note.span.map(|span| sources.line(span)),
    };
    notes.iter().map(note).collect()
}
