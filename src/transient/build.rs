//! From a line's path to the circuit that is struck.

use std::sync::Arc;

use super::circuit::{Circuit, Node};
use super::curve::{self, MissingWord, Sign};
use crate::model::{Element, Kind, Line, Part, Path};
use crate::network::{Branch, Section, sections_of};
use crate::units::{Farad, Henry, Ohm, Second};

/// Reference of a bus or a rail, which have none: of the stubs of their parts (common practice, no source).
pub const SLOW_REFERENCE: Ohm = Ohm(50.0);

/// The longest way to the pin that is followed, in second.
const LONGEST_DELAY: f64 = 500e-9;

/// A part of the struck circuit.
#[derive(Debug, Clone)]
pub struct StruckPart {
    /// The part.
    pub part: Arc<Part>,
    /// Number of its element in the sheet's path.
    pub element: usize,
    /// Whether it is the protector.
    pub protects: bool,
    /// Whether its current at the instant it snaps back has a value: not where nothing slows it.
    pub has_peak: bool,
    /// Whether an inductance or a stub is stated of it.
    pub is_inductive: bool,
}

/// A line as a discharge meets it.
#[derive(Debug, Clone)]
pub struct StruckLine {
    /// Its circuit, struck at the first node.
    pub circuit: Circuit,
    /// The pin of the protected chip.
    pub pin: Node,
    /// Its clamp among the conductors, where one is stated.
    pub clamp: Option<usize>,
    /// The parts, from the outer end, as in [`Outcome::parts`](super::Outcome::parts).
    pub parts: Vec<StruckPart>,
    /// When a strike arrives at the pin, in whole nanoseconds: the delay of its lines.
    pub arrives: Second,
    /// The node where the protector's branch leaves the path.
    pub protector: Option<Node>,
}

/// Why a line has no struck circuit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotStruck {
    /// No path is stated, or no part is fitted in it.
    NothingFitted,
    /// A part lacks a word: its name, and the word.
    Missing(String, MissingWord),
    /// A part hangs across the pair alone, and what strikes one line against ground finds no way through it.
    AcrossOnly(String),
    /// The way to the pin takes more than 500 ns, or the circuit has a loop, which no path of a sheet has.
    NotComputable,
}

/// The circuit of a line struck at its port plane, all parts as they are fitted.
///
/// What lies outward of the plane is not there: an open connector is struck. Lines are ideal delays. Terminations and
/// resistances to ground are left out. What is stated across a pair stands at half, its neighbour at rest.
///
/// # Errors
/// What is missing.
pub fn struck(line: &Line, sign: Sign) -> Result<StruckLine, NotStruck> {
    let path = line.path().ok_or(NotStruck::NothingFitted)?;
    let (across, reference) = surroundings(line);
    of_path(path, sign, across, reference)
}

/// The factor on what is stated across a pair, and the impedance of the stubs of parts.
pub fn surroundings(line: &Line) -> (f64, Ohm) {
    match &line.kind {
        Kind::Lane(lane) => (lane.across_factor(), lane.half_reference()),
        Kind::Feed(feed) => (1.0, feed.reference),
        Kind::Bus(_) | Kind::Rail(_) => (1.0, SLOW_REFERENCE),
    }
}

fn of_path(path: &Path, sign: Sign, across: f64, reference: Ohm) -> Result<StruckLine, NotStruck> {
    let plane = path.port_plane_index();
    let (circuit, first) = Circuit::struck();
    let mut line =
        StruckLine { circuit, pin: first, clamp: None, parts: Vec::new(), arrives: Second::ZERO, protector: None };
    let mut delay = 0.0;
    let mut node = first;
    for (index, place) in path.elements.iter().enumerate().skip(plane) {
        match &place.element {
            Element::Guard(guard) => {
                let series = (guard.part.resistance, guard.part.inductance + guard.inductance);
                let branch = to_ground(Branch::of_guard(guard, reference), series);
                line.hang(node, &branch, (&guard.part, guard.capacitance), sign, place.number)?;
            }
            Element::Protector(protector) => {
                line.protector = Some(node);
                let Some((part, capacitance)) = protector.part.as_ref().zip(protector.fitted) else {
                    return Err(NotStruck::NothingFitted);
                };
                let series = (part.resistance + protector.resistance, part.inductance + protector.inductance);
                let branch = to_ground(Branch::new(protector, reference), series);
                line.hang(node, &branch, (part, capacitance), sign, place.number)?;
                line.parts.iter_mut().last().into_iter().for_each(|part| part.protects = true);
            }
            _ => {
                for section in sections_of(path, index, across, reference) {
                    if let Section::Line(line) = &section {
                        delay += line.delay().0;
                    }
                    node = append(&mut line.circuit, node, &section);
                }
            }
        }
    }
    if delay > LONGEST_DELAY {
        return Err(NotStruck::NotComputable);
    }
    line.pin = node;
    line.arrives = Second((delay * 1e9).floor() * 1e-9);
    if let Some((chip, clamp)) = path.inner_chip().and_then(|chip| Some((chip, chip.clamp?))) {
        line.clamp = Some(line.circuit.conductor(node, curve::chip(clamp, chip.negative, sign)));
    }
    Ok(line)
}

/// A branch with the series resistance and inductance that a strike to ground meets: the whole of the part and of its via, where
/// the signal of a pair meets half of what hangs across it.
fn to_ground(branch: Branch, (resistance, inductance): (Ohm, Henry)) -> Branch {
    Branch { resistance, inductance, ..branch }
}

/// What strikes one line against ground finds no way through a part that hangs across the pair alone.
pub(super) fn across_only(part: &Part) -> Result<(), NotStruck> {
    if part.is_across_alone() { Err(NotStruck::AcrossOnly(part.name.clone())) } else { Ok(()) }
}

impl StruckLine {
    /// Hangs a part with its pad and stub at a node of the path.
    fn hang(
        &mut self,
        node: Node,
        branch: &Branch,
        (part, capacitance): (&Arc<Part>, Farad),
        sign: Sign,
        element: usize,
    ) -> Result<(), NotStruck> {
        across_only(part)?;
        let conductor = curve::part(part, sign).map_err(|missing| NotStruck::Missing(part.name.clone(), missing))?;
        let has_peak = conductor.snap.is_none_or(|snap| snap.turn_on.is_some() || branch.inductance > Henry::ZERO);
        let is_inductive = branch.inductance > Henry::ZERO || branch.stub_delay > Second::ZERO;
        let node = self.circuit.line(node, branch.stub_impedance, branch.stub_delay);
        self.circuit.shunt_capacitance(node, branch.pad);
        self.circuit.part(node, (branch.resistance, branch.inductance), capacitance, conductor);
        self.parts.push(StruckPart { part: Arc::clone(part), element, protects: false, has_peak, is_inductive });
        Ok(())
    }
}

/// One section of the path, from the outer node to the inner one.
fn append(circuit: &mut Circuit, node: Node, section: &Section) -> Node {
    match *section {
        Section::SeriesResistance(r) => circuit.series(node, r, Henry::ZERO),
        Section::SeriesInductance(l) => circuit.series(node, Ohm::ZERO, l),
        Section::SeriesCapacitance(c) => circuit.series_capacitance(node, c),
        // Terminations and what stands like them are left out.
        Section::ShuntResistance(_) | Section::Guard { .. } => node,
        Section::ShuntInductance(l) => {
            circuit.shunt_inductance(node, l);
            node
        }
        Section::ShuntCapacitance(c) => {
            circuit.shunt_capacitance(node, c);
            node
        }
        Section::Line(line) => circuit.line(node, line.impedance(), line.delay()),
        Section::Tee { capacitance, inductance } => {
            let middle = circuit.series(node, Ohm::ZERO, inductance / 2.0);
            circuit.shunt_capacitance(middle, capacitance);
            circuit.series(middle, Ohm::ZERO, inductance / 2.0)
        }
        Section::Pi { capacitance, inductance } => {
            circuit.shunt_capacitance(node, capacitance / 2.0);
            let behind = circuit.series(node, Ohm::ZERO, inductance);
            circuit.shunt_capacitance(behind, capacitance / 2.0);
            behind
        }
        Section::OpenStub { impedance, delay } => {
            circuit.line(node, impedance, delay);
            node
        }
    }
}
