//! One discharge through a circuit, from its start to the end of the window.

use std::cell::RefCell;

use super::circuit::Circuit;
use super::delayed::Delayed;
use super::seen::{Outcome, Seen, Strike, Trace};
use super::source::{Tabled, WINDOW};
use super::stepper::Stepper;
use super::tree::{Factors, Order, Rule};
use crate::units::Second;

/// Steps of backward Euler after a switching; with one the residue rings on into false releases.
const AFTER_SWITCHING: u32 = 6;
/// How long steps stay at their finest from the start, and after a switching.
const FINE_AT_START: f64 = 5e-9;
const FINE_AFTER_SWITCHING: f64 = 1e-9;
/// The longest step over the finest one, so that both are halved together, and how many steps of one length there are at
/// least before they double.
const LONGEST: f64 = 64.0;
const BEFORE_DOUBLING: f64 = 100.0;

/// A circuit made ready for discharges of any level.
#[derive(Debug)]
pub struct Bench<'a> {
    circuit: &'a Circuit,
    /// The finest step in second.
    finest: f64,
    /// The conductances of that step and of those that double it, and of the steps after a switching.
    factors: Vec<Factors>,
    settling: Factors,
    snaps: bool,
    /// The room of the last run, for the next one.
    room: RefCell<Option<Delayed>>,
}

impl<'a> Bench<'a> {
    /// With this finest step; `None` for a circuit whose series branches form a loop.
    pub fn new(circuit: &'a Circuit, finest: Second) -> Option<Bench<'a>> {
        // Lines that close a loop are not stepped over.
        let over = Order::of(circuit, true);
        let shortest = circuit.lines.iter().map(|line| line.delay).fold(f64::INFINITY, f64::min);
        let longest = if over.is_some() { LONGEST * finest.0 } else { shortest.min(LONGEST * finest.0) };
        let order = over.or_else(|| Order::of(circuit, false))?;
        let of = |step: f64, rule| Factors::new(circuit, &order, step / 2.0, rule);
        let mut factors = vec![of(finest.0, Rule::Trapezoidal)];
        let mut step = 2.0 * finest.0;
        while step <= longest {
            factors.push(of(step, Rule::Trapezoidal));
            step *= 2.0;
        }
        let snaps = circuit.conductors.iter().any(|(_, conductor)| conductor.snap.is_some());
        let settling = of(finest.0, Rule::BackwardEuler);
        Some(Bench { circuit, finest: finest.0, factors, settling, snaps, room: RefCell::new(None) })
    }

    /// The discharge, and every step of it where a `trace` is wanted.
    pub fn run(&self, strike: &Strike, mut trace: Option<&mut Trace>) -> Outcome {
        let mut seen = Seen::new(self.circuit, strike);
        let solved = self.follow(strike, |stepper| {
            seen.look(&stepper.now, trace.as_deref_mut());
            true
        });
        seen.outcome(solved)
    }

    /// Whether a part turns on in this discharge.
    pub(super) fn turns_on(&self, strike: &Strike, part: usize) -> bool {
        let conductor = self.circuit.terminals[part].conductor;
        let mut on = false;
        self.follow(strike, |stepper| {
            on = stepper.conducts(conductor);
            !on
        });
        on
    }

    /// Step by step, as long as `goes_on` says so at its end. Whether every step had a solution.
    fn follow(&self, strike: &Strike, mut goes_on: impl FnMut(&Stepper) -> bool) -> bool {
        let table = Tabled::per_volt();
        let source = |t: f64| strike.level.0 * table.at(t);
        let mut stepper = Stepper::new(self.circuit, strike.level, self.room.take());
        let (mut fine_until, mut settling) = (FINE_AT_START, 0);
        let window = strike.arrives.0 + WINDOW.0;
        while stepper.now.t < window {
            let coarse = if settling > 0 { 0 } else { self.coarse(stepper.now.t - fine_until) };
            let factors = if settling > 0 { &self.settling } else { &self.factors[coarse] };
            stepper.step(factors, source);
            if stepper.lost() {
                return false;
            }
            if coarse > 0 && self.snaps && stepper.triggers() {
                // Again, in steps that tell the instant.
                fine_until = stepper.now.t + FINE_AFTER_SWITCHING;
                continue;
            }
            stepper.accept(factors);
            settling = if stepper.switch() {
                fine_until = fine_until.max(stepper.now.t + FINE_AFTER_SWITCHING);
                AFTER_SWITCHING
            } else {
                u32::saturating_sub(settling, 1)
            };
            if !goes_on(&stepper) {
                break;
            }
        }
        let solved = stepper.solved;
        self.room.replace(Some(stepper.delayed));
        solved
    }

    /// How often the finest step is doubled, so long after it was last wanted.
    fn coarse(&self, since: f64) -> usize {
        let spans = (1.0 + since / (BEFORE_DOUBLING * self.finest)).max(1.0);
        ((spans as u32).ilog2() as usize).min(self.factors.len() - 1)
    }
}
