//! What lines of every kind have in their reports.

use crate::budget;
use crate::budget::LimitOutcome;
use crate::diag::Sources;
use crate::figures::Figure;
use crate::model;
use crate::model::{Bounds, Limit, Path};
use crate::parts;
use crate::result::outcome::{Budget, Check, Headroom, LimitReport, Note};
use crate::units::{Farad, Hertz};

/// Checks as they are reported.
pub(crate) fn check_reports(checks: &[parts::Check]) -> Vec<Check> {
    let report = |check: &parts::Check| Check {
        check: check.check,
        required: check.required,
        available: check.available,
        unit: check.unit,
        margin: check.margin,
        verdict: check.verdict.word(),
    };
    checks.iter().map(report).collect()
}

pub(crate) fn headroom(headroom: &budget::Headroom) -> Headroom {
    Headroom {
        limit: headroom.figure.word(),
        value: headroom.value,
        bound: Some(headroom.bound),
        margin: headroom.margin,
        holds: headroom.holds,
        at_hz: hertz(headroom.at),
    }
}

pub(crate) fn budget_report<B: Bounds>(limits: &[Limit<B>], budget: &budget::Budget, sources: &Sources) -> Budget {
    let limits = limits.iter().zip(&budget.limits);
    Budget {
        verdict: budget.verdict.word(),
        capacitance_f: farad(budget.capacitance),
        lowest_f: farad(budget.lowest),
        lowest_set_by: budget.lowest_set_by.map(Figure::word),
        across_pair_f: farad(budget.across_pair),
        shop_for_f: farad(budget.shop_for),
        without_footprint_f: farad(budget.without_footprint),
        set_by: budget.set_by.map(Figure::word),
        set_at_hz: hertz(budget.set_at),
        intervals_f: budget.allowed.ends(),
        limits: limits.map(|(limit, outcome)| limit_report(limit, outcome, sources)).collect(),
    }
}

fn limit_report<B: Bounds>(limit: &Limit<B>, outcome: &LimitOutcome, sources: &Sources) -> LimitReport {
    LimitReport {
        limit: limit.of.figure().word(),
        bound: limit.of.bound(),
        points: limit.of.mask().map(|mask| mask.points().iter().map(|p| (p.level, p.frequency.0)).collect()),
        intervals_f: outcome.allowed.ends(),
        capacitance_f: farad(outcome.capacitance),
        at_hz: hertz(outcome.at),
        levels: limit.of.levels(),
        holds_absent: outcome.holds_absent(),
        holds_at_zero: outcome.holds_at_zero(),
        line: limit.span.map(|span| sources.line(span)),
    }
}

pub(crate) fn notes(notes: &[model::Note], sources: &Sources) -> Vec<Note> {
    let note = |note: &model::Note| Note {
        code: note.code,
        text: note.text.clone(),
        line: note.span.map(|span| sources.line(span)),
    };
    notes.iter().map(note).collect()
}

pub(crate) fn part_name(path: &Path) -> Option<String> {
    let part = path.protector()?.part.as_ref()?;
    Some(part.name.clone())
}

fn farad(capacitance: Option<Farad>) -> Option<f64> {
    capacitance.map(|c| c.0)
}

pub(crate) fn hertz(frequency: Option<Hertz>) -> Option<f64> {
    frequency.map(|f| f.0)
}
