//! The budget of a slow bus, in closed form.
//!
//! C_tot = C_wiring + C_inputs + n·C charges through R: every limit bounds C_tot, and each of the n protectors may have
//! its share of what is left.

use std::convert::Infallible;
use std::f64::consts::TAU;

use super::judged::LimitOutcome;
use super::sized::{allowed_by_all, judge_all};
use super::{Bare, Circuit, Interval, IntervalSet, Outcome, size};
use crate::figures::*;
use crate::model::{Bounds, Bus, BusLimit};
use crate::response::Case;
use crate::units::{Farad, Hertz, Ohm, Second};

/// Levels between which a rise time is measured where a limit states none.
pub const RISE_LEVELS: (f64, f64) = (0.1, 0.9);

/// What is measured of a bus at one capacitance. What needs the resistance is `None` where none is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusFigures {
    /// Wiring, inputs and all protectors.
    pub total: Farad,
    /// 10–90 % rise time, ln 9 · R C.
    pub rise: Option<Second>,
    /// R C.
    pub time_constant: Option<Second>,
    /// −3 dB bandwidth, 1/(2π R C); `None` also without any capacitance.
    pub bandwidth: Option<Hertz>,
}

impl Rows for BusFigures {
    const ROWS: &'static [Row<Self>] = &[
        Row(&TOTAL_CAPACITANCE, |f| Some(f.total.0)),
        Row(&BUS_RISE, |f| f.rise.map(|t| t.0)),
        Row(&TIME_CONSTANT, |f| f.time_constant.map(|t| t.0)),
        Row(&BANDWIDTH, |f| f.bandwidth.map(|f| f.0)),
    ];
}

/// Everything the limits of a bus say about the capacitance of one protector.
pub type BusOutcome = Outcome<BusFigures, ()>;

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
/// `None` where the limit needs a resistance that is not stated.
pub fn largest_total(limit: &BusLimit, resistance: Option<Ohm>) -> Option<Farad> {
    match *limit {
        BusLimit::Total(most) => Some(most),
        BusLimit::Rise { most, levels } => Some(Farad(most.0 / (resistance?.0 * levels_factor(levels)))),
        BusLimit::TimeConstant(most) => Some(most / resistance?),
        BusLimit::Bandwidth(least) => Some(Farad(1.0 / (TAU * resistance?.0 * least.0))),
    }
}

fn levels_factor(levels: Option<(f64, f64)>) -> f64 {
    rise_factor(levels.unwrap_or(RISE_LEVELS))
}

/// The figures of a bus whose protectors have `capacitance` each.
pub fn bus_figures(bus: &Bus, capacitance: Farad) -> BusFigures {
    let total = total(bus, capacitance.0);
    let constant = bus.resistance().map(|r| r.0 * total);
    BusFigures {
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
    let Ok(outcome) = size(&mut BusCircuit(bus), &bus.limits, bus.fitted, None);
    outcome
}

/// What each limit of a bus does by itself; `fitted` is judged where a capacitance is.
pub(super) fn judge_bus(bus: &Bus, fitted: Option<Farad>) -> Vec<LimitOutcome> {
    let Ok(judged) = judge_all(&mut BusCircuit(bus), &bus.limits, fitted);
    judged
}

/// Every capacitance that all limits of a bus allow.
pub(super) fn allowed_by_bus(bus: &Bus) -> IntervalSet {
    let Ok(allowed) = allowed_by_all(&mut BusCircuit(bus), &bus.limits);
    allowed
}

/// The circuit that the limits of a bus are asked about.
struct BusCircuit<'a>(&'a Bus);

impl Circuit for BusCircuit<'_> {
    type Limit = BusLimit;
    type Figures = BusFigures;
    type Changes = ();
    type Fault = Infallible;

    fn allowed(&mut self, limit: &BusLimit) -> Result<IntervalSet, Infallible> {
        let Some(largest) = largest_total(limit, self.0.resistance()) else {
            return Ok(IntervalSet::all());
        };
        let share = (largest - self.0.other_capacitance()).0 / f64::from(self.0.nodes);
        let bounded = || IntervalSet::from(&[Interval { low: 0.0, high: share }][..]);
        Ok(if share >= 0.0 { bounded() } else { IntervalSet::none() })
    }

    fn judge(&mut self, limit: &BusLimit, fitted: Option<Farad>) -> Result<LimitOutcome, Infallible> {
        let allowed = self.allowed(limit)?;
        let (stated, holds) = ((limit.figure(), limit.bound().unwrap_or(0.0)), allowed.contains(0.0));
        let value = |case| self.figures(case).map(|figures| bounded(limit, &figures));
        LimitOutcome::by_value(stated, allowed, fitted, value, |_| holds)
    }

    fn figures(&mut self, case: Case) -> Result<BusFigures, Infallible> {
        let capacitance = match case {
            Case::Absent => 0.0,
            Case::With(c) => c,
        };
        Ok(bus_figures(self.0, Farad(capacitance)))
    }

    fn changes(&mut self, _: &BusFigures, _: Farad, _: &BusFigures) -> Result<(), Infallible> {
        Ok(())
    }

    fn bare(&self) -> Bare<Self> {
        Bare::None
    }
}

/// The figure a limit bounds; a rise between the limit's own levels.
pub fn bounded(limit: &BusLimit, figures: &BusFigures) -> Option<f64> {
    match limit {
        BusLimit::Rise { levels, .. } => figures.time_constant.map(|tau| tau.0 * levels_factor(*levels)),
        _ => figures.read(limit.figure()),
    }
}
