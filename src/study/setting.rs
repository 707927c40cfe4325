//! What the limits of a line say at one setting of its values.

use super::fast::Fast;
use super::fault::StudyFault;
use super::values::Varying;
use crate::budget::{Headroom, Interval, IntervalSet, allowed_by_line, judge_line, line_headroom};
use crate::model::{Bounds, Kind, LaneLimit, Line, Over};
use crate::response::Case;
use crate::units::Farad;

/// How long one setting of a line takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Effort {
    /// Its limits have a closed form.
    Exact,
    /// One of them is asked at many frequencies.
    Frequencies,
    /// One of them needs the time domain.
    Time,
}

impl Effort {
    /// That of a line.
    pub(super) fn of(line: &Line) -> Effort {
        let of_limit = |limit: &LaneLimit| match limit {
            limit if limit.figure().is_in_time() => Effort::Time,
            LaneLimit::Loss(_, Over::Mask(_)) => Effort::Frequencies,
            _ => Effort::Exact,
        };
        match &line.kind {
            Kind::Lane(lane) => lane.limits.iter().map(|limit| of_limit(&limit.of)).max().unwrap_or(Effort::Exact),
            Kind::Feed(_) => Effort::Frequencies,
            Kind::Bus(_) | Kind::Rail(_) => Effort::Exact,
        }
    }
}

/// A line whose limits are asked at setting after setting; each thread has its own.
#[derive(Debug, Clone)]
pub(super) struct Asked<'a> {
    pub(super) line: &'a Line,
    pub(super) varying: &'a Varying,
    fast: Option<Fast>,
    values: Vec<f64>,
}

/// What is known at one point of the unit cube.
#[derive(Debug, Clone)]
pub(super) struct Judged {
    pub(super) point: Vec<f64>,
    /// What each limit allows; empty where only the headroom was asked for.
    pub(super) sets: Vec<IntervalSet>,
    /// The distance of what is judged to each limit; empty where nothing is.
    pub(super) headroom: Vec<Headroom>,
}

impl<'a> Asked<'a> {
    pub(super) fn new(line: &'a Line, varying: &'a Varying) -> Self {
        Asked { line, varying, fast: Fast::of(line, varying), values: Vec::new() }
    }

    /// Whether no line is made anew for a setting.
    pub(super) fn is_fast(&self) -> bool {
        self.fast.is_some()
    }

    fn take(&mut self, point: &[f64]) -> bool {
        self.values.clear();
        self.values.extend(self.varying.at(point));
        self.fast.as_mut().is_some_and(|fast| fast.set(&self.values).is_some())
    }

    fn line_here(&self) -> Result<Line, StudyFault> {
        Ok(self.varying.set(self.line, &self.values)?)
    }

    /// What each limit allows, and how far what is fitted lies from it.
    pub(super) fn judge(&mut self, point: &[f64]) -> Result<Judged, StudyFault> {
        let fast = self.take(point);
        if let Some(fast) = self.fast.as_ref().filter(|_| fast) {
            let fitted = fast.fitted(&self.values);
            let sets: Vec<_> =
                fast.limits().iter().map(|limit| IntervalSet::from(limit.allowed().intervals())).collect();
            let of = |c: Farad| {
                let each = fast.limits().iter().zip(&sets);
                each.map(|(limit, set)| Headroom::of(limit, Case::With(c.0), set.contains(c.0), None)).collect()
            };
            let headroom = fitted.map_or_else(Vec::new, of);
            return Ok(Judged { point: point.to_vec(), sets, headroom });
        }
        let judged = judge_line(&self.line_here()?)?;
        let headroom = judged.iter().filter_map(|limit| limit.fitted).collect();
        let sets = judged.into_iter().map(|limit| limit.allowed).collect();
        Ok(Judged { point: point.to_vec(), sets, headroom })
    }

    /// How far `c`, or what is fitted where there is none, lies from each limit, and nothing else.
    pub(super) fn headroom(&mut self, point: &[f64], c: Option<Farad>) -> Result<Judged, StudyFault> {
        self.take(point);
        let line = self.line_here()?;
        let headroom = line_headroom(&line, c.or(line.fitted()).unwrap_or(Farad(0.0)))?;
        Ok(Judged { point: point.to_vec(), sets: Vec::new(), headroom })
    }

    /// Gives `to` what all limits allow, and what is fitted.
    pub(super) fn left<T>(
        &mut self,
        point: &[f64],
        to: impl FnOnce(&[Interval], Option<Farad>) -> T,
    ) -> Result<T, StudyFault> {
        let quick = self.take(point);
        if let Some(fast) = self.fast.as_mut().filter(|_| quick) {
            let fitted = fast.fitted(&self.values);
            return Ok(to(fast.left(), fitted));
        }
        let line = self.line_here()?;
        Ok(to(allowed_by_line(&line)?.intervals(), line.fitted()))
    }
}
