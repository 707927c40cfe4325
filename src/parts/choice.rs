//! The recommended part of a line.

use std::cmp::Ordering;

use super::{Check, Verdict};
use crate::units::decimal::{engineering, engineering_apart, significant};

/// A part as judged for one line.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Name of the part.
    pub part: String,
    /// Its checks on this line, the capacitance included.
    pub checks: Vec<Check>,
    /// What it costs for one lane of the line, see [`cost_per_line`].
    pub cost_per_line: Option<f64>,
    /// What a contact discharge leaves at the pin with it, and the unit; of every candidate in the same. `None` where that
    /// is not known.
    pub at_pin: Option<(f64, &'static str)>,
}

/// What is recommended for a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Index of the recommended candidate.
    pub recommended: Option<usize>,
    /// One sentence that says why, or what stops each part.
    pub why: String,
    /// The candidates that do not pass, nearest miss first.
    pub stopped: Vec<Stopped>,
}

/// A candidate that does not pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Stopped {
    /// Its index.
    pub candidate: usize,
    /// The check that it misses by most; one that is not stated where none fails.
    pub check: Check,
}

/// Whether every check passes. A check that is not stated has not passed.
pub fn passes(checks: &[Check]) -> bool {
    checks.iter().all(|c| c.verdict == Verdict::Passes)
}

/// The check with the smallest margin, of those whose margin ranks parts: channels, words and temperature do not.
pub fn closest(checks: &[Check]) -> Option<&Check> {
    let margin = |c: &Check| c.margin.unwrap_or(f64::INFINITY);
    checks.iter().filter(|c| c.ranks()).min_by(|a, b| margin(a).total_cmp(&margin(b)))
}

/// The margin of the [closest] check.
pub fn smallest_margin(checks: &[Check]) -> Option<f64> {
    closest(checks)?.margin
}

/// A lane's share of a package: cost · channels taken / channels of the package.
///
/// `None` where the cost is not stated. A pair on a part of one channel takes two packages.
///
/// ```
/// use lanecap::parts::cost_per_line;
/// assert_eq!(cost_per_line(Some(3.0), 4, 2), Some(1.5));
/// assert_eq!(cost_per_line(Some(1.0), 1, 2), Some(2.0));
/// ```
pub fn cost_per_line(package_cost: Option<f64>, channels: u32, taken: u32) -> Option<f64> {
    package_cost.filter(|_| channels > 0).map(|cost| cost * f64::from(taken) / f64::from(channels))
}

/// The part that passes every check, then costs least per line, then has the largest smallest margin, then leaves
/// least at the pin, then stands first. A part without a cost comes after those with one.
pub fn recommend(candidates: &[Candidate]) -> Choice {
    let mut passing: Vec<usize> = (0..candidates.len()).filter(|i| passes(&candidates[*i].checks)).collect();
    passing.sort_by(|a, b| prefer(&candidates[*a], &candidates[*b]));
    let stopped = stopped(candidates);
    let why = match passing.first() {
        Some(best) => reason(candidates, &passing, *best),
        None => obstacles(candidates, &stopped),
    };
    Choice { recommended: passing.first().copied(), why, stopped }
}

fn prefer(a: &Candidate, b: &Candidate) -> Ordering {
    compare_cost(a, b).then_with(|| compare_margin(a, b)).then_with(|| compare_left(a, b))
}

/// What is not known leaves most.
fn compare_left(a: &Candidate, b: &Candidate) -> Ordering {
    let left = |c: &Candidate| c.at_pin.map_or(f64::INFINITY, |(left, _)| left);
    left(a).total_cmp(&left(b))
}

fn compare_cost(a: &Candidate, b: &Candidate) -> Ordering {
    // Shares of a package are compared as rounded numbers, so that 3 · 2/6 and 1 are the same cost.
    let rounded = |c: &Candidate| c.cost_per_line.map_or(f64::INFINITY, |v| (v * 1e9).round());
    rounded(a).total_cmp(&rounded(b))
}

/// A part without any margin is nowhere near a limit.
fn compare_margin(a: &Candidate, b: &Candidate) -> Ordering {
    let room = |c: &Candidate| smallest_margin(&c.checks).unwrap_or(f64::INFINITY);
    room(b).total_cmp(&room(a))
}

fn reason(candidates: &[Candidate], passing: &[usize], best: usize) -> String {
    let first = &candidates[best];
    let Some(second) = passing.get(1).map(|i| &candidates[*i]) else {
        return "the only part that passes every check".to_owned();
    };
    let group = format!("of the {} parts that pass every check", passing.len());
    match (first.cost_per_line, compare_cost(first, second)) {
        (Some(cost), Ordering::Less) => format!("{group} it costs least per line: {}", significant(cost, 4)),
        (cost, _) => {
            let tied = match cost {
                Some(cost) => format!("{group} none costs less per line than {}", significant(cost, 4)),
                None => format!("{group} none has a cost per line"),
            };
            match (closest(&first.checks).map(|c| (c.margin, c.check)), compare_margin(first, second)) {
                (Some((Some(margin), check)), Ordering::Less) => {
                    let margin = significant(100.0 * margin, 3);
                    format!("{tied}; its smallest margin is the largest: {margin} % ({check})")
                }
                (None, Ordering::Less) => format!("{tied}; no limit bounds it"),
                (_, Ordering::Equal) if compare_left(first, second) == Ordering::Less => {
                    let left = first.at_pin.map_or(String::new(), |(left, unit)| engineering(left, unit));
                    format!("{tied}; of those whose smallest margin is the largest it leaves least at the pin: {left}")
                }
                _ => format!("{tied}, and it is the first of those whose smallest margin is the largest"),
            }
        }
    }
}

fn stopped(candidates: &[Candidate]) -> Vec<Stopped> {
    let mut list: Vec<Stopped> = candidates
        .iter()
        .enumerate()
        .filter_map(|(candidate, c)| {
            let check = stopping_check(&c.checks)?.clone();
            Some(Stopped { candidate, check })
        })
        .collect();
    list.sort_by(|a, b| distance(&a.check).total_cmp(&distance(&b.check)));
    list
}

fn stopping_check(checks: &[Check]) -> Option<&Check> {
    let fails = checks.iter().filter(|c| c.verdict == Verdict::Fails);
    fails
        .rev()
        .max_by(|a, b| distance(a).total_cmp(&distance(b)))
        .or_else(|| checks.iter().find(|c| c.verdict == Verdict::NotStated))
}

/// How far a check is from passing: what is not stated may pass yet; a word that does not match is furthest.
fn distance(check: &Check) -> f64 {
    match check.verdict {
        Verdict::NotStated => -1.0,
        _ => check.margin.map_or(f64::INFINITY, |m| -m),
    }
}

fn obstacles(candidates: &[Candidate], stopped: &[Stopped]) -> String {
    if stopped.is_empty() {
        return "the sheet has no part".to_owned();
    }
    let each: Vec<String> =
        stopped.iter().map(|s| format!("\"{}\" {}", candidates[s.candidate].part, obstacle(&s.check))).collect();
    format!("no part passes every check: {}", each.join("; "))
}

fn obstacle(check: &Check) -> String {
    let why = check.why.as_deref().map_or(String::new(), |why| format!(": {why}"));
    match (check.verdict, check.required, check.available) {
        (Verdict::NotStated, ..) if check.why.is_some() => format!("leaves {} open{why}", check.name()),
        (Verdict::NotStated, ..) => format!("does not state what {} needs", check.name()),
        (_, Some(required), Some(available)) => {
            let (available, required) = engineering_apart(available, required, check.unit);
            format!("fails {} ({available} against {} {required})", check.name(), check.sense.sign())
        }
        _ => format!("fails {}{why}", check.name()),
    }
}
