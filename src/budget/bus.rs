//! The budget of a slow bus, in closed form.
//!
//! C_tot = C_wiring + C_inputs + n·C charges through R: every limit bounds C_tot, and each of the n protectors may have
//! its share of what is left.

use std::f64::consts::TAU;

use super::limits::first_end;
use super::{Budget, FittedOutcome, Headroom, Interval, IntervalSet, LimitOutcome};
use crate::model::{Bound, Bus, Limit, LimitKind};
use crate::units::{Farad, Hertz, Ohm, Second};

/// Levels between which a rise time is measured where a limit states none.
pub const RISE_LEVELS: (f64, f64) = (0.1, 0.9);

/// What is measured of a bus at one capacitance. What needs the resistance is `None` where none is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusMetrics {
    /// Wiring, inputs and all protectors.
    pub total: Farad,
    /// 10–90 % rise time, ln 9 · R C.
    pub rise: Option<Second>,
    /// R C.
    pub time_constant: Option<Second>,
    /// −3 dB bandwidth, 1/(2π R C); `None` also without any capacitance.
    pub bandwidth: Option<Hertz>,
}

/// A bus at one capacitance of each protector.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusJudged {
    /// One protector, one line to ground.
    pub capacitance: Farad,
    /// Its figures.
    pub metrics: BusMetrics,
}

/// Everything the limits of a bus say about the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct BusOutcome {
    /// Without protectors.
    pub absent: BusMetrics,
    /// With the capacitance stated.
    pub fitted: Option<FittedOutcome<BusJudged>>,
    /// With the budget, where there is a finite one.
    pub at_budget: Option<BusJudged>,
    /// The budget, of one protector.
    pub budget: Budget,
}

/// The share of R C that a rise between two levels of the step takes: t = R C ln((1 − a)/(1 − b)).
///
/// ```
/// let i2c = lanecap::budget::rise_factor((0.3, 0.7));
/// assert!((i2c - 0.847298).abs() < 1e-6); // ln(7/3)
/// ```
pub fn rise_factor((low, high): (f64, f64)) -> f64 {
    ((1.0 - low) / (1.0 - high)).ln()
}

/// Largest total capacitance of a bus that a limit allows.
///
/// Total capacitance: the bound; rise time t: t/(R ln((1 − a)/(1 − b))); time constant τ: τ/R; bandwidth f: 1/(2π R f).
/// `None` where the limit needs a resistance that is not stated, or bounds no bus.
pub fn largest_total(limit: &Limit, resistance: Option<Ohm>) -> Option<Farad> {
    let Bound::Level(level) = limit.bound else {
        return None;
    };
    let charge = resistance.map(|r| r.0);
    let total = match limit.kind {
        LimitKind::TotalCapacitance => level,
        LimitKind::RiseTime => level / (charge? * rise_factor(limit.levels.unwrap_or(RISE_LEVELS))),
        LimitKind::TimeConstant => level / charge?,
        LimitKind::Bandwidth => 1.0 / (TAU * charge? * level),
        _ => return None,
    };
    Some(Farad(total))
}

/// The figures of a bus whose protectors have `capacitance` each.
pub fn bus_metrics(bus: &Bus, capacitance: Farad) -> BusMetrics {
    let total = total(bus, capacitance.0);
    let constant = bus.resistance().map(|r| r.0 * total);
    BusMetrics {
        total: Farad(total),
        rise: constant.map(|tau| Second(tau * rise_factor(RISE_LEVELS))),
        time_constant: constant.map(Second),
        bandwidth: constant.filter(|tau| *tau > 0.0).map(|tau| Hertz(1.0 / (TAU * tau))),
    }
}

fn total(bus: &Bus, capacitance: f64) -> f64 {
    bus.other_capacitance().0 + f64::from(bus.nodes) * capacitance
}

/// Sizes the protectors of a bus.
pub fn size_bus(bus: &Bus) -> BusOutcome {
    let limits: Vec<LimitOutcome> = bus.limits.iter().map(|limit| judge(bus, limit)).collect();
    let budget = Budget::new(limits, None);
    let at = |capacitance: Farad| BusJudged { capacitance, metrics: bus_metrics(bus, capacitance) };
    BusOutcome {
        absent: bus_metrics(bus, Farad(0.0)),
        fitted: bus.fitted.map(|c| FittedOutcome::new(at(c), &budget.limits)),
        at_budget: budget.capacitance.map(at),
        budget: Budget { without_footprint: None, ..budget },
    }
}

fn judge(bus: &Bus, limit: &Limit) -> LimitOutcome {
    let allowed = match largest_total(limit, bus.resistance()) {
        None => IntervalSet::all(),
        Some(largest) => {
            let share = (largest.0 - bus.other_capacitance().0) / f64::from(bus.nodes);
            match share >= 0.0 {
                true => IntervalSet::from(&[Interval { low: 0.0, high: share }][..]),
                false => IntervalSet::none(),
            }
        }
    };
    let at = |c: f64| {
        let bound = match limit.bound {
            Bound::Level(level) => level,
            Bound::Mask(_) => 0.0,
        };
        Headroom::of(limit.kind, bound, metric(bus, limit, c), allowed.contains(c), None)
    };
    LimitOutcome {
        kind: limit.kind,
        capacitance: first_end(&allowed),
        at: None,
        ends_at: Vec::new(),
        absent: at(0.0),
        at_zero: at(0.0),
        fitted: bus.fitted.map(|c| at(c.0)),
        allowed,
    }
}

/// The figure a limit bounds; a rise between the limit's own levels.
fn metric(bus: &Bus, limit: &Limit, capacitance: f64) -> Option<f64> {
    let metrics = bus_metrics(bus, Farad(capacitance));
    match limit.kind {
        LimitKind::TotalCapacitance => Some(metrics.total.0),
        LimitKind::RiseTime => {
            let factor = rise_factor(limit.levels.unwrap_or(RISE_LEVELS));
            metrics.time_constant.map(|tau| tau.0 * factor)
        }
        LimitKind::TimeConstant => metrics.time_constant.map(|tau| tau.0),
        LimitKind::Bandwidth => metrics.bandwidth.map(|f| f.0),
        _ => None,
    }
}
