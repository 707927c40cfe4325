//! The linear half of a circuit at one step size: every capacitance, inductance and line end a conductance with a current
//! beside it, solved from the leaves of its trees to their roots.

use super::circuit::{Circuit, Line, Series, Shunt};
use super::delayed::Reach;

/// The order in which the nodes of a circuit are eliminated, the leaves first.
#[derive(Debug, Clone)]
pub(super) struct Order {
    /// Each node with the branch to the node that takes it up, if there is one: a series branch, or behind these a line.
    steps: Vec<(usize, Option<(usize, usize)>)>,
}

impl Order {
    /// With the lines as branches or without them; `None` where the branches form a loop.
    pub(super) fn of(circuit: &Circuit, with_lines: bool) -> Option<Order> {
        let mut beside: Vec<Vec<(usize, usize)>> = vec![Vec::new(); circuit.nodes];
        let lines = circuit.lines.iter().map(|line| (line.ends[0], line.ends[1]));
        let lines = lines.filter(|_| with_lines);
        for (branch, (a, b)) in circuit.series.iter().map(|(a, b, _)| (*a, *b)).chain(lines).enumerate() {
            beside[a].push((b, branch));
            beside[b].push((a, branch));
        }
        let mut steps = Vec::with_capacity(circuit.nodes);
        let mut seen = vec![false; circuit.nodes];
        for root in 0..circuit.nodes {
            if std::mem::replace(&mut seen[root], true) {
                continue;
            }
            steps.push((root, None));
            let mut ahead = vec![(root, usize::MAX)];
            while let Some((node, from)) = ahead.pop() {
                for (next, branch) in beside[node].iter().filter(|(_, branch)| *branch != from) {
                    if std::mem::replace(&mut seen[*next], true) {
                        return None;
                    }
                    steps.push((*next, Some((node, *branch))));
                    ahead.push((*next, *branch));
                }
            }
        }
        steps.reverse();
        Some(Order { steps })
    }
}

/// How a step is taken; both have the conductances of one [`Factors`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rule {
    /// The trapezoidal rule over a whole step.
    Trapezoidal,
    /// Backward Euler over half of it: it does not ring after a switching.
    BackwardEuler,
}

/// An element over a step: i = g · v less what it holds, of its voltage and its current before.
#[derive(Debug, Clone, Copy)]
pub(super) struct Companion {
    pub(super) g: f64,
    pub(super) of_voltage: f64,
    pub(super) of_current: f64,
}

impl Companion {
    /// i' = C/τ · (v' − v) − i over a step of 2τ, i' = C/τ · (v' − v) over τ.
    fn capacitance(capacitance: f64, half: f64, rule: Rule) -> Companion {
        let g = capacitance / half;
        Companion { g, of_voltage: g, of_current: if rule == Rule::Trapezoidal { 1.0 } else { 0.0 } }
    }

    /// v' = (R + L/τ) i' + (R − L/τ) i − v over a step of 2τ, v' = (R + L/τ) i' − L/τ · i over τ.
    fn choke(resistance: f64, inductance: f64, half: f64, rule: Rule) -> Companion {
        let g = 1.0 / (resistance + inductance / half);
        match rule {
            Rule::Trapezoidal => Companion { g, of_voltage: -g, of_current: -g * (inductance / half - resistance) },
            Rule::BackwardEuler => Companion { g, of_voltage: 0.0, of_current: -g * inductance / half },
        }
    }

    fn shunt(shunt: Shunt, half: f64, rule: Rule) -> Companion {
        match shunt {
            Shunt::Resistance(resistance) => Companion { g: 1.0 / resistance, of_voltage: 0.0, of_current: 0.0 },
            Shunt::Capacitance(capacitance) => Self::capacitance(capacitance, half, rule),
            Shunt::Inductance(inductance) => Self::choke(0.0, inductance, half, rule),
        }
    }

    fn series(series: Series, half: f64, rule: Rule) -> Companion {
        match series {
            Series::Choke { resistance, inductance } => Self::choke(resistance, inductance, half, rule),
            Series::Capacitance(capacitance) => Self::capacitance(capacitance, half, rule),
        }
    }

    /// What it holds over the next step.
    pub(super) fn held(&self, volts: f64, amperes: f64) -> f64 {
        self.of_voltage * volts + self.of_current * amperes
    }
}

/// The conductances of a step.
#[derive(Debug, Clone)]
pub(super) struct Factors {
    /// The step in second.
    pub(super) step: f64,
    /// Every shunt with its node, and every series branch with its two, in their order.
    pub(super) shunts: Vec<(usize, Companion)>,
    pub(super) series: Vec<(usize, usize, Companion)>,
    /// How far back in such steps every line reaches; one shorter than the step leads from end to end within it.
    pub(super) reaches: Vec<Reach>,
    /// Each node as it is eliminated: itself, the node that takes it up (itself at a root), one over its diagonal, and its
    /// conductance to that node over the diagonal.
    steps: Vec<(usize, usize, f64, f64)>,
    /// Voltage at every node for one ampere into each conductor's node, a row a conductor.
    columns: Vec<f64>,
    /// Voltage at the conductors' nodes for one ampere into each of them.
    pub(super) z: Vec<f64>,
}

impl Factors {
    /// For a step of twice `half` by the trapezoidal rule, of `half` by backward Euler: their conductances are the same.
    pub(super) fn new(circuit: &Circuit, order: &Order, half: f64, rule: Rule) -> Factors {
        let shunts: Vec<_> =
            circuit.shunts.iter().map(|(node, shunt)| (*node, Companion::shunt(*shunt, half, rule))).collect();
        let series: Vec<_> =
            circuit.series.iter().map(|(a, b, series)| (*a, *b, Companion::series(*series, half, rule))).collect();
        // Of every node what leads to ground without the branch that takes it up: sums of what is above 0, since a node
        // between two large conductances would lose all its digits in a difference.
        let mut ground = vec![0.0; circuit.nodes];
        for (node, shunt) in &shunts {
            ground[*node] += shunt.g;
        }
        let step = if rule == Rule::Trapezoidal { 2.0 * half } else { half };
        let reaches: Vec<Reach> = circuit.lines.iter().map(|line| Reach::of(line, step)).collect();
        for (Line { ends, impedance, .. }, reach) in circuit.lines.iter().zip(&reaches) {
            ends.iter().for_each(|end| ground[*end] += (1.0 - reach.within) / (1.0 + reach.within) / impedance);
        }
        let between = |branch: usize| match series.get(branch) {
            Some((_, _, companion)) => companion.g,
            None => reaches[branch - series.len()].between(),
        };
        let steps = order.steps.iter().map(|(node, up)| match up {
            None => (*node, *node, if ground[*node] > 0.0 { 1.0 / ground[*node] } else { 0.0 }, 0.0),
            Some((parent, branch)) => {
                let inverse = 1.0 / (ground[*node] + between(*branch));
                let share = between(*branch) * inverse;
                ground[*parent] += ground[*node] * share;
                (*node, *parent, inverse, share)
            }
        });
        let steps = steps.collect();
        let mut factors = Factors { step, shunts, series, reaches, steps, columns: Vec::new(), z: Vec::new() };
        for (node, _) in &circuit.conductors {
            let mut column = vec![0.0; circuit.nodes];
            column[*node] = 1.0;
            factors.solve(&mut column);
            factors.z.extend(circuit.conductors.iter().map(|(other, _)| column[*other]));
            factors.columns.extend(column);
        }
        factors
    }

    /// From the currents into the nodes to their voltages, in place.
    pub(super) fn solve(&self, values: &mut [f64]) {
        for (node, up, _, share) in &self.steps {
            let into = values[*node] * share;
            values[*up] += into;
        }
        for (node, up, inverse, share) in self.steps.iter().rev() {
            let above = if node == up { 0.0 } else { share * values[*up] };
            values[*node] = values[*node] * inverse + above;
        }
    }

    /// Takes the current of a conductor out of its node.
    pub(super) fn draw(&self, values: &mut [f64], conductor: usize, current: f64) {
        let first = conductor * values.len();
        let column = self.columns.get(first..first + values.len()).unwrap_or_default();
        for (value, per_ampere) in values.iter_mut().zip(column) {
            *value -= per_ampere * current;
        }
    }
}
