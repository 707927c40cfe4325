//! Whether a line passes, in words.

use super::limits::title;
use super::line::Line;
use super::tolerances;
use super::tolerances::Detail;
use crate::parts::{Check, Verdict};
use crate::result::RailResult;
use crate::units::decimal::signed_percent;

/// Codes of the warnings without which a verdict would mislead, and their words.
const BESIDE: [(&str, &str); 6] = [
    ("breaks-below-nyquist", "breaks below Nyquist"),
    ("eye-disagrees", "the eye disagrees"),
    ("loss-into-open", "loss into an open end"),
    ("limits-below-nyquist", "no limit at Nyquist"),
    ("limits-outside-band", "no limit in the band"),
    ("until-before-protector", "the dip is read too short"),
];

/// The verdict in plain words, with the warnings that belong beside it.
pub(crate) fn verdict(line: &Line<'_>, detail: Detail) -> String {
    let warned = |code| line.head.warnings.iter().any(|note| note.code == code);
    let beside: Vec<&str> = BESIDE.into_iter().filter(|beside| warned(beside.0)).map(|beside| beside.1).collect();
    let said = said(line, detail);
    if beside.is_empty() { said } else { format!("{said} (warning: {})", beside.join(", ")) }
}

fn said(line: &Line<'_>, detail: Detail) -> String {
    let worst = line.head.tolerance.as_ref().map(|tolerance| &tolerance.worst);
    let Some(fitted) = &line.fitted else {
        let stated = line.budget.verdict;
        let alone = || tolerances::unfitted(stated).to_owned();
        return worst.map_or_else(alone, |worst| tolerances::both_unfitted(stated, worst));
    };
    let limits: Vec<String> = fitted.headroom.iter().filter(|h| !h.holds).map(|h| title(h.figure)).collect();
    let mut said = Vec::new();
    if !limits.is_empty() {
        said.push(format!("breaks {}", limits.join(", ")));
    } else if !fitted.holds {
        said.push("breaks a limit".to_owned());
    }
    said.extend(failing(fitted.checks));
    if !said.is_empty() {
        return said.join("; ");
    }
    let first = line.budget.allowed.lowest();
    let island = fitted.part.is_some() && first.is_some_and(|first| fitted.capacitance > first.high);
    let island = island.then(|| "above the lowest window".to_owned());
    let but = island.into_iter().chain(not_stated(fitted.checks));
    match worst.and_then(|worst| tolerances::broken(worst, detail)) {
        Some(broken) => {
            let at_worst = format!("holds as stated, at worst {broken}");
            std::iter::once(at_worst).chain(but).collect::<Vec<_>>().join(", ")
        }
        None => holds(but),
    }
}

/// The verdict of a rail.
pub(crate) fn rail_verdict(rail: &RailResult) -> String {
    let checks = &rail.head.checks;
    failing(checks).unwrap_or_else(|| match rail.head.part {
        None => "no part named".to_owned(),
        Some(_) => holds(not_stated(checks).into_iter()),
    })
}

/// What the checks of the chip's pin say: what a discharge leaves there against what the chip survives.
pub(crate) fn chip_cell(checks: &[Check]) -> String {
    let of_pin = || checks.iter().filter(|check| check.is_of_pin());
    let with =
        |verdict| of_pin().filter(|check| check.verdict == verdict).map(Check::name).collect::<Vec<_>>().join(", ");
    let (fails, open) = (with(Verdict::Fails), with(Verdict::NotStated));
    if !fails.is_empty() {
        return format!("fails {fails}");
    }
    if !open.is_empty() {
        return format!("not stated: {open}");
    }
    let margin = |check: &&Check| check.margin.unwrap_or(f64::INFINITY);
    match of_pin().min_by(|a, b| margin(a).total_cmp(&margin(b))) {
        Some(check) => {
            let margin = check.margin.map_or(String::new(), |margin| format!(" {}", signed_percent(margin)));
            format!("survives, {}{margin}", check.name())
        }
        None => "-".to_owned(),
    }
}

/// The checks that fail, where any does.
fn failing(checks: &[Check]) -> Option<String> {
    let names: Vec<String> = checks.iter().filter(|check| check.verdict == Verdict::Fails).map(Check::name).collect();
    (!names.is_empty()).then(|| format!("fails {}", names.join(", ")))
}

/// That a line holds, and what stands in the way of a part that passes.
fn holds(but: impl Iterator<Item = String>) -> String {
    ["holds".to_owned()].into_iter().chain(but).collect::<Vec<_>>().join(", ")
}

/// How many checks are not stated, where any is.
fn not_stated(checks: &[Check]) -> Option<String> {
    let count = checks.iter().filter(|check| check.verdict == Verdict::NotStated).count();
    (count > 0).then(|| format!("{count} not stated"))
}
