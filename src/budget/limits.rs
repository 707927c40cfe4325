//! One limit of a lane: the set it allows and the distance to it.
//!
//! A limit without a closed form joins here as a further way to make a set.

use super::inequality::Probe;
use super::mask::Mask;
use super::{Fault, Inequality, IntervalSet};
use crate::model::{Bound, Limit, LimitKind};
use crate::network::{Chain, ChainPoint};
use crate::units::{Farad, Hertz};

/// Distance to one limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Headroom {
    /// What is bounded.
    pub limit: LimitKind,
    /// The metric in the limit's unit; `None` where it is infinite: a perfect match, or nothing that passes.
    pub value: Option<f64>,
    /// The bound, in the same unit.
    pub bound: f64,
    /// The distance, positive where the limit holds; `None` with the value.
    pub margin: Option<f64>,
    /// Whether the limit holds.
    pub holds: bool,
    /// For a mask, the frequency where the distance is least: value and bound stand there.
    pub at: Option<Hertz>,
}

impl Headroom {
    fn new(inequality: &Inequality, probe: Probe, holds: bool, at: Option<Hertz>) -> Self {
        let (kind, bound) = (inequality.kind(), inequality.level());
        let value = inequality.value(probe);
        let distance = |v: f64| if kind.is_floor() { v - bound } else { bound - v };
        // The verdict is the exact set's: round-off of the metric may not contradict it.
        let sided = |margin: f64| if holds { margin.max(0.0) } else { margin.min(0.0) };
        Headroom {
            limit: kind,
            value,
            bound,
            margin: value.map(distance).map(sided),
            holds,
            at,
        }
    }
}

/// What one limit does by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitOutcome {
    /// What is bounded.
    pub kind: LimitKind,
    /// The capacitances it allows.
    pub allowed: IntervalSet,
    /// Upper end of its lowest interval; `None` where open or empty.
    pub capacitance: Option<Farad>,
    /// For a mask, the frequency that binds that end.
    pub at: Option<Hertz>,
    /// For a mask, the frequency that binds the upper end of each interval; empty for a limit at Nyquist.
    pub ends_at: Vec<Option<Hertz>>,
    /// Distance with the protector absent.
    pub absent: Headroom,
    /// Distance with the empty footprint, C = 0.
    pub at_zero: Headroom,
    /// Distance with the fitted capacitance.
    pub fitted: Option<Headroom>,
}

impl LimitOutcome {
    /// Whether the limit holds with the protector absent.
    pub fn holds_absent(&self) -> bool {
        self.absent.holds
    }

    /// Whether the limit holds with the empty footprint.
    pub fn holds_at_zero(&self) -> bool {
        self.at_zero.holds
    }

    /// Judges a limit; `nyquist` is the chain at the Nyquist frequency.
    pub(super) fn new(
        limit: &Limit,
        chain: &Chain,
        nyquist: &ChainPoint,
        fitted: Option<Farad>,
    ) -> Result<Self, Fault> {
        match &limit.bound {
            Bound::AtNyquist(level) => Ok(Self::at_nyquist(limit.kind, *level, nyquist, fitted)),
            Bound::Mask(points) => Self::over_mask(&Mask::solve(chain, limit.kind, points)?, limit.kind, fitted),
        }
    }

    fn at_nyquist(kind: LimitKind, level: f64, nyquist: &ChainPoint, fitted: Option<Farad>) -> Self {
        let inequality = Inequality::new(kind, level, nyquist);
        let allowed = IntervalSet::from(inequality.allowed().intervals());
        let at = |c: f64| Headroom::new(&inequality, Probe::Fitted(c), allowed.contains(c), None);
        LimitOutcome {
            kind,
            capacitance: first_end(&allowed),
            at: None,
            ends_at: Vec::new(),
            absent: Headroom::new(&inequality, Probe::Absent, inequality.holds_absent(), None),
            at_zero: at(0.0),
            fitted: fitted.map(|c| at(c.0)),
            allowed,
        }
    }

    fn over_mask(mask: &Mask, kind: LimitKind, fitted: Option<Farad>) -> Result<Self, Fault> {
        let allowed = mask.allowed();
        let at = |c: f64| {
            let worst = mask.worst(Probe::Fitted(c))?;
            Ok(worst.map(|s| {
                Headroom::new(
                    &s.inequality,
                    Probe::Fitted(c),
                    allowed.contains(c),
                    Some(Hertz(s.frequency)),
                )
            }))
        };
        let absent = mask.worst(Probe::Absent)?.map(|s| {
            Headroom::new(
                &s.inequality,
                Probe::Absent,
                mask.holds_absent(&s),
                Some(Hertz(s.frequency)),
            )
        });
        // A mask has at least one point, so the stand-in is never seen.
        let silent = Headroom {
            limit: kind,
            value: None,
            bound: 0.0,
            margin: None,
            holds: true,
            at: None,
        };
        let capacitance = first_end(allowed);
        let ends_at: Vec<_> = allowed.intervals().iter().map(|i| mask.binding(i.high)).collect();
        Ok(LimitOutcome {
            kind,
            capacitance,
            at: capacitance.and(ends_at.first().copied().flatten()),
            ends_at,
            absent: absent.unwrap_or(silent),
            at_zero: at(0.0)?.unwrap_or(silent),
            fitted: fitted.map(|c| at(c.0)).transpose()?.flatten(),
            allowed: allowed.clone(),
        })
    }
}

/// The set a limit allows, and nothing else.
pub(super) fn allowed(limit: &Limit, chain: &Chain, nyquist: &ChainPoint) -> Result<IntervalSet, Fault> {
    match &limit.bound {
        Bound::AtNyquist(level) => Ok(IntervalSet::from(
            Inequality::new(limit.kind, *level, nyquist).allowed().intervals(),
        )),
        Bound::Mask(points) => Ok(Mask::solve(chain, limit.kind, points)?.allowed().clone()),
    }
}

/// Upper end of the lowest interval, where it is not open.
pub(super) fn first_end(allowed: &IntervalSet) -> Option<Farad> {
    allowed
        .lowest()
        .map(|i| i.high)
        .filter(|high| high.is_finite())
        .map(Farad)
}
