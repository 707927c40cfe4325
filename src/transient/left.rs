//! What is still to come at the end of the time that a discharge is followed.

use super::circuit::{Circuit, Line, Series, Shunt};
use super::source::ContactDischarge;
use super::stepper::Memory;

/// The spans at the end whose means tell whether the pin still rises, in second.
const SPAN: f64 = 20e-9;
const SPANS: usize = 3;
/// A rise from span to span below this share of the highest voltage is none.
const RISES: f64 = 1e-4;
/// The source falls to 0.58 in a span: what rises by less than this share of the rise before follows it, if no node stands
/// higher than the pin by more than [`HIGHER`].
const FOLLOWS: f64 = 0.65;
const HIGHER: f64 = 1.02;
/// What is left of such a rise counts from this share of the highest voltage on.
const COUNTS: f64 = 0.02;
/// What a capacitance behind an inductance reaches over what charges it.
const OVERSHOOT: f64 = 2.0;

/// What is seen of the last spans.
#[derive(Debug)]
pub(super) struct End {
    end: f64,
    /// Mean voltage of the pin in each span, times its length.
    pin: [f64; SPANS],
    /// Of every node in the last one.
    nodes: Vec<f64>,
}

impl End {
    /// Of a discharge that is followed until `end`.
    pub(super) fn of(circuit: &Circuit, end: f64) -> End {
        End { end, pin: [0.0; SPANS], nodes: vec![0.0; circuit.nodes] }
    }

    /// Looks at the end of a step that began at `before`; whether it is the last one.
    pub(super) fn look(&mut self, now: &Memory, before: f64, pin: usize) -> bool {
        let within = |k: usize| {
            let from = self.end - SPAN * (SPANS - k) as f64;
            (now.t.min(from + SPAN) - before.max(from)).max(0.0)
        };
        if now.t > self.end - SPAN * SPANS as f64 {
            let shares: [f64; SPANS] = std::array::from_fn(within);
            self.pin.iter_mut().zip(shares).for_each(|(sum, share)| *sum += share * now.volts[pin]);
            let last = shares[SPANS - 1];
            self.nodes.iter_mut().zip(&now.volts).for_each(|(sum, volts)| *sum += last * volts);
        }
        now.t >= self.end
    }

    /// What the pin may come to, where it still rises away from ground and that is above the `highest` voltage seen; else 0.
    pub(super) fn rises_to(&self, highest: f64) -> f64 {
        let [first, second, third] = self.pin.map(|sum| sum / SPAN);
        let away = third.signum();
        let (before, now) = ((second - first) * away, (third - second) * away);
        let store = self.nodes.iter().fold(0.0, |store: f64, sum| store.max((sum / SPAN).abs()));
        let most = OVERSHOOT * store;
        if now <= RISES * highest || most <= highest {
            return 0.0;
        }
        let follows = now < FOLLOWS * before && store <= HIGHER * third.abs();
        if follows && now * now / (before - now) <= COUNTS * highest { 0.0 } else { most }
    }
}

/// The energy that may still go into a clamp, at most: what every capacitance holds above the voltage from which it conducts,
/// all of the inductances, and what it takes now for as long as the source falls.
pub(super) fn energy_left(circuit: &Circuit, now: &Memory, clamp: usize) -> f64 {
    let (node, conductor) = &circuit.conductors[clamp];
    let above = |capacitance: f64, volts: f64| {
        let begins = conductor.begins(volts > 0.0);
        0.5 * capacitance * (volts * volts - begins * begins).max(0.0)
    };
    let flows = |inductance: f64, amperes: f64| 0.5 * inductance * amperes * amperes;
    let shunts = circuit.shunts.iter().zip(&now.shunts).map(|((node, shunt), amperes)| match *shunt {
        Shunt::Resistance(_) => 0.0,
        Shunt::Capacitance(capacitance) => above(capacitance, now.volts[*node]),
        Shunt::Inductance(inductance) => flows(inductance, *amperes),
    });
    let series = circuit.series.iter().zip(&now.series).map(|((a, b, series), amperes)| match *series {
        Series::Choke { inductance, .. } => flows(inductance, *amperes),
        Series::Capacitance(capacitance) => 0.5 * capacitance * (now.volts[*a] - now.volts[*b]).powi(2),
    });
    let of_line = |Line { ends, impedance, delay }: &Line| {
        ends.iter().map(|end| above(delay / impedance / 2.0, now.volts[*end])).sum::<f64>()
    };
    let [.., slow] = ContactDischarge::TERMS;
    let still = (now.through[clamp] * now.volts[*node]).abs() * slow.fall.0;
    shunts.chain(series).sum::<f64>() + circuit.lines.iter().map(of_line).sum::<f64>() + still
}
