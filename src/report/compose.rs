//! From the port to the report.

use rayon::prelude::*;

use super::chart::{ChartData, Show, chart_data, feed_chart_data};
use super::explain::{explain, explain_bus, explain_feed, explain_rail};
use super::slow::{bus_report, rail_report};
use super::{
    AtBudget, Budget, CAUTIONS, Changes, Check, FeedChanges, FeedMetrics, FeedReport, Fitted, Headroom, LaneReport,
    LimitReport, Metrics, Note, Report, Retune, SCHEMA,
};
use crate::budget::{
    self, Fault, FeedJudged, FeedOutcome, Figures, FittedOutcome, IntervalSet, Judged, LaneOutcome, LimitOutcome,
    size_feed, size_lane,
};
use crate::diag::{Diagnostic, Sources, Span};
use crate::model::{self, Bound, Bus, Feed, Lane, Limit, LimitKind, LineRef, Path, Port, Rail};
use crate::parts::{self, Checks, Demand, Rating, checks};
use crate::response::{self, LossMetrics, TimeMetrics};
use crate::units::{Farad, Hertz};

/// Called once for each line that is done, from any thread, so that a long run can show how far it is.
pub type LineDone<'a> = &'a (dyn Fn() + Sync);

/// Sizes the lines at these places of [`Port::names`] and reports on them, kind by kind in that order.
///
/// # Errors
/// The lines whose numbers go beyond what can be computed.
pub fn size(
    port: &Port,
    indices: &[usize],
    figures: Figures,
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Report, Vec<Diagnostic>> {
    let sized = Outcomes::new(port, indices, figures, done)?;
    Ok(sized.report(port.title.clone(), sources))
}

/// Lines with their outcomes.
pub(super) struct Outcomes<'a> {
    pub(super) lanes: Vec<(&'a Lane, LaneOutcome)>,
    pub(super) feeds: Vec<(&'a Feed, FeedOutcome)>,
    pub(super) buses: Vec<&'a Bus>,
    pub(super) rails: Vec<&'a Rail>,
}

impl<'a> Outcomes<'a> {
    pub(super) fn new(
        port: &'a Port,
        indices: &[usize],
        figures: Figures,
        done: LineDone<'_>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let (mut lanes, mut feeds, mut buses, mut rails) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for line in indices.iter().filter_map(|index| port.line(*index)) {
            match line {
                LineRef::Lane(lane) => lanes.push(lane),
                LineRef::Feed(feed) => feeds.push(feed),
                LineRef::Bus(bus) => buses.push(bus),
                LineRef::Rail(rail) => rails.push(rail),
            }
        }
        (0..buses.len() + rails.len()).for_each(|_| done());
        let lane = |lane: &Lane| {
            let outcome = size_lane(lane, figures).map_err(|fault| not_computable(LineRef::Lane(lane), fault));
            done();
            outcome
        };
        let feed = |feed: &Feed| {
            let outcome = size_feed(feed).map_err(|fault| not_computable(LineRef::Feed(feed), fault));
            done();
            outcome
        };
        let mut errors = Vec::new();
        let (lanes, feeds) = (outcomes(lanes, lane, &mut errors), outcomes(feeds, feed, &mut errors));
        if errors.is_empty() {
            Ok(Outcomes {
                lanes,
                feeds,
                buses,
                rails,
            })
        } else {
            Err(errors)
        }
    }

    pub(super) fn report(&self, title: Option<String>, sources: &Sources) -> Report {
        let lane = |(lane, outcome): &(&Lane, LaneOutcome)| lane_report(lane, outcome, sources);
        let feed = |(feed, outcome): &(&Feed, FeedOutcome)| feed_report(feed, outcome, sources);
        Report {
            lanecap: env!("CARGO_PKG_VERSION"),
            schema: SCHEMA,
            title,
            lanes: self.lanes.par_iter().map(lane).collect(),
            feeds: self.feeds.par_iter().map(feed).collect(),
            buses: self.buses.iter().map(|bus| bus_report(bus, sources)).collect(),
            rails: self.rails.iter().map(|rail| rail_report(rail, sources)).collect(),
            cautions: CAUTIONS.to_vec(),
        }
    }
}

/// Each line with its outcome; the errors go to `errors`.
fn outcomes<'a, L: Sync, O: Send>(
    lines: Vec<&'a L>,
    size: impl Fn(&L) -> Result<O, Box<Diagnostic>> + Sync,
    errors: &mut Vec<Diagnostic>,
) -> Vec<(&'a L, O)> {
    let sized: Vec<Result<O, Box<Diagnostic>>> = lines.par_iter().map(|line| size(line)).collect();
    let keep = |(line, result): (&'a L, Result<O, Box<Diagnostic>>)| match result {
        Ok(outcome) => Some((line, outcome)),
        Err(error) => {
            errors.push(*error);
            None
        }
    };
    lines.into_iter().zip(sized).filter_map(keep).collect()
}

/// The working of one line as text.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn working(line: LineRef<'_>, sources: &Sources) -> Result<String, Box<Diagnostic>> {
    match line {
        LineRef::Lane(lane) => {
            let outcome = size_lane(lane, Figures::All).map_err(|fault| not_computable(line, fault))?;
            let report = lane_report(lane, &outcome, sources);
            Ok(explain(lane, &outcome, &report, &CAUTIONS))
        }
        LineRef::Feed(feed) => {
            let outcome = size_feed(feed).map_err(|fault| not_computable(line, fault))?;
            let report = feed_report(feed, &outcome, sources);
            Ok(explain_feed(feed, &outcome, &report, &CAUTIONS))
        }
        LineRef::Bus(bus) => Ok(explain_bus(bus, &bus_report(bus, sources), &CAUTIONS)),
        LineRef::Rail(rail) => Ok(explain_rail(rail, &rail_report(rail, sources), &CAUTIONS)),
    }
}

/// The numbers of one picture of a lane.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn charted(lane: &Lane, show: Show) -> Result<ChartData, Box<Diagnostic>> {
    let data = size_lane(lane, Figures::Nyquist).and_then(|outcome| chart_data(lane, &outcome, show));
    data.map_err(|fault| not_computable(LineRef::Lane(lane), fault))
}

/// The numbers of the picture of a feed.
///
/// # Errors
/// The feed, where its numbers go beyond what can be computed.
pub fn charted_feed(feed: &Feed) -> Result<ChartData, Box<Diagnostic>> {
    let data = size_feed(feed).and_then(|outcome| feed_chart_data(feed, &outcome));
    data.map_err(|fault| not_computable(LineRef::Feed(feed), fault))
}

pub(super) fn not_computable(line: LineRef<'_>, fault: Fault) -> Box<Diagnostic> {
    let (word, name, span): (&str, &str, Span) = match line {
        LineRef::Lane(lane) => ("lane", &lane.name, lane.span),
        LineRef::Feed(feed) => ("feed", &feed.name, feed.span),
        LineRef::Bus(bus) => ("bus", &bus.name, bus.span),
        LineRef::Rail(rail) => ("rail", &rail.name, rail.span),
    };
    let error = Diagnostic::error("not-computable", span, format!("{word} \"{name}\": {fault}"))
        .help("check the path for a value that is out of proportion");
    Box::new(error)
}

fn lane_report(lane: &Lane, outcome: &LaneOutcome, sources: &Sources) -> LaneReport {
    let checked = lane_checks(lane);
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
            .map(|fitted| fitted_report(lane, fitted, outcome.droop, &checked.checks)),
        at_budget: outcome
            .at_budget
            .as_ref()
            .map(|judged| at_budget(judged, outcome.droop)),
        budget: budget_report(&lane.limits, &outcome.budget, sources),
        defaults: notes(&lane.defaults, sources),
        warnings: notes(&lane.warnings, sources)
            .into_iter()
            .chain(findings(lane, outcome))
            .chain(notes(&checked.cautions, sources))
            .collect(),
    }
}

/// The survival checks of the part a lane names.
fn lane_checks(lane: &Lane) -> Checks {
    let named = lane.path.protector().and_then(|p| Some((p.part.as_ref()?, p.across)));
    named.map_or_else(Checks::default, |(part, across)| {
        checks(&Demand::of_lane(lane), &Rating::of(part, across))
    })
}

/// Checks as they are reported.
pub(super) fn check_reports(checks: &[parts::Check]) -> Vec<Check> {
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

fn fitted_report(lane: &Lane, fitted: &FittedOutcome, droop: Option<f64>, checks: &[parts::Check]) -> Fitted {
    let judged = &fitted.judged;
    Fitted {
        capacitance_f: judged.capacitance.0,
        metrics: metrics(&judged.metrics, &judged.time),
        changes: changes(judged, droop),
        holds: fitted.holds,
        headroom: fitted.headroom.iter().map(headroom).collect(),
        part: part_name(&lane.path),
        checks: check_reports(checks),
    }
}

fn part_name(path: &Path) -> Option<String> {
    let part = path.protector()?.part.as_ref()?;
    Some(part.name.clone())
}

fn feed_report(feed: &Feed, outcome: &FeedOutcome, sources: &Sources) -> FeedReport {
    let checked = feed_checks(feed, outcome);
    FeedReport {
        name: feed.name.clone(),
        port: feed.port.clone(),
        count: feed.count,
        reference_ohm: feed.reference.0,
        band_hz: [feed.band.low.0, feed.band.high.0],
        absent: feed_metrics(&outcome.absent, outcome.resonance),
        fitted: outcome.fitted.as_ref().map(|fitted| Fitted {
            capacitance_f: fitted.judged.capacitance.0,
            metrics: feed_metrics(&fitted.judged.metrics, fitted.judged.resonance),
            changes: feed_changes(&fitted.judged),
            holds: fitted.holds,
            headroom: fitted.headroom.iter().map(headroom).collect(),
            part: part_name(&feed.path),
            checks: check_reports(&checked.checks),
        }),
        at_budget: outcome.at_budget.as_ref().map(|judged| AtBudget {
            capacitance_f: judged.capacitance.0,
            metrics: feed_metrics(&judged.metrics, judged.resonance),
            changes: feed_changes(judged),
        }),
        budget: budget_report(&feed.limits, &outcome.budget, sources),
        bode_fano_return_loss_db: outcome.bode_fano,
        defaults: notes(&feed.defaults, sources),
        warnings: notes(&feed.warnings, sources)
            .into_iter()
            .chain(notes(&checked.cautions, sources))
            .collect(),
    }
}

/// The survival checks of the part a feed names, at the worst reflection with it.
fn feed_checks(feed: &Feed, outcome: &FeedOutcome) -> Checks {
    let part = feed.path.protector().and_then(|p| p.part.as_ref());
    let judged = outcome.fitted.as_ref().map(|fitted| &fitted.judged);
    part.zip(judged).map_or_else(Checks::default, |(part, judged)| {
        checks(
            &Demand::of_feed(feed, judged.metrics.reflection),
            &Rating::of(part, false),
        )
    })
}

fn feed_metrics(metrics: &response::FeedMetrics, resonance: Option<Hertz>) -> FeedMetrics {
    FeedMetrics {
        return_loss_db: metrics.return_loss(),
        reflection: metrics.reflection,
        vswr: metrics.standing_wave(),
        mismatch_loss_db: metrics.mismatch_loss(),
        transducer_loss_db: metrics.transducer_loss,
        resonance_hz: hertz(resonance),
    }
}

fn feed_changes(judged: &FeedJudged) -> FeedChanges {
    FeedChanges {
        added_loss_db: judged.added_loss,
        detuning_hz: hertz(judged.detuning),
        retune: judged.retune.map(|retune| Retune {
            shunt_inductance_h: retune.shunt.0,
            series_inductance_h: retune.series.0,
            nearest_e24_h: retune.nearest.0,
            return_loss_db: retune.metrics.return_loss(),
            detuning_hz: hertz(retune.detuning),
            holds: retune.holds,
        }),
    }
}

pub(super) fn headroom(headroom: &budget::Headroom) -> Headroom {
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

pub(super) fn budget_report(limits: &[Limit], budget: &budget::Budget, sources: &Sources) -> Budget {
    let limits = limits.iter().zip(&budget.limits);
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
        Bound::Level(level) => (Some(*level), None),
        Bound::Mask(points) => (None, Some(points.iter().map(|p| (p.level, p.frequency.0)).collect())),
    };
    LimitReport {
        limit: limit.kind.word(),
        bound,
        points,
        intervals_f: intervals(&outcome.allowed),
        capacitance_f: farad(outcome.capacitance),
        at_hz: hertz(outcome.at),
        levels: limit.levels,
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

pub(super) fn notes(notes: &[model::Note], sources: &Sources) -> Vec<Note> {
    let note = |note: &model::Note| Note {
        code: note.code,
        text: note.text.clone(),
        line: note.span.map(|span| sources.line(span)),
    };
    notes.iter().map(note).collect()
}
