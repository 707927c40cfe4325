//! What every kind of line has to show, whatever it is measured in.

use super::{Budget, Check, FeedReport, Fitted, Headroom, LaneReport, Note, sentences};

/// A lane or a feed as tables and sentences see it.
#[derive(Debug, Clone)]
pub(super) struct Line<'a> {
    pub(super) name: &'a str,
    pub(super) count: u32,
    /// What it is, in a sentence.
    pub(super) about: String,
    pub(super) budget: &'a Budget,
    pub(super) fitted: Option<FittedLine<'a>>,
    /// The figure of each limit without protector, where it is known where the limit stands.
    pub(super) absent: Vec<Option<f64>>,
    /// Further sentences.
    pub(super) facts: Vec<String>,
    pub(super) defaults: &'a [Note],
    pub(super) warnings: &'a [Note],
}

/// What is fitted to a line.
#[derive(Debug, Clone, Copy)]
pub(super) struct FittedLine<'a> {
    pub(super) capacitance_f: f64,
    pub(super) holds: bool,
    pub(super) headroom: &'a [Headroom],
    pub(super) part: Option<&'a str>,
    pub(super) checks: &'a [Check],
}

impl<'a> FittedLine<'a> {
    fn of<M, C>(fitted: &'a Fitted<M, C>) -> Self {
        FittedLine {
            capacitance_f: fitted.capacitance_f,
            holds: fitted.holds,
            headroom: &fitted.headroom,
            part: fitted.part.as_deref(),
            checks: &fitted.checks,
        }
    }
}

impl LaneReport {
    pub(super) fn line(&self) -> Line<'_> {
        let limits = &self.budget.limits;
        Line {
            name: &self.name,
            count: self.count,
            about: sentences::about_lane(self),
            budget: &self.budget,
            fitted: self.fitted.as_ref().map(FittedLine::of),
            absent: limits.iter().map(|limit| sentences::absent_value(self, limit)).collect(),
            facts: Vec::new(),
            defaults: &self.defaults,
            warnings: &self.warnings,
        }
    }
}

impl FeedReport {
    pub(super) fn line(&self) -> Line<'_> {
        let limits = &self.budget.limits;
        Line {
            name: &self.name,
            count: self.count,
            about: sentences::about_feed(self),
            budget: &self.budget,
            fitted: self.fitted.as_ref().map(FittedLine::of),
            absent: limits
                .iter()
                .map(|limit| self.absent.figure(limit.limit).filter(|_| limit.bound.is_some()))
                .collect(),
            facts: sentences::feed_facts(self),
            defaults: &self.defaults,
            warnings: &self.warnings,
        }
    }
}

impl Line<'_> {
    /// The part fitted, where it is named.
    pub(super) fn part(&self) -> Option<&str> {
        self.fitted?.part
    }

    /// Whether the line passes: where a capacitance is fitted, it keeps every limit and fails no check; where none is,
    /// the line needs no protector to keep its limits.
    pub(super) fn passes(&self) -> bool {
        match &self.fitted {
            Some(fitted) => fitted.holds && fitted.checks.iter().all(|check| check.verdict != "fails"),
            None => !matches!(self.budget.verdict, "impossible" | "window"),
        }
    }
}
