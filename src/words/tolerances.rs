//! What the tolerances of a line leave, in words.

use super::limits::{Capacitances, title};
use super::line::Line;
use crate::budget::Verdict;
use crate::model::Distribution;
use crate::study::{Place, Tolerated, Worst};
use crate::units::Dimension;
use crate::units::decimal::{engineering, percent, significant};

/// Significant digits of a share of settings, and of a bare number.
const DIGITS: usize = 4;

/// The worst case of a line and its yield as cells of a table, without the unit.
pub(crate) fn cells(line: &Line<'_>, c: &Capacitances) -> [String; 2] {
    let Some(tolerance) = &line.head.tolerance else { return ["-".to_owned(), "-".to_owned()] };
    let share = tolerance.yielded.share().map_or("-".to_owned(), shown_share);
    [worst_cell(&tolerance.worst, c), share]
}

fn worst_cell(worst: &Worst, c: &Capacitances) -> String {
    c.left(worst.verdict, worst.capacitance, worst.lowest)
}

/// A share of settings: never rounded up to all of them.
fn shown_share(share: f64) -> String {
    let hundredths = (share * 1e4).floor() / 100.0;
    if share >= 1.0 { "100 %".to_owned() } else { format!("{} %", significant(hundredths, DIGITS)) }
}

/// What is said of a line with nothing fitted.
pub(crate) fn unfitted(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Bounded => "free up to the budget",
        Verdict::NoRoom => "no room for a protector",
        Verdict::Window => "breaks without a protector",
        Verdict::Unbounded => "any capacitance will do",
        Verdict::Impossible => "no capacitance will do",
    }
}

/// What a line does at some setting of its values, where that is no pass; `None` where it passes at all.
pub(crate) fn corner(worst: &Worst) -> Option<String> {
    match &worst.fitted {
        Some(fitted) => {
            let broken = fitted.limits.iter().filter(|limit| !limit.holds);
            let broken: Vec<String> = broken.map(|limit| title(limit.figure)).collect();
            (!broken.is_empty()).then(|| format!("breaks {}", broken.join(", ")))
        }
        None => (!worst.passes()).then(|| unfitted(worst.verdict).to_owned()),
    }
}

/// What the worst case and the yield of a line are, in sentences.
pub(crate) fn facts(tolerance: &Tolerated, c: &Capacitances) -> Vec<String> {
    let Tolerated { settings, worst, yielded, .. } = tolerance;
    let unit = c.unit();
    let set_by = worst.set_by.map_or(String::new(), |by| format!(", set by {}", title(by)));
    let found = format!("the least found in {settings} settings within the tolerances");
    let mut said = vec![match (worst.verdict, worst.capacitance) {
        (Verdict::Impossible, _) => format!("Worst case, {found}: no capacitance keeps every limit."),
        (Verdict::Unbounded, _) => format!("Worst case, {found}: no limit bounds the capacitance."),
        (Verdict::Window, Some(_)) => format!("Worst case, {found}: {} {unit}{set_by}.", worst_cell(worst, c)),
        (_, Some(_)) => format!("Worst case, {found}: up to {} {unit}{set_by}.", worst_cell(worst, c)),
        (_, None) => format!("Worst case, {found}: {}.", worst.verdict.word()),
    }];
    let drawn = format!("{} settings drawn at random (seed {})", yielded.samples, yielded.seed);
    if let (Some(share), Some((low, high))) = (yielded.share(), yielded.interval()) {
        let (low, high) = (percent(low), percent(high));
        said.push(format!("Yield: {} of {drawn} hold; 95 % interval {low} to {high}.", shown_share(share)));
    }
    said.push(match yielded.budget {
        Some(budget) => format!("99.7 % of {drawn} allow up to {} {unit}.", c.largest(budget.0)),
        None => format!("No largest capacitance that 99.7 % of {drawn} allow."),
    });
    said
}

/// How values lie between their bounds.
pub(crate) fn spread(tolerance: &Tolerated) -> &'static str {
    match tolerance.varying.distribution {
        Distribution::Uniform => "alike everywhere",
        Distribution::Normal => "normally with the bounds at three standard deviations",
    }
}

/// Each value that varies: its address, what is stated, its bounds, and what it is at the worst.
pub(crate) fn values(tolerance: &Tolerated) -> Vec<Vec<String>> {
    let worst = tolerance.worst.setting.as_ref();
    let row = |(index, place): (usize, &Place)| {
        let mut row = vec![place.of.address.to_string()];
        row.extend([place.nominal, place.low, place.high].map(|value| quantity(place, value)));
        row.push(worst.and_then(|worst| worst.get(index)).map_or("-".to_owned(), |value| quantity(place, *value)));
        row
    };
    tolerance.varying.places.iter().enumerate().map(row).collect()
}

/// A value with its unit.
fn quantity(place: &Place, value: f64) -> String {
    match place.of.range.dimension {
        Dimension::Number => significant(value, DIGITS),
        Dimension::Decibel | Dimension::DecibelPerLength => {
            format!("{} {}", significant(value, DIGITS), place.of.range.dimension.symbol())
        }
        dimension => engineering(value, dimension.symbol()),
    }
}
