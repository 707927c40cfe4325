//! What is seen of a discharge: peaks, instants, energies.

use super::circuit::{Circuit, Node, Terminal};
use super::left::{End, energy_left};
use super::source::WINDOW;
use super::stepper::Memory;
use crate::units::{Ampere, Joule, Ohm, Second, Volt};

/// When the first peak is over, and when the voltage has its plateau.
pub const LATE: Second = Second(5e-9);
const PLATEAU: [f64; 2] = [28e-9, 32e-9];
/// The pulse that ratings of a chip's current are stated for.
const PULSE: Second = Second(100e-9);
/// What counts as the peak: the first instant within this share of it.
const AT_PEAK: f64 = 1e-3;

/// What is looked at in a circuit, and what it is struck by: always its first node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strike {
    /// Level of the contact discharge.
    pub level: Volt,
    /// The node of the chip's pin.
    pub pin: Node,
    /// The conductor that clamps the pin, where there is one.
    pub clamp: Option<usize>,
    /// When it arrives at the pin, in whole nanoseconds: from then on the first 5 ns, the plateau and the window are counted.
    pub arrives: Second,
}

/// What the pin sees.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PinOutcome {
    /// Highest voltage in the direction of the strike, and its instant: the first within 0.1 % of it.
    pub peak: Volt,
    /// See [`PinOutcome::peak`].
    pub peak_at: Second,
    /// How far it swings the other way, 0 or above, from the start on and after the first 5 ns.
    pub swing: Volt,
    /// See [`PinOutcome::swing`].
    pub late_swing: Volt,
    /// Highest voltage after the first 5 ns.
    pub late_peak: Volt,
    /// Mean voltage from 28 to 32 ns.
    pub plateau: Volt,
    /// Greatest current in the chip's clamp, of either direction.
    pub peak_current: Ampere,
    /// Current in it at the end, of either direction.
    pub last_current: Ampere,
    /// Energy into the chip's clamp, of both directions.
    pub energy: Joule,
    /// Of that the energy against the direction of the strike.
    pub energy_back: Joule,
    /// The pulses of 100 ns, one in each direction, that leave the same energy in the clamp, (V + R·I)·I·100 ns: the sum of
    /// both. An estimate.
    pub equivalent: Ampere,
    /// The same at most, if all that is stored above the clamp's voltage at the end goes into it.
    pub equivalent_at_most: Ampere,
    /// What its voltage may come to, away from ground, where it still rises at the end: twice the highest mean voltage of a
    /// node in the last 20 ns. 0 where its highest is not yet to come.
    pub rises_to: Volt,
    /// Where no part has snapped back: from which voltage on the first part, or the clamp, conducts in the direction of the
    /// strike. Up to it the line's own voltage counts.
    pub free_below: Option<Volt>,
}

/// What a part sees at its terminals.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PartOutcome {
    /// When it first conducts in the direction of the strike; `None` where it never does.
    pub on_at: Option<Second>,
    /// Greatest current, of either direction.
    pub peak: Ampere,
    /// Energy, of both directions.
    pub energy: Joule,
    /// How often it turned on or let go, on either side.
    pub switched: u32,
}

/// What a discharge leaves.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outcome {
    /// At the pin.
    pub pin: PinOutcome,
    /// At every part, in the order they were added.
    pub parts: Vec<PartOutcome>,
    /// Whether every step has had a solution.
    pub solved: bool,
}

/// Voltages and currents over time, for a picture.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trace {
    /// Time in second.
    pub t: Vec<f64>,
    /// Voltage of the struck node.
    pub struck: Vec<f64>,
    /// Voltage of the pin.
    pub pin: Vec<f64>,
    /// Current into the chip's clamp.
    pub chip: Vec<f64>,
    /// Voltage and current at the terminals of every part.
    pub parts: Vec<(Vec<f64>, Vec<f64>)>,
}

/// What has been seen so far.
#[derive(Debug)]
pub(super) struct Seen<'a> {
    circuit: &'a Circuit,
    strike: &'a Strike,
    /// Every step with a higher voltage of the pin than all before.
    highest: Vec<[f64; 2]>,
    plateau: f64,
    /// Voltage of the pin at the last step.
    volts: f64,
    end: End,
    /// Energy into the clamp in the direction of the strike and against it, and what may still come.
    energies: [f64; 2],
    left: f64,
    outcome: Outcome,
    /// Time, power into the clamp in both directions, and power into every part at the last step.
    last: (f64, [f64; 2], Vec<f64>),
    /// Whether each part was on at the last step.
    on: Vec<bool>,
}

impl<'a> Seen<'a> {
    pub(super) fn new(circuit: &'a Circuit, strike: &'a Strike) -> Seen<'a> {
        let parts = circuit.terminals.len();
        let outcome = Outcome { parts: vec![PartOutcome::default(); parts], ..Outcome::default() };
        Seen {
            circuit,
            strike,
            highest: Vec::new(),
            plateau: 0.0,
            volts: 0.0,
            end: End::of(circuit, strike.arrives.0 + WINDOW.0),
            energies: [0.0; 2],
            left: 0.0,
            outcome,
            last: (0.0, [0.0; 2], vec![0.0; parts]),
            on: vec![false; parts],
        }
    }

    /// Looks at the end of a step.
    pub(super) fn look(&mut self, now: &Memory, trace: Option<&mut Trace>) {
        let (t, step) = (now.t, now.t - self.last.0);
        let volts = now.volts[self.strike.pin.0];
        let pin = &mut self.outcome.pin;
        if volts > pin.peak.0 {
            pin.peak.0 = volts;
            self.highest.push([t, volts]);
        }
        pin.swing.0 = pin.swing.0.max(-volts);
        let arrives = self.strike.arrives.0;
        if t - arrives >= LATE.0 {
            pin.late_swing.0 = pin.late_swing.0.max(-volts);
            pin.late_peak.0 = pin.late_peak.0.max(volts);
        }
        // The plateau takes each step with the share of it that lies within.
        let within = ((t - arrives).min(PLATEAU[1]) - (self.last.0 - arrives).max(PLATEAU[0])).max(0.0);
        self.plateau += within * (volts + std::mem::replace(&mut self.volts, volts)) / 2.0;
        let into = self.strike.clamp.map_or(0.0, |clamp| now.through[clamp]);
        pin.peak_current.0 = pin.peak_current.0.max(into.abs());
        pin.last_current.0 = into.abs();
        let power = into * volts;
        let powers = if into > 0.0 { [power, 0.0] } else { [0.0, power] };
        for ((energy, power), before) in self.energies.iter_mut().zip(powers).zip(self.last.1) {
            *energy += (power + before) / 2.0 * step;
        }
        self.last.1 = powers;
        if let (true, Some(clamp)) = (self.end.look(now, self.last.0, self.strike.pin.0), self.strike.clamp) {
            self.left = energy_left(self.circuit, now, clamp);
        }

        for (k, terminal) in self.circuit.terminals.iter().enumerate() {
            let part = &mut self.outcome.parts[k];
            let (volts, amperes) = at(terminal, now);
            part.peak.0 = part.peak.0.max(amperes.abs());
            part.energy.0 += (volts * amperes + self.last.2[k]) / 2.0 * step;
            self.last.2[k] = volts * amperes;
            let state = &now.states[terminal.conductor];
            if std::mem::replace(&mut self.on[k], state.on.is_some()) != state.on.is_some() {
                part.switched += 1;
            }
            if part.on_at.is_none() {
                let (_, conductor) = &self.circuit.conductors[terminal.conductor];
                let conducts = state.conducts(conductor, now.through[terminal.conductor]);
                part.on_at = conducts.then(|| Second(state.on.map_or(t, |on| on.at)));
            }
        }
        self.last.0 = t;
        if let Some(trace) = trace {
            trace.t.push(t);
            trace.struck.push(now.volts[0]);
            trace.pin.push(volts);
            trace.chip.push(into);
            trace.parts.resize_with(self.circuit.terminals.len(), Default::default);
            for (terminal, (volts, amperes)) in self.circuit.terminals.iter().zip(&mut trace.parts) {
                let (v, i) = at(terminal, now);
                volts.push(v);
                amperes.push(i);
            }
        }
    }

    /// All of it.
    pub(super) fn outcome(mut self, solved: bool) -> Outcome {
        let pin = &mut self.outcome.pin;
        pin.plateau = Volt(self.plateau / (PLATEAU[1] - PLATEAU[0]));
        let enough = pin.peak.0 * (1.0 - AT_PEAK);
        let first = self.highest.iter().find(|[_, volts]| *volts >= enough);
        pin.peak_at = Second(first.map_or(0.0, |[t, _]| *t));
        let [ahead, back] = self.energies;
        (pin.energy, pin.energy_back) = (Joule(ahead + back), Joule(back));
        if let Some(clamp) = self.strike.clamp {
            let of = |energy: f64, above: bool| {
                let (volts, resistance) = self.circuit.conductors[clamp].1.first_line(above);
                equivalent(Joule(energy), volts, resistance)
            };
            pin.equivalent = of(ahead, true) + of(back, false);
            // Whichever way it goes.
            let [more_ahead, more_back] =
                [of(ahead + self.left, true) + of(back, false), of(ahead, true) + of(back + self.left, false)];
            pin.equivalent_at_most = if back > 0.0 && more_back > more_ahead { more_back } else { more_ahead };
        }
        pin.rises_to = Volt(self.end.rises_to(pin.late_peak.0.max(pin.late_swing.0)));
        let quiet = self.outcome.parts.iter().all(|part| part.switched == 0);
        let first = self.circuit.conductors.iter().skip(1).map(|(_, of)| of.conducts_from()).reduce(f64::min);
        pin.free_below = first.filter(|_| quiet).map(Volt);
        Outcome { solved, ..self.outcome }
    }
}

/// I of (V + R·I)·I·100 ns = E.
fn equivalent(energy: Joule, volts: Volt, resistance: Ohm) -> Ampere {
    let power = energy.0 / PULSE.0;
    let root = (volts.0 * volts.0 + 4.0 * resistance.0 * power).sqrt();
    let amperes = 2.0 * power / (volts.0 + root);
    Ampere(if power > 0.0 { amperes } else { 0.0 })
}

/// Voltage and current at the terminals of a part.
fn at(terminal: &Terminal, now: &Memory) -> (f64, f64) {
    let amperes = match terminal.lead {
        Some(lead) => now.series[lead],
        None => now.through[terminal.conductor] + terminal.capacitance.map_or(0.0, |c| now.shunts[c]),
    };
    (now.volts[terminal.node], amperes)
}
