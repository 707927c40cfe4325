//! The answers to what values do, as JSON and CSV.

use super::keys::{Keyed, Keys};
use super::outcome::sized;
use super::range::RangeReport;
use super::report::{top, unit};
use super::sensitivity::{SensitiveLine, SensitivityReport};
use super::sweep::{SweepReport, SweptLine, SweptPoint};
use super::{csv, json};
use crate::figures::Figure;
use crate::study::{Best, Breaks, End, Gain, Moved, MovedLimit, Out, Over, Stepped, Without};

/// Every number as indented JSON.
pub(crate) fn sensitivity_json(report: &SensitivityReport) -> String {
    json::text(report)
}

/// A row for each value, and for whatever is taken out.
pub(crate) fn sensitivity_csv(report: &SensitivityReport) -> String {
    let mut rows: Vec<SensitiveRow<'_>> = Vec::new();
    for line in &report.lines {
        rows.extend(line.found.values.iter().map(|moved| SensitiveRow { line, of: Ok(moved) }));
        rows.extend(line.found.without.iter().map(|without| SensitiveRow { line, of: Err(without) }));
    }
    csv::rows(&rows)
}

/// Every number as indented JSON.
pub(crate) fn sweep_json(report: &SweepReport) -> String {
    json::text(report)
}

/// A row for each setting: its values, then those of `size`.
pub(crate) fn sweep_csv(report: &SweepReport) -> String {
    let names: Vec<String> = report.over.iter().map(|over| over.of.address.to_string()).collect();
    let at: Vec<&[f64]> = report.points.iter().map(|point| point.at.as_slice()).collect();
    macro_rules! rows {
        ($kind:path) => {{
            let own = report.points.iter().filter_map(|point| match &point.line {
                $kind(line) => Some(line.as_ref()),
                _ => None,
            });
            csv::rows_beside(&names, &at, &own.collect::<Vec<_>>())
        }};
    }
    match report.points.first().map(|point| &point.line) {
        Some(SweptLine::Feed(_)) => rows!(SweptLine::Feed),
        Some(SweptLine::Bus(_)) => rows!(SweptLine::Bus),
        _ => rows!(SweptLine::Lane),
    }
}

/// Every number as indented JSON.
pub(crate) fn range_json(report: &RangeReport) -> String {
    json::text(report)
}

/// A row for each interval.
pub(crate) fn range_csv(report: &RangeReport) -> String {
    let rows: Vec<IntervalRow<'_>> =
        report.found.intervals.iter().map(|ends| IntervalRow { report, ends: *ends }).collect();
    csv::rows(&rows)
}

impl Keyed for SensitivityReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        top(this.map(|report| (report.title.as_deref(), report.set.as_slice())), to);
        to.list("lines", this.map(|report| &report.lines));
        to.texts("cautions", this.map(|report| &report.cautions));
    }
}

impl Keyed for SensitiveLine {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let found = this.map(|line| &line.found);
        let budget = found.map(|found| &found.budget);
        to.text("name", this.map(|line| line.name.as_str()));
        to.text("kind", this.map(|line| line.kind));
        to.number("budget_f", budget.and_then(|budget| budget.capacitance).map(|c| c.0));
        to.text("verdict", budget.map(|budget| budget.verdict.word()));
        to.text("set_by", budget.and_then(|budget| budget.set_by).map(Figure::word));
        to.list("values", found.map(|found| &found.values));
        to.list("without", found.map(|found| &found.without));
        to.list("ranking", found.map(|found| &found.ranking));
        to.list("limits", found.map(|found| &found.limits));
    }
}

impl Keyed for Moved {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("address", this.map(|moved| moved.address.to_string()).as_deref());
        to.number("value", this.map(|moved| moved.value));
        to.text("unit", this.and_then(|moved| unit(moved.dimension)));
        to.number("step", this.map(|moved| moved.step));
        to.object("down", this.and_then(|moved| moved.down.as_ref()));
        to.object("up", this.and_then(|moved| moved.up.as_ref()));
        to.number("derivative", this.and_then(|moved| moved.derivative));
    }
}

impl Keyed for Stepped {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("value", this.map(|step| step.value));
        to.text("verdict", this.map(|step| step.verdict.word()));
        to.number("budget_f", this.and_then(|step| step.budget).map(|c| c.0));
    }
}

impl Keyed for Without {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("address", this.map(|own| own.out.to_string()).as_deref());
        to.text("verdict", this.map(|own| own.verdict.word()));
        to.number("budget_f", this.and_then(|own| own.budget).map(|c| c.0));
        to.number("gain_f", this.and_then(|own| own.gain).map(|c| c.0));
    }
}

impl Keyed for Gain {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("address", this.map(|gain| gain.of.to_string()).as_deref());
        to.text("change", this.map(|gain| gain.change.word()));
        to.number("gain_f", this.and_then(|gain| gain.gain).map(|c| c.0));
    }
}

impl Keyed for MovedLimit {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("limit", this.map(|limit| limit.figure.word()));
        to.number("margin", this.and_then(|limit| limit.margin));
        to.text("address", this.and_then(|limit| limit.address.as_ref()).map(ToString::to_string).as_deref());
        to.number("change", this.and_then(|limit| limit.change));
    }
}

/// A value of a line, or what is taken out of it.
struct SensitiveRow<'a> {
    line: &'a SensitiveLine,
    of: Result<&'a Moved, &'a Without>,
}

impl Keyed for SensitiveRow<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let moved = this.and_then(|row| row.of.ok());
        let without = this.and_then(|row| row.of.err());
        let address = this.map(|row| match row.of {
            Ok(moved) => Out::Value(moved.address.clone()),
            Err(without) => without.out.clone(),
        });
        to.text("line", this.map(|row| row.line.name.as_str()));
        to.text("kind", this.map(|row| row.line.kind));
        to.text("address", address.map(|address| address.to_string()).as_deref());
        to.number("value", moved.map(|moved| moved.value));
        to.text("unit", moved.and_then(|moved| unit(moved.dimension)));
        to.number("step", moved.map(|moved| moved.step));
        to.object("down", moved.and_then(|moved| moved.down.as_ref()));
        to.object("up", moved.and_then(|moved| moved.up.as_ref()));
        to.number("derivative", moved.and_then(|moved| moved.derivative));
        to.text("without_verdict", without.map(|own| own.verdict.word()));
        to.number("without_budget_f", without.and_then(|own| own.budget).map(|c| c.0));
        to.number("without_gain_f", without.and_then(|own| own.gain).map(|c| c.0));
    }
}

impl Keyed for SweepReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        top(this.map(|report| (report.title.as_deref(), report.set.as_slice())), to);
        to.text("line", this.map(|report| report.line.as_str()));
        to.text("kind", this.map(|report| report.kind));
        to.list("over", this.map(|report| &report.over));
        to.count("steps", this.map(|report| report.steps));
        to.list("points", this.map(|report| &report.points));
        to.texts("cautions", this.map(|report| &report.cautions));
    }
}

impl Keyed for Over {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("address", this.map(|over| over.of.address.to_string()).as_deref());
        to.text("unit", this.and_then(|over| unit(over.of.range.dimension)));
        to.number("from", this.map(|over| over.from));
        to.number("to", this.map(|over| over.to));
    }
}

impl Keyed for SweptPoint {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.numbers("at", this.map(|point| point.at.iter().copied()));
        match this.map(|point| &point.line) {
            Some(SweptLine::Lane(line)) => sized(Some(line.as_ref()), to),
            Some(SweptLine::Feed(line)) => sized(Some(line.as_ref()), to),
            Some(SweptLine::Bus(line)) => sized(Some(line.as_ref()), to),
            None => {}
        }
    }
}

impl Keyed for RangeReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let found = this.map(|report| &report.found);
        top(this.map(|report| (report.title.as_deref(), report.set.as_slice())), to);
        asked(this, to);
        let searched = found.map(|found| found.searched);
        to.ends("searched", searched.map(|(from, end)| (from, end.unwrap_or(f64::INFINITY))));
        to.pairs("intervals", found.map(|found| found.intervals.iter().copied()));
        to.list("ends", found.map(|found| &found.ends));
        to.object("best", found.and_then(|found| found.best.as_ref()));
        to.texts("cautions", this.map(|report| &report.cautions));
    }
}

/// What was asked of a line.
fn asked<K: Keys>(this: Option<&RangeReport>, to: &mut K) {
    to.text("line", this.map(|report| report.line.as_str()));
    to.text("kind", this.map(|report| report.kind));
    to.text("of", this.map(|report| report.of.address.to_string()).as_deref());
    to.text("unit", this.and_then(|report| unit(report.of.range.dimension)));
    to.number("nominal", this.and_then(|report| report.of.nominal));
    to.number("fitted_f", this.and_then(|report| report.found.fitted).map(|c| c.0));
}

impl Keyed for End {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("value", this.map(|end| end.value));
        to.text("limit", this.and_then(|end| limit(&end.breaks)));
    }
}

/// What breaks, by its word; `None` where there is no line.
fn limit(breaks: &Breaks) -> Option<&str> {
    match breaks {
        Breaks::Limit(figure) => Some(figure.word()),
        Breaks::Check(name) => Some(name),
        Breaks::NoLine(_) => None,
    }
}

impl Keyed for Best {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("value", this.map(|best| best.value));
        to.number("budget_f", this.map(|best| best.budget.0));
        to.text("verdict", this.map(|best| best.verdict.word()));
    }
}

/// One interval of what was found.
struct IntervalRow<'a> {
    report: &'a RangeReport,
    ends: (f64, Option<f64>),
}

impl Keyed for IntervalRow<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let at = |value: f64| {
            let ends = this.map(|row| row.report.found.ends.iter());
            ends.and_then(|mut ends| ends.find(|end| end.value == value)).and_then(|end| limit(&end.breaks))
        };
        let (low, high) = (this.map(|row| row.ends.0), this.and_then(|row| row.ends.1));
        asked(this.map(|row| row.report), to);
        to.number("low", low);
        to.number("high", high);
        to.text("low_limit", low.and_then(at));
        to.text("high_limit", high.and_then(at));
    }
}
