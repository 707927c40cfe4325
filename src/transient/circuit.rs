//! The circuit that a discharge goes through: nodes, and what stands between them and ground.

use super::source::DISCHARGE_RESISTOR;
use super::{Conductor, LEAST_SLOPE};
use crate::units::{Farad, Henry, Ohm, Second, Volt};

/// A node of a [`Circuit`]; ground is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Node(pub(super) usize);

/// What hangs between a node and ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shunt {
    Resistance(f64),
    Capacitance(f64),
    Inductance(f64),
}

/// What stands between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Series {
    /// A resistance and an inductance, one of them more than 0.
    Choke {
        resistance: f64,
        inductance: f64,
    },
    Capacitance(f64),
}

/// A line without loss between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) ends: [usize; 2],
    pub(super) impedance: f64,
    pub(super) delay: f64,
}

/// What is looked at: what stands where the terminals of a part are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Terminal {
    /// The node that the part hangs at, behind its stub.
    pub(super) node: usize,
    /// The series branch that leads into it; `None` where nothing stands in series.
    pub(super) lead: Option<usize>,
    /// Its capacitance among the shunts, where it has one.
    pub(super) capacitance: Option<usize>,
    /// Its conductor.
    pub(super) conductor: usize,
}

/// A circuit struck at its first node, all at rest before the discharge. Nodes and series branches form trees: a ladder with its branches; lines
/// hang between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Circuit {
    pub(super) nodes: usize,
    pub(super) shunts: Vec<(usize, Shunt)>,
    pub(super) series: Vec<(usize, usize, Series)>,
    pub(super) lines: Vec<Line>,
    /// In a struck circuit the first limits the struck node to the level.
    pub(super) conductors: Vec<(usize, Conductor)>,
    pub(super) terminals: Vec<Terminal>,
}

impl Circuit {
    /// The struck node alone, with the generator's resistor beside it. It does not exceed the level of the generator.
    pub fn struck() -> (Circuit, Node) {
        let (mut circuit, node) = Circuit::driven(DISCHARGE_RESISTOR);
        circuit.conductor(node, Conductor::from(Volt::ZERO, LEAST_SLOPE).both_ways());
        (circuit, node)
    }

    /// A node driven through a resistance above 0, without a limit.
    pub(super) fn driven(through: Ohm) -> (Circuit, Node) {
        let circuit = Circuit {
            nodes: 1,
            shunts: vec![(0, Shunt::Resistance(through.0))],
            series: Vec::new(),
            lines: Vec::new(),
            conductors: Vec::new(),
            terminals: Vec::new(),
        };
        (circuit, Node(0))
    }

    /// A further node.
    pub fn node(&mut self) -> Node {
        self.nodes += 1;
        Node(self.nodes - 1)
    }

    /// A resistance above 0 to ground.
    pub fn shunt_resistance(&mut self, node: Node, resistance: Ohm) {
        self.shunts.push((node.0, Shunt::Resistance(resistance.0)));
    }

    /// A capacitance to ground; 0 is none.
    pub fn shunt_capacitance(&mut self, node: Node, capacitance: Farad) {
        // That of a part stays by itself, since its current is that of the part.
        let of_part = |k: usize| self.terminals.iter().any(|terminal| terminal.capacitance == Some(k));
        let there = self.shunts.iter_mut().enumerate().find_map(|(k, (at, shunt))| match shunt {
            Shunt::Capacitance(there) if *at == node.0 && !of_part(k) => Some(there),
            _ => None,
        });
        match there {
            Some(there) => *there += capacitance.0,
            None if capacitance.0 > 0.0 => self.shunts.push((node.0, Shunt::Capacitance(capacitance.0))),
            None => {}
        }
    }

    /// An inductance above 0 to ground.
    pub fn shunt_inductance(&mut self, node: Node, inductance: Henry) {
        self.shunts.push((node.0, Shunt::Inductance(inductance.0)));
    }

    /// The node behind a resistance and an inductance in series: the same one where both are 0.
    pub fn series(&mut self, node: Node, resistance: Ohm, inductance: Henry) -> Node {
        if resistance.0 <= 0.0 && inductance.0 <= 0.0 {
            return node;
        }
        let behind = self.node();
        let choke = Series::Choke { resistance: resistance.0, inductance: inductance.0 };
        self.series.push((node.0, behind.0, choke));
        behind
    }

    /// The node behind a capacitance above 0 in series.
    pub fn series_capacitance(&mut self, node: Node, capacitance: Farad) -> Node {
        let behind = self.node();
        self.series.push((node.0, behind.0, Series::Capacitance(capacitance.0)));
        behind
    }

    /// The node at the other end of a line without loss. One shorter than 10 ps is lumped: for every 2.5 ps an inductance
    /// between two halves of its capacitance; of no length it is a through connection.
    pub fn line(&mut self, node: Node, impedance: Ohm, delay: Second) -> Node {
        if delay.0 <= 0.0 {
            return node;
        }
        if delay.0 < LUMPED {
            let pieces = (delay.0 / PIECE).ceil();
            let delay = delay.0 / pieces;
            let half = Farad(delay / impedance.0 / 2.0);
            let mut behind = node;
            for _ in 0..pieces as u32 {
                self.shunt_capacitance(behind, half);
                behind = self.series(behind, Ohm::ZERO, Henry(delay * impedance.0));
                self.shunt_capacitance(behind, half);
            }
            return behind;
        }
        let behind = self.node();
        self.lines.push(Line { ends: [node.0, behind.0], impedance: impedance.0, delay: delay.0 });
        behind
    }

    /// A conductor to ground; its number.
    pub fn conductor(&mut self, node: Node, conductor: Conductor) -> usize {
        self.conductors.push((node.0, conductor));
        self.conductors.len() - 1
    }

    /// A part at `node`: in series its resistance and inductance, then its capacitance beside its conductor. Its number
    /// among the parts.
    pub fn part(&mut self, node: Node, series: (Ohm, Henry), capacitance: Farad, conductor: Conductor) -> usize {
        let inner = self.series(node, series.0, series.1);
        let lead = (inner != node).then(|| self.series.len() - 1);
        let capacitance = (capacitance.0 > 0.0).then(|| {
            self.shunts.push((inner.0, Shunt::Capacitance(capacitance.0)));
            self.shunts.len() - 1
        });
        let conductor = self.conductor(inner, conductor);
        self.terminals.push(Terminal { node: node.0, lead, capacitance, conductor });
        self.terminals.len() - 1
    }
}

/// A shorter line is lumped, in pieces of at most this length, in second.
const LUMPED: f64 = 10e-12;
const PIECE: f64 = 2.5e-12;
