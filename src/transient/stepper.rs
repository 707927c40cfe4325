//! A circuit from one instant to the next.

use super::circuit::Circuit;
use super::conductor::State;
use super::delayed::Delayed;
use super::pieces::{Ports, Solver};
use super::tree::Factors;
use crate::units::Volt;

/// What a circuit remembers between two steps.
#[derive(Debug, Clone, Default)]
pub(super) struct Memory {
    pub(super) t: f64,
    /// Voltage of every node.
    pub(super) volts: Vec<f64>,
    /// Current of every shunt, and of every series branch from its first node to its second.
    pub(super) shunts: Vec<f64>,
    pub(super) series: Vec<f64>,
    /// State, voltage and current of every conductor.
    pub(super) states: Vec<State>,
    pub(super) across: Vec<f64>,
    pub(super) through: Vec<f64>,
}

impl Memory {
    fn at_rest(circuit: &Circuit, level: Volt) -> Memory {
        let mut states: Vec<State> =
            circuit.conductors.iter().map(|(_, conductor)| State::off(conductor, 0.0)).collect();
        if let Some(limiter) = states.first_mut() {
            limiter.lift = level.0;
        }
        Memory {
            t: 0.0,
            volts: vec![0.0; circuit.nodes],
            shunts: vec![0.0; circuit.shunts.len()],
            series: vec![0.0; circuit.series.len()],
            states,
            across: vec![0.0; circuit.conductors.len()],
            through: vec![0.0; circuit.conductors.len()],
        }
    }
}

/// A circuit in time.
#[derive(Debug)]
pub(super) struct Stepper<'a> {
    circuit: &'a Circuit,
    pub(super) now: Memory,
    /// The end of the step that is taken, until it is accepted.
    next: Memory,
    pub(super) delayed: Delayed,
    arrived: Vec<[f64; 2]>,
    solver: Solver,
    /// Whether every step has had a solution.
    pub(super) solved: bool,
    /// A voltage that no passive circuit reaches.
    beyond: f64,
}

/// That voltage over the level of the discharge.
const BEYOND: f64 = 1e6;

impl<'a> Stepper<'a> {
    /// At rest, before a discharge of this level; with the room of a run before it, where there was one.
    pub(super) fn new(circuit: &'a Circuit, level: Volt, room: Option<Delayed>) -> Stepper<'a> {
        let now = Memory::at_rest(circuit, level);
        Stepper {
            circuit,
            next: now.clone(),
            now,
            delayed: Delayed::new(circuit.lines.len(), room),
            arrived: vec![[0.0; 2]; circuit.lines.len()],
            solver: Solver::default(),
            solved: true,
            beyond: BEYOND * level.0,
        }
    }

    /// Tries one step, with `source` amperes into the first node at its end.
    pub(super) fn step(&mut self, factors: &Factors, source: impl Fn(f64) -> f64) {
        let (now, next) = (&self.now, &mut self.next);
        next.t = now.t + factors.step;
        let into = &mut next.volts;
        into.fill(0.0);
        into[0] = source(next.t);

        // What each element holds, as a current into its nodes; beside it until the step is done.
        for (((node, companion), current), held) in factors.shunts.iter().zip(&now.shunts).zip(&mut next.shunts) {
            *held = companion.held(now.volts[*node], *current);
            into[*node] += *held;
        }
        for (((a, b, companion), current), held) in factors.series.iter().zip(&now.series).zip(&mut next.series) {
            *held = companion.held(now.volts[*a] - now.volts[*b], *current);
            into[*a] += *held;
            into[*b] -= *held;
        }
        for ((k, reach), arrived) in factors.reaches.iter().enumerate().zip(&mut self.arrived) {
            *arrived = self.delayed.arrive(k, reach, next.t);
            into[reach.ends[0]] += arrived[0] * reach.admittance;
            into[reach.ends[1]] += arrived[1] * reach.admittance;
        }
        factors.solve(into);
        self.conduct(factors);
        let next = &mut self.next;
        for ((node, companion), current) in factors.shunts.iter().zip(&mut next.shunts) {
            *current = companion.g * next.volts[*node] - *current;
        }
        for ((a, b, companion), current) in factors.series.iter().zip(&mut next.series) {
            *current = companion.g * (next.volts[*a] - next.volts[*b]) - *current;
        }
    }

    /// Lets the conductors draw their currents.
    fn conduct(&mut self, factors: &Factors) {
        let (next, conductors) = (&mut self.next, &self.circuit.conductors);
        next.states.copy_from_slice(&self.now.states);
        next.across.copy_from_slice(&self.now.across);
        for ((state, (node, conductor)), open) in next.states.iter_mut().zip(conductors).zip(&mut next.through) {
            state.settle(conductor, next.t);
            *open = next.volts[*node];
        }
        let ports = Ports { conductors, z: &factors.z, step: factors.step };
        self.solved &= self.solver.solve(&ports, &mut next.states, &next.through, &mut next.across);
        next.through.fill(0.0);
        for (k, current) in self.solver.currents() {
            next.through[k] = current;
            factors.draw(&mut next.volts, k, current);
        }
    }

    /// Whether the step just tried is no longer one of numbers that mean something.
    pub(super) fn lost(&self) -> bool {
        !self.next.volts.iter().all(|volts| volts.abs() <= self.beyond)
    }

    /// Goes on from the end of the step just tried.
    pub(super) fn accept(&mut self, factors: &Factors) {
        std::mem::swap(&mut self.now, &mut self.next);
        self.delayed.step(self.now.t, factors.step);
        for (k, (reach, arrived)) in factors.reaches.iter().zip(&self.arrived).enumerate() {
            let ends = reach.ends;
            let arrived = reach.arrived(*arrived, ends.map(|end| self.now.volts[end]));
            let leaves = |end: usize| 2.0 * self.now.volts[ends[end]] - arrived[end];
            self.delayed.leave(k, [leaves(0), leaves(1)]);
        }
    }

    /// Turns conductors on and off at the end of a step. Whether one was switched.
    pub(super) fn switch(&mut self) -> bool {
        let now = &mut self.now;
        let mut switched = false;
        for (k, (_, conductor)) in self.circuit.conductors.iter().enumerate() {
            if now.states[k].switch(conductor, now.t, now.across[k], now.through[k]) {
                switched = true;
            }
        }
        switched
    }

    /// Whether one turns on during the step just tried.
    pub(super) fn triggers(&self) -> bool {
        let states = self.circuit.conductors.iter().zip(&self.next.states).zip(&self.next.across);
        let mut triggered =
            states.map(|(((_, conductor), state), volts)| state.on.is_none() && conductor.triggers(*volts));
        triggered.any(|triggers| triggers)
    }

    /// Whether a conductor conducts in the direction of the strike.
    pub(super) fn conducts(&self, conductor: usize) -> bool {
        self.now.states[conductor].conducts(&self.circuit.conductors[conductor].1, self.now.through[conductor])
    }
}
