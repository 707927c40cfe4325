//! Whether a line passes, in a word and as a fact.

use super::{Headroom, LaneReport, Report};

impl Report {
    /// Whether every line passes.
    pub fn passes(&self) -> bool {
        self.lanes.iter().all(LaneReport::passes)
    }
}

impl LaneReport {
    /// Whether the line passes: where a capacitance is fitted, it keeps every limit and fails no check; where none is,
    /// the line needs no protector to keep its limits.
    pub fn passes(&self) -> bool {
        match &self.fitted {
            Some(fitted) => fitted.holds && fitted.checks.iter().all(|check| check.verdict != "fails"),
            None => !matches!(self.budget.verdict, "impossible" | "window"),
        }
    }

    /// The limit with the least headroom relative to its bound, a broken one first. A bound of zero counts as one unit.
    pub fn tightest(&self) -> Option<&Headroom> {
        let key = |headroom: &Headroom| {
            let unit = headroom.bound.map_or(1.0, f64::abs);
            let unit = if unit > 0.0 { unit } else { 1.0 };
            // Without a margin the match is perfect, or nothing gets through.
            let beyond = if headroom.holds {
                f64::INFINITY
            } else {
                f64::NEG_INFINITY
            };
            headroom.margin.map_or(beyond, |margin| margin / unit)
        };
        let headroom = &self.fitted.as_ref()?.headroom;
        headroom
            .iter()
            .min_by(|a, b| a.holds.cmp(&b.holds).then(key(a).total_cmp(&key(b))))
    }
}

/// The verdict in plain words.
pub(super) fn verdict(lane: &LaneReport) -> String {
    let Some(fitted) = &lane.fitted else {
        return match lane.budget.verdict {
            "bounded" => "free up to the budget",
            "window" => "breaks without a protector",
            "unbounded" => "any capacitance will do",
            "impossible" => "no capacitance will do",
            other => other,
        }
        .to_owned();
    };
    let limits = fitted
        .headroom
        .iter()
        .filter(|h| !h.holds)
        .map(|h| super::limits::title(h.limit));
    let checks = fitted.checks.iter().filter(|check| check.verdict == "fails");
    let limits: Vec<String> = limits.collect();
    let checks: Vec<&str> = checks.map(|check| check.check).collect();
    let mut said = Vec::new();
    if !limits.is_empty() {
        said.push(format!("breaks {}", limits.join(", ")));
    } else if !fitted.holds {
        said.push("breaks a limit".to_owned());
    }
    if !checks.is_empty() {
        said.push(format!("fails {}", checks.join(", ")));
    }
    if said.is_empty() {
        "holds".to_owned()
    } else {
        said.join("; ")
    }
}
