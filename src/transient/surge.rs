//! A surge through a path, instant by instant: lines, inductances and capacitances left out, a C in series a short.

use std::sync::Arc;

use super::SLOW_REFERENCE;
use super::build::{NotStruck, StruckPart, across_only};
use super::circuit::Circuit;
use super::conductor::State;
use super::curve::{self, Sign};
use super::pieces::{Ports, Solver};
use super::source::SurgeWave;
use super::tree::{Factors, Order, Rule};
use crate::model::{Demands, Element, Immittance, Part, Path};
use crate::network::{Section, sections_of};
use crate::units::{Ampere, Henry, Joule, Ohm, Second, Volt};

/// Instants of a wave, and of one that is looked at beside the stated one.
const INSTANTS: u32 = 4_000;
pub(super) const FEWER_INSTANTS: u32 = 1_000;
/// An inductance in front of a capacitance rings where √(LC) is more than this share of the front: by up to twice that.
const RINGS: f64 = 0.01;
/// Beside a source of current, so that a node without a path has a voltage.
const OPEN: Ohm = Ohm(1e6);

/// A surge as it is stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surge {
    /// 8/20 µs, its peak.
    Current(Ampere),
    /// 1.2/50 µs, the peak of its open voltage and the impedance it comes through.
    Voltage(Volt, Ohm),
}

impl Surge {
    /// The surge that a line meets, where it states one.
    pub fn of(demands: &Demands) -> Option<Surge> {
        let current = demands.surge?;
        Some(match demands.surge_through {
            Some(through) => Surge::Voltage(Volt(current.0 * through.0), through),
            None => Surge::Current(current),
        })
    }

    /// A share of it.
    pub fn share(self, share: f64) -> Surge {
        match self {
            Surge::Current(current) => Surge::Current(current * share),
            Surge::Voltage(volts, through) => Surge::Voltage(volts * share, through),
        }
    }
}

/// What a part carries in a surge.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PartInSurge {
    /// When it first conducts; `None` where it never does.
    pub on_at: Option<Second>,
    /// Highest current.
    pub peak: Ampere,
    /// Charge through it over its peak current: the length of its pulse.
    pub length: Second,
    /// Energy.
    pub energy: Joule,
}

/// What a surge leaves, of one polarity.
#[derive(Debug, Clone, Default)]
pub struct SurgeOutcome {
    /// Highest voltage at the pin.
    pub pin_peak: Volt,
    /// Highest current into the chip's clamp; `None` where none is stated.
    pub pin_peak_current: Option<Ampere>,
    /// √(LC) of what stands inward of the last part that conducts, where that is slow enough to ring with the front: the
    /// voltage at the pin is then not known.
    pub rings: Option<Second>,
    /// The parts, from the outer end.
    pub parts: Vec<(StruckPart, PartInSurge)>,
}

struct Resistive {
    circuit: Circuit,
    pin: usize,
    clamp: Option<usize>,
    /// Each with its conductor.
    parts: Vec<(StruckPart, usize)>,
}

/// A surge into the port plane of a path.
///
/// # Errors
/// What is missing, as in [`struck`](super::struck).
pub fn surge(path: &Path, surge: Surge, sign: Sign) -> Result<SurgeOutcome, NotStruck> {
    surge_in(path, surge, sign, INSTANTS)
}

/// The same at so many instants.
pub(super) fn surge_in(path: &Path, surge: Surge, sign: Sign, instants: u32) -> Result<SurgeOutcome, NotStruck> {
    let (wave, peak, through) = match surge {
        Surge::Current(current) => (SurgeWave::Current, current.0, OPEN),
        Surge::Voltage(volts, through) => (SurgeWave::Voltage, volts.0 / through.0, through),
    };
    let resistive = resistive(path, through, sign)?;
    let circuit = &resistive.circuit;
    let Some(order) = Order::of(circuit, true) else {
        return Err(NotStruck::NotComputable);
    };
    let mut point = Point {
        circuit,
        factors: Factors::new(circuit, &order, 1.0, Rule::Trapezoidal),
        states: circuit.conductors.iter().map(|(_, conductor)| State::off(conductor, 0.0)).collect(),
        across: vec![0.0; circuit.conductors.len()],
        through: vec![0.0; circuit.conductors.len()],
        volts: vec![0.0; circuit.nodes],
        solver: Solver::default(),
    };
    let mut outcome = SurgeOutcome {
        pin_peak_current: resistive.clamp.map(|_| Ampere::ZERO),
        parts: resistive.parts.iter().map(|(part, _)| (part.clone(), PartInSurge::default())).collect(),
        ..SurgeOutcome::default()
    };
    // Of each part its charge, and its current and power an instant before.
    let mut before = vec![[0.0; 3]; resistive.parts.len()];
    let mut last = 0.0;
    for instant in 1..=instants {
        // Closer at the start, where the wave rises.
        let t = (f64::from(instant) / f64::from(instants)).powi(2) * wave.end().0;
        let step = t - std::mem::replace(&mut last, t);
        let highest = point.operate(peak * wave.at(Second(t)), t, resistive.pin);
        outcome.pin_peak.0 = outcome.pin_peak.0.max(highest);
        if let (Some(clamp), Some(current)) = (resistive.clamp, &mut outcome.pin_peak_current) {
            current.0 = current.0.max(point.through[clamp]);
        }
        for (((_, part), (_, conductor)), before) in outcome.parts.iter_mut().zip(&resistive.parts).zip(&mut before) {
            let current = point.through[*conductor];
            let power = current * point.across[*conductor];
            if current > 0.0 {
                part.on_at = part.on_at.or(Some(Second(t)));
            }
            part.peak.0 = part.peak.0.max(current);
            part.energy.0 += (power + before[2]) / 2.0 * step;
            *before = [before[0] + (current + before[1]) / 2.0 * step, current, power];
            part.length = Second(if part.peak.0 > 0.0 { before[0] / part.peak.0 } else { 0.0 });
        }
    }
    let last = outcome.parts.iter().rev().find(|(_, carried)| carried.on_at.is_some());
    outcome.rings = Some(resonance(path, last.map(|(part, _)| part.element)));
    outcome.rings = outcome.rings.filter(|slow| slow.0 > RINGS * wave.front().0);
    Ok(outcome)
}

/// √ΣLC inward of this element, else of the port plane: of every capacitance to ground with the inductances in front of it.
fn resonance(path: &Path, behind: Option<usize>) -> Second {
    let plane = path.port_plane_index();
    let last = path.elements.iter().position(|place| Some(place.number) == behind).filter(|last| *last >= plane);
    let from = last.map_or(plane, |last| last + 1);
    let (mut inductance, mut product) = (0.0, 0.0);
    for section in (from..path.elements.len()).flat_map(|index| sections_of(path, index, 1.0, SLOW_REFERENCE)) {
        let (before, capacitance, after) = match section {
            Section::SeriesInductance(l) => (l.0, 0.0, 0.0),
            Section::ShuntCapacitance(c) => (0.0, c.0, 0.0),
            Section::Tee { capacitance, inductance } => (inductance.0 / 2.0, capacitance.0, inductance.0 / 2.0),
            Section::Pi { capacitance, inductance } => (inductance.0, capacitance.0 / 2.0, 0.0),
            _ => continue,
        };
        inductance += before;
        product += inductance * capacitance;
        inductance += after;
    }
    Second(product.sqrt())
}

/// An operating point.
struct Point<'a> {
    circuit: &'a Circuit,
    factors: Factors,
    states: Vec<State>,
    across: Vec<f64>,
    through: Vec<f64>,
    volts: Vec<f64>,
    solver: Solver,
}

impl Point<'_> {
    /// Solves for this current into the first node, turns on what has reached its trigger and off what carries no more than
    /// its holding current, and gives the highest voltage that node `pin` passes on the way.
    fn operate(&mut self, current: f64, t: f64, pin: usize) -> f64 {
        self.solve(current);
        let mut highest = f64::NEG_INFINITY;
        // One at a time: what turns on takes the voltage off the others.
        for _ in 0..=self.states.len() {
            let ratio = |k: &usize| {
                let trigger = self.circuit.conductors[*k].1.snap.map_or(f64::INFINITY, |snap| snap.trigger.0);
                self.across[*k] / trigger
            };
            let off = (0..self.states.len()).filter(|k| self.states[*k].on.is_none());
            let first = off.max_by(|a, b| ratio(a).total_cmp(&ratio(b))).filter(|k| ratio(k) >= 1.0);
            let Some(first) = first else { break };
            // The source rises: the node passes the trigger and not more.
            highest = highest.max(self.volts[pin] / ratio(&first));
            self.states[first] = State::on(&self.circuit.conductors[first].1, t, true, 0.0);
            self.solve(current);
        }
        for k in 0..self.states.len() {
            let Some(snap) = self.circuit.conductors[k].1.snap else { continue };
            if self.states[k].on.is_some() && self.through[k] <= snap.holding.0 {
                let kept = (self.states[k], self.across.clone());
                self.states[k] = State::off(&self.circuit.conductors[k].1, self.across[k]);
                self.solve(current);
                // Off it would reach its trigger again at once.
                if self.across[k] >= snap.trigger.0 {
                    (self.states[k], self.across) = kept;
                    self.solve(current);
                }
            }
        }
        highest.max(self.volts[pin])
    }

    fn solve(&mut self, current: f64) {
        self.volts.fill(0.0);
        self.volts[0] = current;
        self.factors.solve(&mut self.volts);
        let open: Vec<f64> = self.circuit.conductors.iter().map(|(node, _)| self.volts[*node]).collect();
        let ports = Ports { conductors: &self.circuit.conductors, z: &self.factors.z, step: self.factors.step };
        self.solver.solve(&ports, &mut self.states, &open, &mut self.across);
        self.through.fill(0.0);
        for (k, current) in self.solver.currents() {
            self.through[k] = current;
            self.factors.draw(&mut self.volts, k, current);
        }
    }
}

/// Whether a surge leaves the same below ground as above it.
pub(super) fn is_alike_below(path: &Path) -> bool {
    let of = |sign| resistive(path, OPEN, sign).map(|resistive| resistive.circuit);
    matches!((of(Sign::Positive), of(Sign::Negative)), (Ok(above), Ok(below)) if above == below)
}

/// The path as resistances, from its port plane inward.
fn resistive(path: &Path, through: Ohm, sign: Sign) -> Result<Resistive, NotStruck> {
    let plane = path.port_plane_index();
    let (mut circuit, mut node) = Circuit::driven(through);
    let mut parts = Vec::new();
    for place in path.elements.get(plane..).unwrap_or_default() {
        let (part, resistance, protects): (&Arc<Part>, Ohm, bool) = match &place.element {
            Element::Series(Immittance::Resistance(r)) => {
                node = circuit.series(node, *r, Henry::ZERO);
                continue;
            }
            Element::Guard(guard) => (&guard.part, Ohm::ZERO, false),
            Element::Protector(protector) => {
                (protector.part.as_ref().ok_or(NotStruck::NothingFitted)?, protector.resistance, true)
            }
            _ => continue,
        };
        across_only(part)?;
        let conductor =
            curve::part_in_surge(part, sign).map_err(|missing| NotStruck::Missing(part.name.clone(), missing))?;
        let behind = circuit.series(node, resistance, Henry::ZERO);
        let conductor = circuit.conductor(behind, conductor);
        let struck =
            StruckPart { part: Arc::clone(part), element: place.number, protects, has_peak: true, is_inductive: false };
        parts.push((struck, conductor));
    }
    let chip = path.inner_chip().and_then(|chip| Some((chip, chip.clamp?)));
    let clamp = chip.map(|(chip, clamp)| circuit.conductor(node, curve::chip(clamp, chip.negative, sign)));
    Ok(Resistive { circuit, pin: node.0, clamp, parts })
}
