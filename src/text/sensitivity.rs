//! What a reader is shown of what buys more.

use super::grid::Grid;
use super::render::{Format, written};
use super::scale::protector_scale;
use super::section::Section;
use super::view::View;
use crate::budget::{Headroom, LimitOutcome};
use crate::result::{SensitiveLine, SensitivityReport, sensitivity_csv, sensitivity_json};
use crate::study::{Gain, MovedLimit, Out};
use crate::units::Farad;
use crate::units::decimal::{Scale, signed_percent, significant};
use crate::words::limits::{self, Capacitances, signed, title};
use crate::words::set;
use crate::words::value::{change, named};

const NOTHING: &str = "-";
/// Headroom below this share of its bound is round-off, and nothing.
const NOISE: f64 = 1e-6;

/// What the values of lines do, in one of the formats, ended by a line end.
pub fn render_sensitivity(report: &SensitivityReport, format: Format) -> String {
    written(format, || view(report), || sensitivity_json(report), || sensitivity_csv(report))
}

fn view(report: &SensitivityReport) -> View {
    let steps = "Each value is changed alone: by its ±, else by 10 %; the place by 1 mm. Removed: as if it were not there, and \
                 all else stays where it is.";
    View {
        title: Some(report.title.clone().unwrap_or_else(|| "What buys more".to_owned())),
        set: report.set.iter().map(set::sentence).collect(),
        grids: Vec::new(),
        footnotes: vec![if report.lines.is_empty() { "No line has a budget.".to_owned() } else { steps.to_owned() }],
        sections: report.lines.iter().map(section).collect(),
        cautions: report.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn section(line: &SensitiveLine) -> Section {
    let budget = &line.found.budget;
    let c = Scaled::of(line);
    let set_by = budget.set_by.map_or(String::new(), |figure| format!(", set by {}", title(figure)));
    let verdict = match budget.capacitance {
        Some(capacitance) => format!("budget {} {}{set_by}", c.budget(capacitance), c.0.unit()),
        None => format!("{} budget", if budget.allowed.is_empty() { "no" } else { "unbounded" }),
    };
    let nothing = line.found.ranking.is_empty().then(|| "No step and nothing taken out buys more.".to_owned());
    Section {
        name: line.name.clone(),
        verdict,
        facts: nothing.into_iter().collect(),
        grids: vec![ranking(line, &c), limit_grid(line)],
        ..Section::default()
    }
}

fn ranking(line: &SensitiveLine, c: &Scaled) -> Grid {
    let unit = c.0.unit();
    let header = ["", "address", "what", "change", &format!("budget [{unit}]"), "gain", &format!("gain [{unit}]")];
    let row = |(rank, gain): (usize, &Gain)| {
        let budget = gain.budget.map_or("no bound".to_owned(), |budget| c.budget(budget));
        let before = line.found.budget.capacitance.filter(|before| before.0 > 0.0);
        let share = gain.gain.zip(before).map_or(NOTHING.to_owned(), |(gain, before)| signed_percent(gain / before));
        vec![
            (rank + 1).to_string(),
            gain.of.to_string(),
            named(&gain.of, &line.elements),
            change(gain),
            budget,
            share,
            gain.gain.map_or(NOTHING.to_owned(), |gain| c.gain(gain)),
        ]
    };
    Grid {
        title: "What buys more",
        header: header.map(str::to_owned).to_vec(),
        rows: line.found.ranking.iter().enumerate().map(row).collect(),
    }
}

fn limit_grid(line: &SensitiveLine) -> Grid {
    let header = ["limit", "headroom", "moved most by", "what", "change"];
    let budget = &line.found.budget;
    let row = |(limit, outcome): (&MovedLimit, &LimitOutcome)| {
        let amount = |number: Option<f64>| number.map_or(NOTHING.to_owned(), |number| signed(limit.figure, number));
        let is_nothing = |h: &Headroom| h.margin.is_some_and(|margin| margin.abs() < NOISE * h.bound.abs());
        let margin = match outcome.fitted.filter(is_nothing) {
            None => amount(limit.margin),
            Some(_) if budget.set_by == Some(limit.figure) => {
                format!("{} (sets the budget)", limits::nothing_of(limit.figure))
            }
            Some(_) => limits::nothing_of(limit.figure),
        };
        let of = limit.address.clone().map(Out::Value);
        vec![
            title(limit.figure),
            margin,
            of.as_ref().map_or(NOTHING.to_owned(), ToString::to_string),
            of.as_ref().map_or(NOTHING.to_owned(), |of| named(of, &line.elements)),
            amount(limit.change),
        ]
    };
    let title = match line.found.at {
        Some(at) if line.found.budget.capacitance == Some(at) => "What moves each limit, at the budget",
        _ => "What moves each limit, with what is fitted",
    };
    Grid {
        title,
        header: header.map(str::to_owned).to_vec(),
        rows: line.found.limits.iter().zip(&budget.limits).map(row).collect(),
    }
}

/// What wins most of a line, in sentences.
pub(crate) fn first(
    gains: &[Gain],
    before: Option<Farad>,
    elements: &[(usize, &'static str)],
    most: usize,
) -> Vec<String> {
    let all = gains.iter().filter_map(|gain| gain.budget).chain(before).map(|c| c.0);
    let c = Scaled(Capacitances::new(protector_scale(all.clone()), None, std::iter::empty()), protector_scale(all));
    let said = |gain: &Gain| {
        let what = named(&gain.of, elements);
        let won = match gain.gain {
            Some(gain) => format!("+{} {}", c.gain(gain), c.0.unit()),
            None => "no bound any more".to_owned(),
        };
        format!("{what} ({}) {}: {won}", gain.of, change(gain))
    };
    gains.iter().take(most).map(said).collect()
}

/// Capacitances of one line in one unit.
struct Scaled(Capacitances, Scale);

impl Scaled {
    fn of(line: &SensitiveLine) -> Scaled {
        let found = &line.found;
        let all = found.ranking.iter().filter_map(|gain| gain.budget).chain(found.budget.capacitance).map(|c| c.0);
        let scale = protector_scale(all);
        Scaled(Capacitances::new(scale, None, std::iter::empty()), scale)
    }

    fn budget(&self, c: Farad) -> String {
        self.0.largest(c.0)
    }

    fn gain(&self, c: Farad) -> String {
        significant(c.0 / self.1.factor, 3)
    }
}
