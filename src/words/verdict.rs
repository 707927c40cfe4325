//! Whether a line passes, in a word and as a fact.

use super::line::Line;
use crate::result::{BusReport, Check, FeedReport, Headroom, LaneReport, RailReport, Report};

impl Report {
    /// Whether every line passes.
    pub fn passes(&self) -> bool {
        self.lanes.iter().all(LaneReport::passes)
            && self.feeds.iter().all(FeedReport::passes)
            && self.buses.iter().all(BusReport::passes)
            && self.rails.iter().all(RailReport::passes)
    }
}

impl LaneReport {
    /// Whether the line passes: where a capacitance is fitted, it keeps every limit and fails no check; where none is,
    /// the line needs no protector to keep its limits.
    pub fn passes(&self) -> bool {
        self.line().passes()
    }

    /// The limit with the least headroom relative to its bound, a broken one first. A bound of zero counts as one unit.
    pub fn tightest(&self) -> Option<&Headroom> {
        tightest(&self.fitted.as_ref()?.headroom)
    }
}

impl FeedReport {
    /// Whether the feed passes, as [`LaneReport::passes`].
    pub fn passes(&self) -> bool {
        self.line().passes()
    }
}

impl BusReport {
    /// Whether the bus passes, as [`LaneReport::passes`].
    pub fn passes(&self) -> bool {
        self.line().passes()
    }
}

impl RailReport {
    /// Whether no check of its part fails.
    pub fn passes(&self) -> bool {
        failing(&self.checks).is_none()
    }
}

/// The limit with the least headroom, see [`LaneReport::tightest`].
pub(crate) fn tightest(headroom: &[Headroom]) -> Option<&Headroom> {
    let key = |headroom: &Headroom| {
        let unit = headroom.bound.map_or(1.0, f64::abs);
        let unit = if unit > 0.0 { unit } else { 1.0 };
        // Without a margin the match is perfect, or nothing gets through.
        let beyond = if headroom.holds { f64::INFINITY } else { f64::NEG_INFINITY };
        headroom.margin.map_or(beyond, |margin| margin / unit)
    };
    headroom.iter().min_by(|a, b| a.holds.cmp(&b.holds).then(key(a).total_cmp(&key(b))))
}

/// The verdict in plain words.
pub(crate) fn verdict(line: &Line<'_>) -> String {
    let Some(fitted) = &line.fitted else {
        return match line.budget.verdict {
            "bounded" => "free up to the budget",
            "window" => "breaks without a protector",
            "unbounded" => "any capacitance will do",
            "impossible" => "no capacitance will do",
            other => other,
        }
        .to_owned();
    };
    let limits = fitted.headroom.iter().filter(|h| !h.holds).map(|h| super::limits::title(h.limit));
    let limits: Vec<String> = limits.collect();
    let mut said = Vec::new();
    if !limits.is_empty() {
        said.push(format!("breaks {}", limits.join(", ")));
    } else if !fitted.holds {
        said.push("breaks a limit".to_owned());
    }
    said.extend(failing(fitted.checks));
    if said.is_empty() { "holds".to_owned() } else { said.join("; ") }
}

/// The verdict of a rail.
pub(crate) fn rail_verdict(rail: &RailReport) -> String {
    match rail.part {
        None => "no part named".to_owned(),
        Some(_) => failing(&rail.checks).unwrap_or_else(|| "holds".to_owned()),
    }
}

/// The checks that fail, where any does.
fn failing(checks: &[Check]) -> Option<String> {
    let names: Vec<&str> = checks.iter().filter(|check| check.verdict == "fails").map(|check| check.check).collect();
    (!names.is_empty()).then(|| format!("fails {}", names.join(", ")))
}
