//! A circuit from one instant to the next.

use super::circuit::{Circuit, Line, Series, Shunt};
use super::conductor::State;
use super::delayed::Delayed;
use super::pieces::{Ports, Solver};
use super::tree::Factors;
use crate::units::Volt;

/// How a step is taken; both have the conductances of one [`Factors`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rule {
    /// The trapezoidal rule over a whole step.
    Trapezoidal,
    /// Backward Euler over half of it: it does not ring after a switching.
    BackwardEuler,
}

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
            circuit.conductors.iter().map(|(_, conductor)| State::at_rest(conductor)).collect();
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
    before: Memory,
    delayed: Delayed,
    arrived: Vec<[f64; 2]>,
    into: Vec<f64>,
    beside: Vec<f64>,
    solver: Solver,
    steps: usize,
    /// Whether every step has had a solution.
    pub(super) solved: bool,
}

impl<'a> Stepper<'a> {
    /// At rest, before a discharge of this level.
    pub(super) fn new(circuit: &'a Circuit, level: Volt) -> Stepper<'a> {
        let mut delayed = Delayed::default();
        delayed.begin(circuit.lines.len());
        Stepper {
            circuit,
            now: Memory::at_rest(circuit, level),
            before: Memory::default(),
            delayed,
            arrived: vec![[0.0; 2]; circuit.lines.len()],
            into: vec![0.0; circuit.nodes],
            beside: vec![0.0; circuit.series.len()],
            solver: Solver::default(),
            steps: 1,
            solved: true,
        }
    }

    /// Keeps this instant, to come back to it.
    pub(super) fn keep(&mut self) {
        self.before.clone_from(&self.now);
    }

    /// Back to the instant that was kept, one step before.
    pub(super) fn back(&mut self) {
        self.now.clone_from(&self.before);
        self.steps -= 1;
        self.delayed.back_to(self.steps);
    }

    /// One step, with `source` amperes into the first node at its end.
    pub(super) fn step(&mut self, factors: &Factors, rule: Rule, source: impl Fn(f64) -> f64) {
        let trapezoidal = rule == Rule::Trapezoidal;
        let circuit = self.circuit;
        let now = &mut self.now;
        now.t += if trapezoidal { 2.0 * factors.half } else { factors.half };
        self.into.fill(0.0);
        self.into[0] = source(now.t);

        // What each element remembers, as a current into its nodes.
        for (((node, shunt), g), current) in circuit.shunts.iter().zip(&factors.shunts).zip(&mut now.shunts) {
            let held = g * now.volts[*node];
            let into = match shunt {
                Shunt::Resistance(_) => 0.0,
                Shunt::Capacitance(_) if trapezoidal => held + *current,
                Shunt::Capacitance(_) => held,
                Shunt::Inductance(_) if trapezoidal => -held - *current,
                Shunt::Inductance(_) => -*current,
            };
            self.into[*node] += into;
            // Until the step is done: what is taken from g·v.
            *current = into;
        }
        for (k, (a, b, series)) in circuit.series.iter().enumerate() {
            let (g, current, drop) = (factors.series[k], now.series[k], now.volts[*a] - now.volts[*b]);
            let beside = match series {
                Series::Choke { resistance, inductance } => {
                    let held = inductance / factors.half * current;
                    g * if trapezoidal { held + drop - resistance * current } else { held }
                }
                Series::Capacitance(_) if trapezoidal => -g * drop - current,
                Series::Capacitance(_) => -g * drop,
            };
            self.into[*a] -= beside;
            self.into[*b] += beside;
            self.beside[k] = beside;
        }
        for (k, line) in circuit.lines.iter().enumerate() {
            let arrived = self.delayed.arrive(k, line, now.t);
            for (end, wave) in line.ends.iter().zip(arrived) {
                self.into[*end] += wave / line.impedance;
            }
            self.arrived[k] = arrived;
        }

        factors.solve(&mut self.into);
        std::mem::swap(&mut self.into, &mut now.volts);
        self.conduct(factors);
        self.remember(factors);
    }

    /// Lets the conductors draw their currents.
    fn conduct(&mut self, factors: &Factors) {
        let (now, conductors) = (&mut self.now, &self.circuit.conductors);
        for (state, (_, conductor)) in now.states.iter_mut().zip(conductors) {
            if conductor.snap.is_some_and(|snap| snap.turn_on.is_some()) {
                state.settle(conductor, now.t);
            }
        }
        now.through.clear();
        now.through.extend(conductors.iter().map(|(node, _)| now.volts[*node]));
        let ports = Ports { conductors, z: &factors.z };
        self.solved &= self.solver.solve(&ports, &mut now.states, &now.through, &mut now.across);
        for (k, (_, conductor)) in conductors.iter().enumerate() {
            let (slope, offset, _) = now.states[k].line(conductor);
            let current = slope * now.across[k] + offset;
            now.through[k] = current;
            if current != 0.0 {
                factors.draw(&mut now.volts, k, current);
            }
        }
    }

    /// Currents of the elements and waves of the lines at the end of the step.
    fn remember(&mut self, factors: &Factors) {
        let now = &mut self.now;
        for (((node, _), g), current) in self.circuit.shunts.iter().zip(&factors.shunts).zip(&mut now.shunts) {
            *current = g * now.volts[*node] - *current;
        }
        for (k, (a, b, _)) in self.circuit.series.iter().enumerate() {
            now.series[k] = factors.series[k] * (now.volts[*a] - now.volts[*b]) + self.beside[k];
        }
        self.delayed.step(now.t);
        for (k, Line { ends, .. }) in self.circuit.lines.iter().enumerate() {
            for (end, node) in ends.iter().enumerate() {
                self.delayed.leave(k, end, 2.0 * now.volts[*node] - self.arrived[k][end]);
            }
        }
        self.steps += 1;
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

    /// Whether one turned on during the step just done, though it is not switched yet.
    pub(super) fn triggers(&self) -> bool {
        let states = self.circuit.conductors.iter().zip(&self.now.states).zip(&self.now.across);
        let mut triggered =
            states.map(|(((_, c), state), v)| state.on.is_none() && c.snap.is_some_and(|snap| *v >= snap.trigger.0));
        triggered.any(|triggers| triggers)
    }
}
