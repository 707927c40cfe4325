//! What a reader is shown of a report, as text in tables and sentences; the table and Markdown lay it out.

use super::{feed_grid, signal, slow_view};
use crate::result::{Check, LimitReport, Note, Report};
use crate::units::decimal::{Decimal, Scale, pair, short, signed_percent};
use crate::words::limits::{Capacitances, PENALTY_NOTE};
use crate::words::line::Line;
use crate::words::verdict::{tightest, verdict};
use crate::words::{limits, sentences};

/// Title of the main table.
const TITLE: &str = "Largest capacitance of the protector, one line to ground";

/// A table of text. The first column holds names, which are shown as they are or shortened.
pub(crate) struct Grid {
    pub(crate) title: &'static str,
    pub(crate) header: Vec<String>,
    pub(crate) rows: Vec<Vec<String>>,
}

impl Grid {
    /// Whether each row ends in the verdict of its line.
    pub(crate) fn has_verdicts(&self) -> bool {
        self.header.last().is_some_and(|title| title == "verdict")
    }
}

/// What is said of one line.
pub(crate) struct Section {
    pub(crate) name: String,
    pub(crate) verdict: String,
    pub(crate) passes: bool,
    pub(crate) facts: Vec<String>,
    pub(crate) grids: Vec<Grid>,
    pub(crate) defaults: Vec<String>,
    pub(crate) warnings: Vec<String>,
}

/// All that is shown.
pub(crate) struct View {
    pub(crate) title: Option<String>,
    pub(crate) grids: Vec<Grid>,
    pub(crate) footnotes: Vec<&'static str>,
    pub(crate) sections: Vec<Section>,
    pub(crate) cautions: Vec<String>,
}

/// Whether the main tables name the part of each line, which takes room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Parts {
    Named,
    LeftToTheSections,
}

impl View {
    pub(crate) fn of(report: &Report, parts: Parts) -> View {
        let lanes = report.lanes.iter().map(|lane| lane.line());
        let lines: Vec<Line> = lanes.chain(report.feeds.iter().map(|feed| feed.line())).collect();
        let scale = capacitance_scale(&lines);
        let capacitances: Vec<Capacitances> = lines.iter().map(|line| of_line(line, scale)).collect();
        let (of_lanes, of_feeds) = capacitances.split_at(report.lanes.len());
        let slow = slow_view::of(report, parts);
        let (mut grids, mut footnotes) = (Vec::new(), Vec::new());
        if !lines.is_empty() || slow.grids.is_empty() {
            grids.push(budgets(TITLE, &lines, &capacitances, scale, parts));
            grids.extend(signal::grids(&report.lanes, of_lanes, scale));
            grids.extend(feed_grid::grid(&report.feeds, of_feeds, scale));
        }
        if !report.lanes.is_empty() {
            footnotes.push(PENALTY_NOTE);
        }
        grids.extend(slow.grids);
        View {
            title: report.title.clone(),
            grids,
            footnotes,
            sections: lines.iter().zip(&capacitances).map(|(line, c)| section(line, c)).chain(slow.sections).collect(),
            cautions: report.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
        }
    }
}

/// The scale that suits numbers of very different sizes best: that of their geometric mean.
pub(crate) fn shared_scale(values: impl Iterator<Item = f64>) -> Scale {
    let logs: Vec<f64> = values.filter(|v| *v > 0.0 && v.is_finite()).map(f64::ln).collect();
    if logs.is_empty() {
        return Scale::of(1.0);
    }
    Scale::of((logs.iter().sum::<f64>() / logs.len() as f64).exp())
}

/// The scale of the capacitances. Those of protectors are read in picofarad, small ones too.
pub(crate) fn capacitance_scale(lines: &[Line<'_>]) -> Scale {
    protector_scale(lines.iter().flat_map(all_capacitances))
}

/// A scale for the capacitances of protectors.
pub(crate) fn protector_scale(values: impl Iterator<Item = f64>) -> Scale {
    let scale = shared_scale(values);
    if scale.factor < 1e-12 || scale.factor >= 1.0 { Scale::of(1e-12) } else { scale }
}

fn all_capacitances(line: &Line<'_>) -> impl Iterator<Item = f64> {
    let budget = line.budget;
    let fitted = line.fitted.as_ref().map(|fitted| fitted.capacitance_f);
    [budget.capacitance_f, budget.lowest_f, fitted].into_iter().flatten()
}

/// A line's capacitances, where the fitted one is told apart from every end of what is allowed.
pub(crate) fn of_line(line: &Line<'_>, scale: Scale) -> Capacitances {
    let budget = line.budget;
    let of_limits = budget.limits.iter().flat_map(|limit| &limit.intervals_f);
    let ends = of_limits
        .chain(&budget.intervals_f)
        .flat_map(|(low, high)| [Some(*low), *high])
        .chain([budget.capacitance_f, budget.lowest_f])
        .flatten();
    Capacitances::new(scale, line.fitted.as_ref().map(|fitted| fitted.capacitance_f), ends)
}

/// The main table: what each line tolerates and whether it holds.
pub(crate) fn budgets(
    title: &'static str,
    lines: &[Line<'_>],
    capacitances: &[Capacitances],
    scale: Scale,
    parts: Parts,
) -> Grid {
    let part = |line: &Line<'_>| (parts == Parts::Named).then(|| line.part().unwrap_or("-").to_owned());
    let unit = format!("[{}F]", scale.prefix);
    let row = |(line, c): (&Line<'_>, &Capacitances)| {
        let headroom = line.fitted.map_or(&[][..], |fitted| fitted.headroom);
        let tightest = tightest(headroom).map_or("-".to_owned(), |tightest| {
            let [_, value, margin] = limits::headroom(tightest);
            let margin = if margin.is_empty() { value } else { margin };
            format!("{} {margin}", limits::title(tightest.limit))
        });
        let mut row = vec![
            line.name.to_owned(),
            line.count.to_string(),
            sentences::budget_cell(line, c),
            sentences::set_by_cell(line),
            c.fitted().unwrap_or_else(|| "-".to_owned()),
        ];
        row.extend(part(line));
        row.extend([tightest, verdict(line)]);
        row
    };
    let mut header = vec![
        "line".to_owned(),
        "count".to_owned(),
        format!("budget {unit}"),
        "set by".to_owned(),
        format!("fitted {unit}"),
    ];
    header.extend((parts == Parts::Named).then(|| "part".to_owned()));
    header.extend(["tightest headroom".to_owned(), "verdict".to_owned()]);
    Grid { title, header, rows: lines.iter().zip(capacitances).map(row).collect() }
}

pub(crate) fn section(line: &Line<'_>, c: &Capacitances) -> Section {
    Section {
        name: line.name.to_owned(),
        verdict: verdict(line),
        passes: line.passes(),
        facts: sentences::facts(line, c),
        grids: vec![
            limit_grid(line, c),
            check_grid("Checks of the part", line.fitted.map_or(&[], |fitted| fitted.checks)),
        ],
        defaults: notes(line.defaults),
        warnings: notes(line.warnings),
    }
}

/// Remarks with their lines.
pub(crate) fn notes(notes: &[Note]) -> Vec<String> {
    notes.iter().map(note).collect()
}

fn note(note: &Note) -> String {
    match note.line {
        Some(line) => format!("line {line}: {}", note.text),
        None => note.text.clone(),
    }
}

/// Each limit of a line and what it allows by itself.
fn limit_grid(line: &Line<'_>, c: &Capacitances) -> Grid {
    let mut header = vec!["limit", "bound", "allows by itself", "absent", "C = 0"];
    if line.fitted.is_some() {
        header.extend(["fitted", "headroom"]);
    }
    let word = |holds| if holds { "holds" } else { "breaks" };
    let row = |(index, limit): (usize, &LimitReport)| {
        let mut row = vec![
            limits::title(limit.limit),
            limits::bound(limit),
            format!("{}{}", c.intervals(&limit.intervals_f), limits::at(limit.at_hz)),
            word(limit.holds_absent).to_owned(),
            word(limit.holds_at_zero).to_owned(),
        ];
        if let Some(fitted) = &line.fitted {
            let same = |i: &usize| fitted.headroom.get(*i).is_some_and(|headroom| headroom.limit == limit.limit);
            let place = Some(index).filter(same).or_else(|| (0..fitted.headroom.len()).find(same));
            match place.and_then(|place| fitted.headroom.get(place)) {
                Some(headroom) => {
                    let [bound, value, margin] = limits::headroom(headroom);
                    // Beside a mask, the bound of its worst frequency.
                    let against = if headroom.at_hz.is_some() { format!("{value}, {bound}") } else { value };
                    row.extend([against, format!("{margin} {}", word(headroom.holds)).trim_start().to_owned()]);
                }
                None => row.extend(["-".to_owned(), "-".to_owned()]),
            }
        }
        row
    };
    Grid {
        title: "Limits",
        header: header.into_iter().map(str::to_owned).collect(),
        rows: line.budget.limits.iter().enumerate().map(row).collect(),
    }
}

/// Required, available, their unit and the margin of a check.
pub(crate) fn check_cells(check: &Check) -> [String; 4] {
    let (power, prefix) = match check.unit {
        "" | "degC" => (0, ""),
        _ => {
            let scale = Scale::of(check.required.or(check.available).unwrap_or(1.0));
            (-(scale.factor.log10().round() as i32), scale.prefix)
        }
    };
    let (required, available) = match (check.required, check.available) {
        (Some(required), Some(available)) => {
            let (required, available) = pair(required, available);
            (Some(required), Some(available))
        }
        (required, available) => (required.map(short), available.map(short)),
    };
    let text = |n: Option<Decimal>| n.map_or("-".to_owned(), |n| n.times_ten_to(power).to_string());
    [
        text(required),
        text(available),
        format!("{prefix}{}", check.unit),
        check.margin.map_or("-".to_owned(), signed_percent),
    ]
}

/// The survival checks of a part.
pub(crate) fn check_grid(title: &'static str, checks: &[Check]) -> Grid {
    let row = |check: &Check| {
        let [required, available, unit, margin] = check_cells(check);
        vec![check.check.to_owned(), required, available, unit, margin, check.verdict.to_owned()]
    };
    Grid {
        title,
        header: ["check", "required", "available", "unit", "margin", "verdict"].map(str::to_owned).to_vec(),
        rows: checks.iter().map(row).collect(),
    }
}
