//! One discharge through a circuit, from its start to the end of the window.

use super::circuit::Circuit;
use super::seen::{Outcome, Seen, Strike, Trace};
use super::source::{Tabled, WINDOW};
use super::stepper::{Rule, Stepper};
use super::tree::{Factors, Order};
use crate::units::Second;

/// Steps of backward Euler after a switching; with one the residue rings on into false releases.
const AFTER_SWITCHING: u32 = 6;
/// How long steps stay at their finest from the start, and after a switching.
const FINE_AT_START: f64 = 5e-9;
const FINE_AFTER_SWITCHING: f64 = 1e-9;
/// The longest step, and how many steps of one length there are at least before they double.
const LONGEST: f64 = 50e-12;
const BEFORE_DOUBLING: f64 = 100.0;
/// A circuit made ready for discharges of any level.
#[derive(Debug)]
pub struct Bench<'a> {
    circuit: &'a Circuit,
    /// The finest step in second, and the conductances of that step and of those that double it.
    finest: f64,
    factors: Vec<Factors>,
    snaps: bool,
}

impl<'a> Bench<'a> {
    /// With this finest step; `None` for a circuit whose series branches form a loop.
    pub fn new(circuit: &'a Circuit, finest: Second) -> Option<Bench<'a>> {
        let order = Order::of(circuit)?;
        let longest = circuit.lines.iter().map(|line| line.delay).fold(LONGEST, f64::min);
        let mut factors = vec![Factors::new(circuit, &order, finest.0 / 2.0)];
        let mut step = 2.0 * finest.0;
        while step <= longest {
            factors.push(Factors::new(circuit, &order, step / 2.0));
            step *= 2.0;
        }
        let snaps = circuit.conductors.iter().any(|(_, conductor)| conductor.snap.is_some());
        Some(Bench { circuit, finest: finest.0, factors, snaps })
    }

    /// The discharge, and every step of it where a `trace` is wanted.
    pub fn run(&self, strike: &Strike, mut trace: Option<&mut Trace>) -> Outcome {
        let table = Tabled::per_volt();
        let source = |t: f64| strike.level.0 * table.at(t);
        let mut stepper = Stepper::new(self.circuit, strike.level);
        let mut seen = Seen::new(self.circuit, strike);
        let (mut fine_until, mut settling) = (FINE_AT_START, 0);
        while stepper.now.t < WINDOW.0 {
            let coarse = if settling > 0 { 0 } else { self.coarse(stepper.now.t - fine_until) };
            let rule = if settling > 0 { Rule::BackwardEuler } else { Rule::Trapezoidal };
            if coarse > 0 && self.snaps {
                stepper.keep();
                stepper.step(&self.factors[coarse], rule, source);
                if stepper.triggers() {
                    // Again, in steps that tell the instant.
                    stepper.back();
                    fine_until = stepper.now.t + FINE_AFTER_SWITCHING;
                    continue;
                }
            } else {
                stepper.step(&self.factors[coarse], rule, source);
            }
            settling = if stepper.switch() {
                fine_until = fine_until.max(stepper.now.t + FINE_AFTER_SWITCHING);
                AFTER_SWITCHING
            } else {
                u32::saturating_sub(settling, 1)
            };
            seen.look(&stepper.now, trace.as_deref_mut());
        }
        seen.outcome(stepper.solved)
    }

    /// Whether a part turns on in this discharge.
    pub(super) fn turns_on(&self, strike: &Strike, part: usize) -> bool {
        self.run(strike, None).parts[part].on_at.is_some()
    }

    /// How often the finest step is doubled, so long after it was last wanted.
    fn coarse(&self, since: f64) -> usize {
        let spans = 1.0 + since / (BEFORE_DOUBLING * self.finest);
        (1..self.factors.len()).take_while(|doublings| spans >= f64::from(1u32 << doublings)).count()
    }
}
