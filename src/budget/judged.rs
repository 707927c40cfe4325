//! One limit of a line: the set it allows and the distance to it.

use super::over_mask::OverMask;
use super::{Fault, Inequality, IntervalSet};
use crate::figures::Figure;
use crate::response::Case;
use crate::units::{Farad, Hertz};

/// Distance to one limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Headroom {
    /// What is bounded.
    pub figure: &'static Figure,
    /// The figure in SI; `None` where it is infinite: a perfect match, or nothing that passes.
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
    /// Value against bound.
    pub(super) fn new(figure: &'static Figure, bound: f64, value: Option<f64>, holds: bool, at: Option<Hertz>) -> Self {
        // The verdict is the exact set's: round-off of the value may not contradict it.
        let sided = |margin: f64| if holds { margin.max(0.0) } else { margin.min(0.0) };
        let margin = value.map(|value| figure.sense().margin(value, bound)).map(sided);
        Headroom { figure, value, bound, margin, holds, at }
    }

    /// The distance to a limit at one frequency, `at` where it is one of a mask.
    pub fn of(inequality: &Inequality, probe: Case, holds: bool, at: Option<Hertz>) -> Self {
        Self::new(inequality.figure(), inequality.level(), inequality.value(probe), holds, at)
    }
}

/// What one limit does by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitOutcome {
    /// What is bounded.
    pub figure: &'static Figure,
    /// The capacitances it allows.
    pub allowed: IntervalSet,
    /// Upper end of its lowest interval; `None` where open or empty.
    pub capacitance: Option<Farad>,
    /// For a mask, the frequency that binds that end.
    pub at: Option<Hertz>,
    /// For a mask, the frequency that binds the upper end of each interval; empty for one bound.
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

    /// A limit at one frequency.
    pub(super) fn at_one(inequality: &Inequality, fitted: Option<Farad>) -> Self {
        let allowed = IntervalSet::from(inequality.allowed().intervals());
        let at = |c: f64| Headroom::of(inequality, Case::With(c), allowed.contains(c), None);
        LimitOutcome {
            figure: inequality.figure(),
            capacitance: first_end(&allowed),
            at: None,
            ends_at: Vec::new(),
            absent: Headroom::of(inequality, Case::Absent, inequality.holds_absent(), None),
            at_zero: at(0.0),
            fitted: fitted.map(|c| at(c.0)),
            allowed,
        }
    }

    /// A limit over a mask.
    pub(super) fn over_mask(mask: &OverMask, fitted: Option<Farad>) -> Result<Self, Fault> {
        let allowed = mask.allowed();
        let at = |c: f64| {
            let worst = mask.worst(Case::With(c))?;
            let at = Some(Hertz(worst.frequency));
            Ok::<_, Fault>(Headroom::of(&worst.inequality, Case::With(c), allowed.contains(c), at))
        };
        let worst = mask.worst(Case::Absent)?;
        let holds = mask.holds_absent(&worst);
        let absent = Headroom::of(&worst.inequality, Case::Absent, holds, Some(Hertz(worst.frequency)));
        let capacitance = first_end(allowed);
        let ends_at: Vec<_> = allowed.intervals().iter().map(|i| mask.binding(i.high)).collect();
        Ok(LimitOutcome {
            figure: absent.figure,
            capacitance,
            at: capacitance.and(ends_at.first().copied().flatten()),
            ends_at,
            absent,
            at_zero: at(0.0)?,
            fitted: fitted.map(|c| at(c.0)).transpose()?,
            allowed: allowed.clone(),
        })
    }

    /// A limit on a figure that is known at any capacitance. `holds_absent` judges it without a protector.
    pub(super) fn by_value<E>(
        (figure, bound): (&'static Figure, f64),
        allowed: IntervalSet,
        fitted: Option<Farad>,
        mut value: impl FnMut(Case) -> Result<Option<f64>, E>,
        holds_absent: impl FnOnce(Option<f64>) -> bool,
    ) -> Result<Self, E> {
        let mut at = |c: f64| {
            let value = value(Case::With(c))?;
            Ok::<_, E>(Headroom::new(figure, bound, value, allowed.contains(c), None))
        };
        let at_zero = at(0.0)?;
        let fitted = fitted.map(|c| at(c.0)).transpose()?;
        let absent = value(Case::Absent)?;
        Ok(LimitOutcome {
            figure,
            capacitance: first_end(&allowed),
            at: None,
            ends_at: Vec::new(),
            absent: Headroom::new(figure, bound, absent, holds_absent(absent), None),
            at_zero,
            fitted,
            allowed,
        })
    }
}

/// Upper end of the lowest interval, where it is not open.
pub(super) fn first_end(allowed: &IntervalSet) -> Option<Farad> {
    allowed.lowest().map(|i| i.high).filter(|high| high.is_finite()).map(Farad)
}
