//! Laws that every struck circuit keeps, whatever is in it.

use lanecap::transient::{Bench, Circuit, Conductor, ContactDischarge, Node, Outcome, SnapBack, Strike, Trace};
use lanecap::units::{Ampere, Farad, Henry, Ohm, Second, Volt};

use crate::support::random::Random;

const STEP: Second = Second(2e-12);

/// By how much a circuit is another one: impedances times `z`, voltages times `v`.
#[derive(Clone, Copy)]
struct Scale {
    z: f64,
    v: f64,
}

const AS_IT_IS: Scale = Scale { z: 1.0, v: 1.0 };

/// A random path: lines, chokes, capacitances, parts of both kinds, a chip; with series resistances where they are wanted.
struct Drawn {
    circuit: Circuit,
    pin: Node,
    clamp: usize,
}

fn drawn(seed: u64, Scale { z, v }: Scale, resistive: bool) -> Drawn {
    let mut random = Random(seed);
    let (mut circuit, mut node) = Circuit::struck();
    let parts = 1 + random.below(2);
    for k in 0..parts {
        node = piece(&mut random, &mut circuit, node, z, resistive);
        let from = random.between(1.0, 12.0) * v;
        let slope = Ohm(random.between(0.1, 1.0) * z);
        let mut conductor = Conductor::from(Volt(from), slope);
        if random.chance(0.6) {
            let trigger = Volt(from * random.between(1.5, 6.0));
            let holding = Ampere(random.between(0.0, 0.1) * v / z);
            let turn_on = random.chance(0.5).then(|| Second(random.decade(0.1e-9, 2e-9)));
            conductor = conductor.snaps_back(SnapBack { trigger, holding, turn_on });
        }
        // Below ground a junction, the same, or nothing.
        conductor = match random.below(3) {
            0 => conductor.below(&Conductor::from(Volt(random.between(0.5, 1.0) * v), slope)),
            1 => conductor.both_ways(),
            _ => conductor,
        };
        let own = if resistive { Ohm(random.between(0.0, 0.5) * z) } else { Ohm(0.0) };
        let series = (own, Henry(random.between(0.1e-9, 1e-9) * z));
        circuit.part(node, series, Farad(random.decade(0.1e-12, 2e-12) / z), conductor);
        if k + 1 < parts {
            node = piece(&mut random, &mut circuit, node, z, resistive);
        }
    }
    let pin = piece(&mut random, &mut circuit, node, z, resistive);
    circuit.shunt_capacitance(pin, Farad(random.decade(0.1e-12, 3e-12) / z));
    let clamp = Conductor::from(Volt(random.between(1.0, 5.0) * v), Ohm(random.between(0.5, 4.0) * z));
    let below = Conductor::from(Volt(random.between(0.5, 1.0) * v), Ohm(random.between(0.5, 4.0) * z));
    let clamp = circuit.conductor(pin, clamp.below(&below));
    Drawn { circuit, pin, clamp }
}

fn piece(random: &mut Random, circuit: &mut Circuit, node: Node, z: f64, resistive: bool) -> Node {
    let behind = circuit.line(node, Ohm(random.between(30.0, 90.0) * z), Second(random.decade(1e-12, 0.4e-9)));
    circuit.shunt_capacitance(behind, Farad(random.decade(0.05e-12, 1e-12) / z));
    let r = if resistive { random.between(0.0, 5.0) * z } else { 0.0 };
    circuit.series(behind, Ohm(r), Henry(random.between(0.1e-9, 1e-9) * z))
}

fn struck(drawn: &Drawn, level: Volt) -> (Outcome, Trace) {
    let mut trace = Trace::default();
    let strike = Strike { level, pin: drawn.pin, clamp: Some(drawn.clamp), arrives: Second(0.0) };
    let outcome = Bench::new(&drawn.circuit, STEP).unwrap().run(&strike, Some(&mut trace));
    assert!(outcome.solved);
    (outcome, trace)
}

fn over_time(trace: &Trace, wave: impl Fn(usize) -> f64) -> f64 {
    (1..trace.t.len()).map(|k| (wave(k) + wave(k - 1)) / 2.0 * (trace.t[k] - trace.t[k - 1])).sum()
}

/// Kirchhoff: what goes in comes out through 330 Ω, the parts and the chip, but for what the capacitances still hold: some
/// 20 pF at a few volts, of microcoulombs.
#[test]
fn charge_in_is_charge_out() {
    for seed in 0..60 {
        let drawn = drawn(seed, AS_IT_IS, true);
        let (_, trace) = struck(&drawn, Volt(6e3));
        let source = ContactDischarge { level: Volt(6e3) };
        let given = over_time(&trace, |k| source.current(Second(trace.t[k])).0);
        let parts: f64 = trace.parts.iter().map(|(_, amperes)| over_time(&trace, |k| amperes[k])).sum();
        let out = over_time(&trace, |k| trace.struck[k] / 330.0) + over_time(&trace, |k| trace.chip[k]) + parts;
        assert!((given - out).abs() < 1e-3 * given, "{seed}: {given} against {out}");
    }
}

/// Energy: where nothing in series has a resistance, what the source gives goes into 330 Ω, the parts and the chip. What is
/// left in inductances and capacitances after 200 ns is some nanojoules at most.
#[test]
fn energy_in_is_energy_out() {
    for seed in 100..160 {
        let drawn = drawn(seed, AS_IT_IS, false);
        let (outcome, trace) = struck(&drawn, Volt(6e3));
        let source = ContactDischarge { level: Volt(6e3) };
        let given = over_time(&trace, |k| trace.struck[k] * source.current(Second(trace.t[k])).0);
        let parts: f64 = outcome.parts.iter().map(|part| part.energy.0).sum();
        let out = over_time(&trace, |k| trace.struck[k].powi(2) / 330.0) + outcome.pin.energy.0 + parts;
        assert!((given - out).abs() < 5e-3 * given, "{seed}: {given} against {out}");
    }
}

fn alike(seed: u64, one: &Outcome, other: &Outcome, volts: f64, amperes: f64) {
    let near = |a: f64, b: f64, what: &str| assert!((a - b).abs() <= 1e-7 * b.abs(), "{seed} {what}: {a} against {b}");
    let (a, b) = (&one.pin, &other.pin);
    near(a.peak.0 * volts, b.peak.0, "peak");
    near(a.late_peak.0 * volts, b.late_peak.0, "late peak");
    near(a.plateau.0 * volts, b.plateau.0, "plateau");
    near(a.peak_current.0 * amperes, b.peak_current.0, "current");
    near(a.energy.0 * volts * amperes, b.energy.0, "energy");
    near(a.equivalent.0 * amperes, b.equivalent.0, "equivalent current");
    assert_eq!(a.peak_at, b.peak_at, "{seed}");
    for (a, b) in one.parts.iter().zip(&other.parts) {
        assert_eq!(a.on_at, b.on_at, "{seed}");
        near(a.peak.0 * amperes, b.peak.0, "peak of a part");
        near(a.energy.0 * volts * amperes, b.energy.0, "energy of a part");
    }
}

/// With every impedance halved (R, L and Z halved, C and holding currents doubled, a second 330 Ω beside the generator's) and
/// twice the current, every voltage is the same.
#[test]
fn half_the_impedance_takes_twice_the_current() {
    for seed in 200..260 {
        let whole = drawn(seed, AS_IT_IS, true);
        let mut half = drawn(seed, Scale { z: 0.5, v: 1.0 }, true);
        let (_, first) = Circuit::struck();
        half.circuit.shunt_resistance(first, Ohm(330.0));
        alike(seed, &struck(&whole, Volt(4e3)).0, &struck(&half, Volt(8e3)).0, 1.0, 2.0);
    }
}

/// With every voltage of every straight line, every holding current and the level three times as high, so is everything.
#[test]
fn three_times_the_voltages_are_three_times_everything() {
    for seed in 300..360 {
        let one = drawn(seed, AS_IT_IS, true);
        let three = drawn(seed, Scale { z: 1.0, v: 3.0 }, true);
        alike(seed, &struck(&one, Volt(2e3)).0, &struck(&three, Volt(6e3)).0, 3.0, 3.0);
    }
}
