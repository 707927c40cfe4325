//! Whether a line passes, in a word and as a fact.

use super::{Budget, BusReport, Check, Headroom, LaneReport, RailReport, Report};

impl Report {
    /// Whether every line passes.
    pub fn passes(&self) -> bool {
        self.lanes.iter().all(LaneReport::passes)
            && self.buses.iter().all(BusReport::passes)
            && self.rails.iter().all(RailReport::passes)
    }
}

impl LaneReport {
    /// Whether the line passes: where a capacitance is fitted, it keeps every limit and fails no check; where none is,
    /// the line needs no protector to keep its limits.
    pub fn passes(&self) -> bool {
        judgement(self).passes()
    }

    /// The limit with the least headroom relative to its bound, a broken one first. A bound of zero counts as one unit.
    pub fn tightest(&self) -> Option<&Headroom> {
        tightest(&self.fitted.as_ref()?.headroom)
    }
}

impl BusReport {
    /// Whether the bus passes, as [`LaneReport::passes`].
    pub fn passes(&self) -> bool {
        self.judgement().passes()
    }

    pub(super) fn judgement(&self) -> Judgement<'_> {
        let fitted = self.fitted.as_ref();
        Judgement {
            budget: &self.budget,
            fitted: fitted.map(|f| (f.holds, f.headroom.as_slice(), f.checks.as_slice())),
        }
    }
}

impl RailReport {
    /// Whether no check of its part fails.
    pub fn passes(&self) -> bool {
        !fails(&self.checks)
    }
}

fn fails(checks: &[Check]) -> bool {
    checks.iter().any(|check| check.verdict == "fails")
}

/// The limit with the least headroom relative to its bound, a broken one first.
pub(super) fn tightest(headroom: &[Headroom]) -> Option<&Headroom> {
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
    headroom
        .iter()
        .min_by(|a, b| a.holds.cmp(&b.holds).then(key(a).total_cmp(&key(b))))
}

/// What a verdict looks at.
pub(super) struct Judgement<'a> {
    budget: &'a Budget,
    /// Whether every limit holds, the headroom, the checks.
    fitted: Option<(bool, &'a [Headroom], &'a [Check])>,
}

impl Judgement<'_> {
    fn passes(&self) -> bool {
        match self.fitted {
            Some((holds, _, checks)) => holds && !fails(checks),
            None => !matches!(self.budget.verdict, "impossible" | "window"),
        }
    }
}

fn judgement(lane: &LaneReport) -> Judgement<'_> {
    let fitted = lane.fitted.as_ref();
    Judgement {
        budget: &lane.budget,
        fitted: fitted.map(|f| (f.holds, f.headroom.as_slice(), f.checks.as_slice())),
    }
}

/// The verdict in plain words.
pub(super) fn verdict(lane: &LaneReport) -> String {
    verdict_of(&judgement(lane))
}

/// The same of any line with limits.
pub(super) fn verdict_of(line: &Judgement<'_>) -> String {
    let Some((holds, headroom, checks)) = line.fitted else {
        return match line.budget.verdict {
            "bounded" => "free up to the budget",
            "window" => "breaks without a protector",
            "unbounded" => "any capacitance will do",
            "impossible" => "no capacitance will do",
            other => other,
        }
        .to_owned();
    };
    let limits = headroom
        .iter()
        .filter(|h| !h.holds)
        .map(|h| super::limits::title(h.limit));
    let limits: Vec<String> = limits.collect();
    let mut said = Vec::new();
    if !limits.is_empty() {
        said.push(format!("breaks {}", limits.join(", ")));
    } else if !holds {
        said.push("breaks a limit".to_owned());
    }
    said.extend(failing(checks));
    if said.is_empty() {
        "holds".to_owned()
    } else {
        said.join("; ")
    }
}

/// The verdict of a rail.
pub(super) fn rail_verdict(rail: &RailReport) -> String {
    match rail.part {
        None => "no part named".to_owned(),
        Some(_) => failing(&rail.checks).unwrap_or_else(|| "holds".to_owned()),
    }
}

fn failing(checks: &[Check]) -> Option<String> {
    let names: Vec<&str> = checks
        .iter()
        .filter(|check| check.verdict == "fails")
        .map(|check| check.check)
        .collect();
    (!names.is_empty()).then(|| format!("fails {}", names.join(", ")))
}
