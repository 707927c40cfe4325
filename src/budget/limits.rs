//! One limit of a lane: the set it allows and the distance to it.
//!
//! A loss is exact at one frequency or over a mask; the limits of the time domain are in [`super::timed`].

use super::mask::Mask;
use super::{Fault, Inequality, IntervalSet, timed};
use crate::model::{Bound, Lane, Limit, LimitKind, LossKind};
use crate::network::{Chain, ChainPoint};
use crate::response::{Case, LaneTime};
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
    fn new(inequality: &Inequality, probe: Case, holds: bool, at: Option<Hertz>) -> Self {
        let (kind, bound) = (inequality.kind().into(), inequality.level());
        Self::of(kind, bound, inequality.value(probe), holds, at)
    }

    /// Value against bound.
    pub(super) fn of(kind: LimitKind, bound: f64, value: Option<f64>, holds: bool, at: Option<Hertz>) -> Self {
        let distance = |v: f64| if kind.is_floor() { v - bound } else { bound - v };
        // The verdict is the exact set's: round-off of the metric may not contradict it.
        let sided = |margin: f64| if holds { margin.max(0.0) } else { margin.min(0.0) };
        Headroom { limit: kind, value, bound, margin: value.map(distance).map(sided), holds, at }
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

    /// Judges a limit.
    pub(super) fn new(limit: &Limit, circuit: &mut Circuit<'_>, fitted: Option<Farad>) -> Result<Self, Fault> {
        match (&limit.bound, limit.kind.loss()) {
            (Bound::Level(level), Some(loss)) => Ok(Self::at_nyquist(loss, *level, circuit.nyquist, fitted)),
            (Bound::Mask(points), Some(loss)) => {
                Self::over_mask(&Mask::solve(circuit.chain, loss, points)?, limit.kind, fitted)
            }
            (Bound::Level(level), None) => timed::judge(limit.kind, *level, circuit, fitted),
            // The sheet has masks for losses alone.
            (Bound::Mask(_), None) => timed::judge(limit.kind, 0.0, circuit, fitted),
        }
    }

    fn at_nyquist(kind: LossKind, level: f64, nyquist: &ChainPoint, fitted: Option<Farad>) -> Self {
        let inequality = Inequality::new(kind, level, nyquist);
        let allowed = IntervalSet::from(inequality.allowed().intervals());
        let at = |c: f64| Headroom::new(&inequality, Case::With(c), allowed.contains(c), None);
        LimitOutcome {
            kind: kind.into(),
            capacitance: first_end(&allowed),
            at: None,
            ends_at: Vec::new(),
            absent: Headroom::new(&inequality, Case::Absent, inequality.holds_absent(), None),
            at_zero: at(0.0),
            fitted: fitted.map(|c| at(c.0)),
            allowed,
        }
    }

    pub(super) fn over_mask(mask: &Mask, kind: LimitKind, fitted: Option<Farad>) -> Result<Self, Fault> {
        let allowed = mask.allowed();
        let at = |c: f64| -> Result<_, Fault> {
            let worst = mask.worst(Case::With(c))?;
            Ok(worst
                .map(|s| Headroom::new(&s.inequality, Case::With(c), allowed.contains(c), Some(Hertz(s.frequency)))))
        };
        let absent = mask
            .worst(Case::Absent)?
            .map(|s| Headroom::new(&s.inequality, Case::Absent, mask.holds_absent(&s), Some(Hertz(s.frequency))));
        // A mask has at least one point, so the stand-in is never seen.
        let silent = Headroom { limit: kind, value: None, bound: 0.0, margin: None, holds: true, at: None };
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
pub(super) fn allowed(limit: &Limit, circuit: &mut Circuit<'_>) -> Result<IntervalSet, Fault> {
    match (&limit.bound, limit.kind.loss()) {
        (Bound::Level(level), Some(loss)) => {
            Ok(IntervalSet::from(Inequality::new(loss, *level, circuit.nyquist).allowed().intervals()))
        }
        (Bound::Mask(points), Some(loss)) => Ok(Mask::solve(circuit.chain, loss, points)?.allowed().clone()),
        (Bound::Level(level), None) => timed::allowed(limit.kind, *level, circuit),
        (Bound::Mask(_), None) => Ok(IntervalSet::all()),
    }
}

/// The circuit that limits are asked about.
pub(super) struct Circuit<'a> {
    pub(super) lane: &'a Lane,
    pub(super) chain: &'a Chain,
    pub(super) nyquist: &'a ChainPoint,
    time: Option<LaneTime>,
}

impl<'a> Circuit<'a> {
    pub(super) fn new(lane: &'a Lane, chain: &'a Chain, nyquist: &'a ChainPoint) -> Self {
        Circuit { lane, chain, nyquist, time: None }
    }

    /// The time domain, made when it is first asked for.
    pub(super) fn time(&mut self) -> &mut LaneTime {
        self.time.get_or_insert_with(|| LaneTime::new(self.lane, self.chain))
    }
}

/// Upper end of the lowest interval, where it is not open.
pub(super) fn first_end(allowed: &IntervalSet) -> Option<Farad> {
    allowed.lowest().map(|i| i.high).filter(|high| high.is_finite()).map(Farad)
}
