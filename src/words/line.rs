//! What every kind of line has to show, whatever it is measured in.

use super::sentences;
use crate::result::{Budget, Check, FeedReport, Fitted, Headroom, LaneReport, Note};

/// A lane or a feed as tables and sentences see it.
#[derive(Debug, Clone)]
pub(crate) struct Line<'a> {
    pub(crate) name: &'a str,
    pub(crate) count: u32,
    /// What it is, in a sentence.
    pub(crate) about: String,
    pub(crate) budget: &'a Budget,
    pub(crate) fitted: Option<FittedLine<'a>>,
    /// The figure of each limit without protector, where it is known where the limit stands.
    pub(crate) absent: Vec<Option<f64>>,
    /// Further sentences.
    pub(crate) facts: Vec<String>,
    pub(crate) defaults: &'a [Note],
    pub(crate) warnings: &'a [Note],
}

/// What is fitted to a line.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FittedLine<'a> {
    pub(crate) capacitance_f: f64,
    pub(crate) holds: bool,
    pub(crate) headroom: &'a [Headroom],
    pub(crate) part: Option<&'a str>,
    pub(crate) checks: &'a [Check],
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
    pub(crate) fn line(&self) -> Line<'_> {
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
    pub(crate) fn line(&self) -> Line<'_> {
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
    pub(crate) fn part(&self) -> Option<&str> {
        self.fitted?.part
    }

    /// Whether the line passes: where a capacitance is fitted, it keeps every limit and fails no check; where none is,
    /// the line needs no protector to keep its limits.
    pub(crate) fn passes(&self) -> bool {
        match &self.fitted {
            Some(fitted) => fitted.holds && fitted.checks.iter().all(|check| check.verdict != "fails"),
            None => !matches!(self.budget.verdict, "impossible" | "window"),
        }
    }
}
