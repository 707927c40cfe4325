//! The linear half of a circuit at one step size: every capacitance, inductance and line end a conductance with a current
//! beside it, solved from the leaves of its trees to their roots.

use super::circuit::{Circuit, Line, Series, Shunt};

/// The order in which the nodes of a circuit are eliminated, the leaves first.
#[derive(Debug, Clone)]
pub(super) struct Order {
    /// Each node with the series branch to the node that takes it up, if there is one.
    steps: Vec<(usize, Option<(usize, usize)>)>,
}

impl Order {
    /// `None` where the series branches form a loop.
    pub(super) fn of(circuit: &Circuit) -> Option<Order> {
        let mut beside: Vec<Vec<(usize, usize)>> = vec![Vec::new(); circuit.nodes];
        for (branch, (a, b, _)) in circuit.series.iter().enumerate() {
            beside[*a].push((*b, branch));
            beside[*b].push((*a, branch));
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

/// The conductances of a step.
#[derive(Debug, Clone)]
pub(super) struct Factors {
    /// Half the step: the trapezoidal rule over the step and backward Euler over its half have the same conductances.
    pub(super) half: f64,
    /// Of every shunt, in its order.
    pub(super) shunts: Vec<f64>,
    /// Of every series branch, in its order.
    pub(super) series: Vec<f64>,
    /// Each node as it is eliminated: itself, the node that takes it up (itself at a root), one over its diagonal, and its
    /// conductance to that node over the diagonal.
    steps: Vec<(usize, usize, f64, f64)>,
    /// Voltage at every node for one ampere into each conductor's node, a row a conductor.
    columns: Vec<f64>,
    /// Voltage at the conductors' nodes for one ampere into each of them.
    pub(super) z: Vec<f64>,
}

impl Factors {
    /// For a step of twice `half`.
    pub(super) fn new(circuit: &Circuit, order: &Order, half: f64) -> Factors {
        let shunts: Vec<f64> = circuit.shunts.iter().map(|(_, shunt)| conductance(*shunt, half)).collect();
        let through = |(_, _, series): &(usize, usize, Series)| match *series {
            Series::Choke { resistance, inductance } => 1.0 / (resistance + inductance / half),
            Series::Capacitance(capacitance) => capacitance / half,
        };
        let series: Vec<f64> = circuit.series.iter().map(through).collect();
        let mut diagonal = vec![0.0; circuit.nodes];
        for ((node, _), g) in circuit.shunts.iter().zip(&shunts) {
            diagonal[*node] += g;
        }
        for ((a, b, _), g) in circuit.series.iter().zip(&series) {
            diagonal[*a] += g;
            diagonal[*b] += g;
        }
        for Line { ends, impedance, .. } in &circuit.lines {
            ends.iter().for_each(|end| diagonal[*end] += 1.0 / impedance);
        }
        let steps = order.steps.iter().map(|(node, up)| {
            let inverse = if diagonal[*node] > 0.0 { 1.0 / diagonal[*node] } else { 0.0 };
            match up {
                None => (*node, *node, inverse, 0.0),
                Some((parent, branch)) => {
                    let share = series[*branch] * inverse;
                    diagonal[*parent] -= series[*branch] * share;
                    (*node, *parent, inverse, share)
                }
            }
        });
        let steps = steps.collect();
        let mut factors = Factors { half, shunts, series, steps, columns: Vec::new(), z: Vec::new() };
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
        let column = self.columns.chunks_exact(values.len()).nth(conductor);
        for (value, per_ampere) in values.iter_mut().zip(column.into_iter().flatten()) {
            *value -= per_ampere * current;
        }
    }
}

fn conductance(shunt: Shunt, half: f64) -> f64 {
    match shunt {
        Shunt::Resistance(resistance) => 1.0 / resistance,
        Shunt::Capacitance(capacitance) => capacitance / half,
        Shunt::Inductance(inductance) => half / inductance,
    }
}
