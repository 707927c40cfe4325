//! What is said of one line.

use super::checks::check_grid;
use super::grid::Grid;
use crate::budget::LimitOutcome;
use crate::parts::Check;
use crate::result::{Note, Stated};
use crate::words::limits::Capacitances;
use crate::words::line::Line;
use crate::words::tolerances::Detail;
use crate::words::verdict::verdict;
use crate::words::{limits, sentences, tolerances};

/// What is said of one line.
#[derive(Default)]
pub(crate) struct Section {
    pub(crate) name: String,
    pub(crate) verdict: String,
    pub(crate) passes: bool,
    /// The worst case within its tolerances, where it has any.
    pub(crate) worst: Option<String>,
    pub(crate) facts: Vec<String>,
    /// What its signal tolerates, each with its name; empty for a line without limits.
    pub(crate) tolerates: Vec<(&'static str, String)>,
    pub(crate) grids: Vec<Grid>,
    pub(crate) reasons: Vec<String>,
    pub(crate) defaults: Vec<String>,
    pub(crate) warnings: Vec<String>,
}

impl Section {
    /// The lists that follow its tables, each with its title; those that hold nothing are left out.
    pub(crate) fn lists(&self) -> impl Iterator<Item = (&'static str, &[String])> {
        let all = [
            ("Why checks do not pass", &self.reasons),
            ("Defaults used", &self.defaults),
            ("Warnings", &self.warnings),
        ];
        all.into_iter().filter(|(_, notes)| !notes.is_empty()).map(|(title, notes)| (title, notes.as_slice()))
    }
}

pub(crate) fn section(line: &Line<'_>, c: &Capacitances) -> Section {
    Section {
        name: line.head.name.clone(),
        verdict: verdict(line, Detail::Measured),
        passes: line.passes,
        worst: line.head.tolerance.as_ref().map(|tolerance| tolerances::worst_case(&tolerance.worst, c)),
        facts: sentences::facts(line, c),
        tolerates: tolerates(line, c),
        grids: [limit_grid(line, c)]
            .into_iter()
            .chain(left_grid(line, c))
            .chain([check_grid("Checks of the part", line.checks())])
            .collect(),
        reasons: line.checks().iter().filter_map(Check::reason).collect(),
        defaults: notes(&line.head.defaults),
        warnings: notes(&line.head.warnings),
    }
}

/// The budget of a line, what sets it, and what is fitted.
fn tolerates(line: &Line<'_>, c: &Capacitances) -> Vec<(&'static str, String)> {
    let unit = c.unit();
    let bounded = line.budget.capacitance.is_some();
    let budget = sentences::budget_cell(line, c);
    let mut said = vec![("budget", if bounded { format!("{budget} {unit}") } else { budget })];
    said.push(("set by", sentences::set_by_cell(line)));
    if let Some(fitted) = c.fitted() {
        said.push(("fitted", format!("{fitted} {unit}")));
        said.push(("tightest headroom", sentences::headroom_cell(line)));
    }
    said
}

/// Remarks with their lines.
pub(crate) fn notes(notes: &[Note]) -> Vec<String> {
    let said = |note: &Note| match note.line {
        Some(line) => format!("line {line}: {}", note.text),
        None => note.text.clone(),
    };
    notes.iter().map(said).collect()
}

/// Between what the values of a line vary, and where they are at its worst.
fn left_grid(line: &Line<'_>, c: &Capacitances) -> Option<Grid> {
    let tolerance = line.head.tolerance.as_deref()?;
    let rows = tolerances::values(tolerance);
    let which = tolerances::which_worst(&tolerance.worst, c).map_or(String::new(), |which| format!(" ({which})"));
    let worst = format!("at the worst{which}");
    let header = ["value", "stated", "from", "to", &worst].map(str::to_owned).to_vec();
    Some(Grid { title: "What the tolerances leave", header, rows })
}

/// Each limit of a line and what it allows by itself.
fn limit_grid(line: &Line<'_>, c: &Capacitances) -> Grid {
    let mut header = vec!["limit", "bound", "allows by itself", "absent", "C = 0"];
    if line.fitted.is_some() {
        header.extend(["fitted", "headroom"]);
    }
    let worst = line.head.tolerance.as_ref().and_then(|tolerance| tolerance.worst.fitted.as_ref());
    if worst.is_some() {
        header.push("at the worst");
    }
    let word = |holds| if holds { "holds" } else { "breaks" };
    let headroom = line.headroom();
    let row = |(index, (stated, limit)): (usize, (&Stated, &LimitOutcome))| {
        let mut row = vec![
            limits::title(limit.figure),
            limits::bound(limit.figure, stated),
            format!("{}{}", c.intervals(&limit.allowed), limits::at(limit.at)),
            word(limit.holds_absent()).to_owned(),
            word(limit.holds_at_zero()).to_owned(),
        ];
        if line.fitted.is_some() {
            row.extend(match headroom.get(index) {
                Some(headroom) => {
                    let [bound, value, margin] = limits::headroom(headroom);
                    // Beside a mask, the bound of its worst frequency.
                    let against = if headroom.at.is_some() { format!("{value}, {bound}") } else { value };
                    [against, format!("{margin} {}", word(headroom.holds)).trim_start().to_owned()]
                }
                None => ["-".to_owned(), "-".to_owned()],
            });
        }
        row.extend(worst.map(|worst| worst.limits.get(index).map_or("-".to_owned(), tolerances::margin_cell)));
        row
    };
    Grid {
        title: "Limits",
        header: header.into_iter().map(str::to_owned).collect(),
        rows: line.limits().enumerate().map(row).collect(),
    }
}
