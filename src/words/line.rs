//! What every line with limits has to show, whatever it is measured in.

use super::about::Described;
use crate::budget::{Budget, Headroom, LimitOutcome};
use crate::parts::Check;
use crate::result::{LineHead, LineResult, Sizes, Stated};

/// A lane, a feed or a bus as tables and sentences see it.
#[derive(Debug, Clone)]
pub(crate) struct Line<'a> {
    pub(crate) head: &'a LineHead,
    /// What it is, in a sentence.
    pub(crate) about: String,
    /// Further sentences.
    pub(crate) facts: Vec<String>,
    /// Height of the worst-pattern eye absent, where it is known.
    pub(crate) eye_height: Option<f64>,
    pub(crate) budget: &'a Budget,
    limits: &'a [Stated],
    pub(crate) fitted: Option<FittedLine<'a>>,
    pub(crate) passes: bool,
}

/// What is fitted to a line.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FittedLine<'a> {
    pub(crate) capacitance: f64,
    pub(crate) holds: bool,
    pub(crate) headroom: &'a [Headroom],
    pub(crate) part: Option<&'a str>,
    pub(crate) checks: &'a [Check],
}

impl<'a> Line<'a> {
    pub(crate) fn of<A, O: Sizes>(result: &'a LineResult<A, O>) -> Line<'a>
    where
        LineResult<A, O>: Described,
    {
        let LineResult { head, limits, .. } = result;
        let fitted = result.fitted().map(|fitted| FittedLine {
            capacitance: fitted.at.capacitance.0,
            holds: fitted.holds,
            headroom: &fitted.headroom,
            part: head.part.as_deref(),
            checks: &head.checks,
        });
        Line {
            head,
            about: result.about(),
            facts: result.facts(),
            eye_height: result.eye_height(),
            budget: result.budget(),
            limits,
            fitted,
            passes: result.passes(),
        }
    }

    /// Each limit as stated, with what it does by itself.
    pub(crate) fn limits(&self) -> impl Iterator<Item = (&'a Stated, &'a LimitOutcome)> + use<'a> {
        self.limits.iter().zip(&self.budget.limits)
    }

    /// The distance of what is fitted to each limit.
    pub(crate) fn headroom(&self) -> &'a [Headroom] {
        self.fitted.map_or(&[], |fitted| fitted.headroom)
    }

    /// The checks of the part fitted.
    pub(crate) fn checks(&self) -> &'a [Check] {
        self.fitted.map_or(&[], |fitted| fitted.checks)
    }
}
