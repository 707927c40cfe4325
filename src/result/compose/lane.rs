//! A lane and its outcome as they are reported.

use super::shared::{budget_report, check_reports, headroom, notes, part_name};
use crate::budget;
use crate::budget::{At, LaneChanges, LaneFigures, LaneOutcome};
use crate::diag::Sources;
use crate::figures::WORST_EYE_PENALTY;
use crate::model::{Head, Lane, LaneLimit};
use crate::parts;
use crate::parts::{Checks, Duty, checks};
use crate::result::outcome::{AtBudget, Changes, Fitted, LaneReport, Metrics, Note};

pub(crate) fn lane_report(head: &Head, lane: &Lane, outcome: &LaneOutcome, sources: &Sources) -> LaneReport {
    let checked = lane_checks(head, lane);
    LaneReport {
        name: head.name.clone(),
        port: head.port.clone(),
        count: head.count,
        modulation: lane.modulation.word(),
        symbol_rate_bd: lane.symbol_rate.0,
        nyquist_hz: lane.nyquist().0,
        reference_ohm: lane.reference.0,
        differential: lane.differential,
        port_plane: outcome.reference_plane.to_string(),
        outer_end: if lane.path.driver_is_outer() { "driver" } else { "receiver" },
        absent: metrics(&outcome.sized.absent),
        fitted: outcome.sized.fitted.as_ref().map(|fitted| fitted_report(lane, fitted, &checked.checks)),
        at_budget: outcome.sized.at_budget.as_ref().map(at_budget),
        budget: budget_report(&lane.limits, &outcome.sized.budget, sources),
        defaults: notes(&head.defaults, sources),
        warnings: notes(&head.warnings, sources)
            .into_iter()
            .chain(findings(lane, outcome))
            .chain(notes(&checked.cautions, sources))
            .collect(),
    }
}

/// The survival checks of the part a lane names.
fn lane_checks(head: &Head, lane: &Lane) -> Checks {
    let named = lane.path.protector().and_then(|p| Some((p.part.as_ref()?, p.across)));
    named.map_or_else(Checks::default, |(part, across)| checks(&Duty::of_lane(head, lane, across), part))
}

/// What only the computed figures tell.
fn findings(lane: &Lane, outcome: &LaneOutcome) -> Vec<Note> {
    let mut notes = Vec::new();
    let mut note = |code, text: String| notes.push(Note { code, text, line: None });
    if let Some(height) = outcome.sized.absent.time.eye_height.filter(|height| *height <= 0.0) {
        let closed =
            format!("the worst-pattern eye is closed before the protector (height {height:.4} of the ideal eye)");
        let word = WORST_EYE_PENALTY.word();
        let limited = lane.limits.iter().any(|limit| matches!(limit.of, LaneLimit::WorstEyePenalty(_)));
        let so = if limited { format!("no capacitance keeps {word}") } else { "no penalty is given".to_owned() };
        note("eye-closed", format!("{closed}: {so}"));
    }
    if let Some(fault) = outcome.not_settled {
        note("not-settled", format!("{fault}: left out"));
    }
    notes
}

fn metrics(figures: &LaneFigures) -> Metrics {
    let (loss, time) = (&figures.loss, &figures.time);
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

fn changes(changes: &LaneChanges) -> Changes {
    Changes {
        added_loss_db: changes.loss.added_loss,
        eye_penalty: changes.loss.eye_penalty,
        worst_eye_penalty: changes.time.worst_eye_penalty,
        added_rise_s: changes.time.added_rise.map(|rise| rise.0),
        mode_conversion_db: changes.unlike.and_then(|unlike| unlike.conversion),
        skew_s: changes.unlike.map(|unlike| unlike.skew.0),
        droop: changes.droop,
    }
}

fn fitted_report(lane: &Lane, fitted: &budget::Fitted<LaneFigures, LaneChanges>, checks: &[parts::Check]) -> Fitted {
    Fitted {
        capacitance_f: fitted.at.capacitance.0,
        metrics: metrics(&fitted.at.figures),
        changes: changes(&fitted.at.changes),
        holds: fitted.holds,
        headroom: fitted.headroom.iter().map(headroom).collect(),
        part: part_name(&lane.path),
        checks: check_reports(checks),
    }
}

fn at_budget(at: &At<LaneFigures, LaneChanges>) -> AtBudget {
    AtBudget { capacitance_f: at.capacitance.0, metrics: metrics(&at.figures), changes: changes(&at.changes) }
}
