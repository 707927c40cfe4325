//! Circuits that have a closed form.

use lanecap::model::{ClampPoint, Part, Strength};
use lanecap::transient::misses_clamp;
use lanecap::transient::{
    Bench, Circuit, Conductor, ContactDischarge, LEAST_SLOPE, Node, Outcome, SnapBack, Strike, Trace, WINDOW,
};
use lanecap::units::{Ampere, Farad, Henry, Ohm, Second, Volt};

const LEVEL: Volt = Volt(8e3);
const STEP: Second = Second(2e-12);

fn source(t: f64) -> f64 {
    ContactDischarge { level: LEVEL }.current(Second(t)).0
}

fn run(circuit: &Circuit, pin: Node, clamp: Option<usize>) -> (Outcome, Trace) {
    let mut trace = Trace::default();
    let strike = Strike { level: LEVEL, pin, clamp, arrives: Second(0.0) };
    let bench = Bench::new(circuit, STEP).expect("no loop");
    let outcome = bench.run(&strike, Some(&mut trace));
    assert!(outcome.solved);
    (outcome, trace)
}

/// Largest difference of two waves, of the largest value.
fn apart(t: &[f64], wave: &[f64], exact: impl Fn(f64) -> f64) -> f64 {
    let largest = t.iter().map(|t| exact(*t).abs()).fold(0.0, f64::max);
    t.iter().zip(wave).map(|(t, v)| (v - exact(*t)).abs()).fold(0.0, f64::max) / largest
}

#[test]
fn a_resistance_divides_at_every_instant() {
    // 330 Ω beside 50 Ω that conducts from 0 V.
    let (mut circuit, struck) = Circuit::struck();
    let clamp = circuit.conductor(struck, Conductor::from(Volt(0.0), Ohm(50.0)));
    let (outcome, trace) = run(&circuit, struck, Some(clamp));
    let parallel = 330.0 * 50.0 / 380.0;
    let wrong = apart(&trace.t, &trace.pin, |t| parallel * source(t));
    assert!(wrong < 1e-6, "{wrong}");
    let peak = 29.84;
    assert!((outcome.pin.peak.0 - parallel * peak).abs() < 0.01 * parallel, "{}", outcome.pin.peak);
    assert!((outcome.pin.peak_current.0 - peak * 330.0 / 380.0).abs() < 0.01);
}

#[test]
fn protector_and_chip_share_by_their_resistances() {
    // Two straight lines from 2 V with 0.5 Ω, and from 3 V with 2 Ω behind 1.5 Ω: beside 330 Ω.
    let (mut circuit, struck) = Circuit::struck();
    circuit.part(struck, (Ohm(0.0), Henry(0.0)), Farad(0.0), Conductor::from(Volt(2.0), Ohm(0.5)));
    let pin = circuit.series(struck, Ohm(1.5), Henry(0.0));
    let clamp = circuit.conductor(pin, Conductor::from(Volt(3.0), Ohm(2.0)));
    let (_, trace) = run(&circuit, pin, Some(clamp));
    // i = (v − 2)/0.5 + (v − 3)/3.5 + v/330 where both conduct.
    let exact = |t: f64| {
        let v = (source(t) + 2.0 / 0.5 + 3.0 / 3.5) / (1.0 / 0.5 + 1.0 / 3.5 + 1.0 / 330.0);
        let one = (source(t) + 2.0 / 0.5) / (1.0 / 0.5 + 1.0 / 330.0);
        let none = 330.0 * source(t);
        let v = if none < 2.0 {
            none
        } else if one < 3.0 {
            one
        } else {
            v
        };
        ((v - 3.0) / 3.5).max(0.0)
    };
    let wrong = apart(&trace.t, &trace.chip, exact);
    assert!(wrong < 1e-5, "{wrong}");
}

#[test]
fn an_inductance_alone_shows_the_steepest_rise() {
    // L · di/dt with 1 nH to a short circuit: 37.5 V at 8 kV; 330 Ω take L/R = 3 ps.
    let (mut circuit, struck) = Circuit::struck();
    let short = circuit.series(struck, Ohm(0.0), Henry(1e-9));
    let clamp = circuit.conductor(short, Conductor::from(Volt(0.0), LEAST_SLOPE));
    let (_, trace) = run(&circuit, short, Some(clamp));
    let highest = trace.struck.iter().copied().fold(0.0, f64::max);
    assert!((highest - 37.5).abs() < 0.1, "{highest}");
}

#[test]
fn a_matched_line_gives_the_same_wave_later() {
    // 50 Ω, 1 ns, ended in 50 Ω; at the struck node 330 Ω beside 50 Ω.
    let (mut circuit, struck) = Circuit::struck();
    let end = circuit.line(struck, Ohm(50.0), Second(1e-9));
    let clamp = circuit.conductor(end, Conductor::from(Volt(0.0), Ohm(50.0)));
    let (_, trace) = run(&circuit, end, Some(clamp));
    let parallel = 330.0 * 50.0 / 380.0;
    let wrong = apart(&trace.t, &trace.pin, |t| parallel * source(t - 1e-9));
    assert!(wrong < 2e-4, "{wrong}");
    let wrong = apart(&trace.t, &trace.struck, |t| parallel * source(t));
    assert!(wrong < 2e-4, "{wrong}");
}

#[test]
fn a_mismatched_line_bounces() {
    // 50 Ω, ended in 10 Ω: ρ = −40/60 at the end, ρ = 280/380 at 330 Ω; the sum of its bounces. The shorter one is soon
    // shorter than a step.
    for delay in [0.7e-9, 0.03e-9] {
        let (mut circuit, struck) = Circuit::struck();
        let end = circuit.line(struck, Ohm(50.0), Second(delay));
        let clamp = circuit.conductor(end, Conductor::from(Volt(0.0), Ohm(10.0)).both_ways());
        let (_, trace) = run(&circuit, end, Some(clamp));
        let (far, near, first) = (-40.0 / 60.0, 280.0 / 380.0, 330.0 * 50.0 / 380.0);
        let exact = |t: f64| {
            (0..400)
                .map(|n| (1.0 + far) * f64::powi(far * near, n) * first * source(t - delay * f64::from(2 * n + 1)))
                .sum::<f64>()
        };
        let wrong = apart(&trace.t, &trace.pin, exact);
        assert!(wrong < 5e-4, "{wrong} of {delay} s");
    }
}

#[test]
fn a_capacitance_is_charged_through_the_resistances() {
    // 100 pF behind 20 Ω: against the convolution of the source, by the trapezoidal rule at a tenth of a picosecond.
    let (mut circuit, struck) = Circuit::struck();
    let pin = circuit.series(struck, Ohm(20.0), Henry(0.0));
    circuit.shunt_capacitance(pin, Farad(100e-12));
    let (_, trace) = run(&circuit, pin, None);
    // C dv/dt = (330 i − v)/350: v = Σ of what each instant leaves, exact for a source straight within a step.
    let (tau, step) = (350.0 * 100e-12, 1e-13);
    let decay = f64::exp(-step / tau);
    let (mut v, mut t, mut wrong, mut largest) = (0.0f64, 0.0f64, 0.0f64, 0.0f64);
    for (at, got) in trace.t.iter().zip(&trace.pin) {
        while t + step / 2.0 < *at {
            let (a, b) = (330.0 * source(t), 330.0 * source(t + step));
            let slope = (b - a) / step;
            v = b - slope * tau + (v - a + slope * tau) * decay;
            t += step;
        }
        wrong = wrong.max((v - got).abs());
        largest = largest.max(v);
    }
    assert!(wrong < 3e-5 * largest, "{wrong} of {largest}");
}

/// 4 V + 2 Ω · i above ground, 0.7 V + 0.5 Ω · i below it.
fn chip() -> Conductor {
    Conductor::from(Volt(4.0), Ohm(2.0)).below(&Conductor::from(Volt(0.7), Ohm(0.5)))
}

/// What is upside down is struck from below: a divider that conducts from 0.7 V with 0.5 Ω behind 3 Ω.
#[test]
fn a_clamp_upside_down_conducts_as_it_does_below() {
    let (mut circuit, struck) = Circuit::struck();
    let pin = circuit.series(struck, Ohm(3.0), Henry(0.0));
    let clamp = circuit.conductor(pin, chip().upside_down());
    let (outcome, trace) = run(&circuit, pin, Some(clamp));
    let exact = |t: f64| ((330.0 * source(t) - 0.7) / 333.5).max(0.0);
    let wrong = apart(&trace.t, &trace.chip, exact);
    assert!(wrong < 1e-5, "{wrong}");
    assert_eq!(outcome.pin.swing, Volt(0.0));
}

/// A capacitance in series, charged by the strike, pulls the pin below ground as the source falls: the charge that went in
/// through the clamp comes back through its other side, C · dv/dt + i = 0 with the pin at −0.7 V − 0.5 Ω · i.
#[test]
fn a_charged_capacitance_discharges_through_the_other_side() {
    // 4.7 nF from the struck node to the pin, beside 330 Ω and a part of 0.1 Ω both ways from 0 V: a divider to 0 V.
    let (mut circuit, struck) = Circuit::struck();
    circuit.part(struck, (Ohm(0.0), Henry(0.0)), Farad(0.0), Conductor::from(Volt(0.0), Ohm(1.0)).both_ways());
    let pin = circuit.series_capacitance(struck, Farad(4.7e-9));
    let clamp = circuit.conductor(pin, chip());
    let (outcome, trace) = run(&circuit, pin, Some(clamp));
    // One state, the voltage u of the capacitance: r (i − j) = u + v(j), r = 330 Ω ∥ 1 Ω, du/dt = j/C.
    let (r, c, step) = (330.0 / 331.0, 4.7e-9, 1e-13);
    let into = |t: f64, u: f64| {
        let open = r * source(t) - u;
        if open > 4.0 {
            (open - 4.0) / (r + 2.0)
        } else if open < -0.7 {
            (open + 0.7) / (r + 0.5)
        } else {
            0.0
        }
    };
    let (mut u, mut t) = (0.0, 0.0);
    let (mut wrong, mut least, mut energies) = (0.0f64, 0.0f64, [0.0f64; 2]);
    for (at, got) in trace.t.iter().zip(&trace.chip) {
        while t + step / 2.0 < *at {
            // The midpoint rule.
            let half = u + into(t, u) * step / 2.0 / c;
            let j = into(t + step / 2.0, half);
            u += j * step / c;
            let volts = if j > 0.0 { 4.0 + 2.0 * j } else { -0.7 + 0.5 * j };
            energies[usize::from(j < 0.0)] += if j == 0.0 { 0.0 } else { j * volts * step };
            t += step;
        }
        let exact = into(*at, u);
        (wrong, least) = (wrong.max((exact - got).abs()), least.min(exact));
    }
    assert!(least < -0.5, "it swings below ground: {least} A");
    assert!(wrong < 1e-3, "{wrong} A");
    assert!((outcome.pin.swing.0 - (0.7 - 0.5 * least)).abs() < 1e-3, "{} against {least} A", outcome.pin.swing);
    let energy: f64 = energies.iter().sum();
    assert!((outcome.pin.energy.0 - energy).abs() < 1e-3 * energy, "{} against {energy} J", outcome.pin.energy);
    assert!((outcome.pin.energy_back.0 - energies[1]).abs() < 1e-3 * energy, "{energies:?} {:?}", outcome.pin);
    // Each direction by its own line, (V + R I) I 100 ns = E: 4 V and 2 ohm, 0.7 V and 0.5 ohm.
    let pulse = |volts: f64, ohms: f64, energy: f64| {
        let half = volts / ohms / 2.0;
        (half * half + energy / 100e-9 / ohms).sqrt() - half
    };
    let both = pulse(4.0, 2.0, energies[0]) + pulse(0.7, 0.5, energies[1]);
    assert!((outcome.pin.equivalent.0 - both).abs() < 1e-3 * both, "{} against {both} A", outcome.pin.equivalent);
    assert!(both > 1.05 * pulse(4.0, 2.0, energy), "{both} A");
}

/// While it is on, a part that snapped back carries nothing the other way; off, its junction does.
#[test]
fn a_part_that_is_on_does_not_conduct_the_other_way() {
    let snap = SnapBack { trigger: Volt(20.0), holding: Ampere(0.05), turn_on: None };
    let part = Conductor::from(Volt(2.0), Ohm(0.5)).snaps_back(snap);
    let run_of = |part: Conductor| {
        let (mut circuit, struck) = Circuit::struck();
        let behind = circuit.series_capacitance(struck, Farad(0.2e-9));
        circuit.part(behind, (Ohm(0.0), Henry(0.0)), Farad(1e-12), part);
        circuit.shunt_resistance(struck, Ohm(2.0));
        run(&circuit, behind, None)
    };
    let junction = part.clone().below(&Conductor::from(Volt(0.7), Ohm(0.5)));
    let (outcome, trace) = run_of(junction);
    assert!(outcome.parts[0].on_at.is_some());
    // As the source falls the capacitance pulls the node down: it is on for 1 ns more, below −0.7 V, and then it is held.
    let (_, amperes) = &trace.parts[0];
    let first = trace.t.iter().zip(&trace.pin).position(|(_, v)| *v < -0.75).expect("it swings");
    assert!(amperes[first].abs() < 0.02, "{} A at {} V", amperes[first], trace.pin[first]);
    let least = amperes.iter().copied().fold(0.0, f64::min);
    assert!(least < -0.1, "{least} A");
    // Held, the node is on its line.
    let at = amperes.iter().position(|i| *i == least).expect("somewhere");
    assert!(trace.pin[at] < -0.7 && trace.pin[at] > -0.7 + 0.6 * least, "{} V at {least} A", trace.pin[at]);
    // What is alike below waits for −20 V there, and takes nothing before.
    let (outcome, trace) = run_of(part.both_ways());
    let lowest = trace.pin.iter().copied().fold(0.0, f64::min);
    assert!(lowest < -1.0 && (outcome.pin.swing.0 + lowest).abs() < 1e-9, "{lowest}");
}

/// Alike on both sides, upside down is the same.
#[test]
fn what_is_alike_both_ways_is_the_same_upside_down() {
    let snap = SnapBack { trigger: Volt(20.0), holding: Ampere(0.05), turn_on: None };
    let curve = Conductor::through(Volt(5.0), &[(Volt(7.0), Ampere(4.0))], Ohm(0.2));
    for part in [curve.clone().both_ways(), curve.clone().snaps_back(snap).both_ways()] {
        assert_eq!(part.clone().upside_down(), part);
    }
    let apart = curve.below(&Conductor::from(Volt(0.7), Ohm(1.0)));
    assert_ne!(apart.clone().upside_down(), apart);
    assert_eq!(apart.clone().upside_down().upside_down(), apart);
}

#[test]
fn the_struck_node_does_not_exceed_the_level() {
    let (circuit, struck) = Circuit::struck();
    let (outcome, _) = run(&circuit, struck, None);
    // 330 Ω · 29.8 A = 9.85 kV without a limit.
    assert!((outcome.pin.peak.0 - 8e3).abs() < 0.1, "{}", outcome.pin.peak);
}

#[test]
fn a_part_that_snaps_back_waits_for_its_trigger_and_lets_go() {
    // Alone at the struck node with 1 pF and 0.3 nH: it triggers where 330 Ω beside 1 pF have charged it to 20 V, holds
    // 2 V + 0.5 Ω · i, and lets go 1 ns after its current has fallen to 50 mA.
    let (mut circuit, struck) = Circuit::struck();
    let snap = SnapBack { trigger: Volt(20.0), holding: Ampere(2.0), turn_on: None };
    let part = Conductor::from(Volt(2.0), Ohm(0.5)).snaps_back(snap);
    circuit.part(struck, (Ohm(0.0), Henry(0.3e-9)), Farad(1e-12), part);
    let (outcome, trace) = run(&circuit, struck, None);
    let on = outcome.parts[0].on_at.expect("it turns on").0;
    // 1 pF takes the whole current at first: ∫ i dt = 20 pC at 8 kV.
    let (mut charge, mut by_hand) = (0.0, 0.0);
    while charge < 20e-12 + 20.0 / 330.0 * 0.1e-12 {
        by_hand += 0.1e-12;
        charge += source(by_hand) * 0.1e-12;
    }
    assert!((on - by_hand).abs() < 6e-12, "{on} against {by_hand}");
    // Turned on and at rest: 330 Ω take little, L di/dt is small at 30 ns.
    let late = trace.t.iter().position(|t| *t >= 30e-9).expect("30 ns");
    let exact = (2.0 + 0.5 * source(30e-9)) * 330.0 / 330.5;
    assert!((trace.struck[late] - exact).abs() < 0.01 * exact, "{} against {exact}", trace.struck[late]);
    // 2 A flow no longer after some 110 ns; it lets go 1 ns later, and the node rises towards 330 Ω · 2 A until it triggers
    // again at 20 V.
    let again = trace.t.iter().zip(&trace.struck).any(|(t, v)| *t > 100e-9 && *v > 15.0);
    assert!(again);
}

#[test]
fn charge_goes_in_and_comes_out() {
    // All that the source gives goes through 330 Ω, the part and the clamp, or stays in the capacitances.
    let (mut circuit, struck) = Circuit::struck();
    let snap = SnapBack { trigger: Volt(15.0), holding: Ampere(0.05), turn_on: None };
    let part = Conductor::from(Volt(1.5), Ohm(0.4)).snaps_back(snap);
    circuit.part(struck, (Ohm(0.0), Henry(0.4e-9)), Farad(0.5e-12), part);
    let pin = circuit.line(struck, Ohm(50.0), Second(120e-12));
    circuit.shunt_capacitance(pin, Farad(0.4e-12));
    let clamp = circuit.conductor(pin, Conductor::from(Volt(3.3), Ohm(4.0)));
    let (_, trace) = run(&circuit, pin, Some(clamp));
    let through = |wave: &dyn Fn(usize) -> f64| {
        (1..trace.t.len()).map(|k| (wave(k) + wave(k - 1)) / 2.0 * (trace.t[k] - trace.t[k - 1])).sum::<f64>()
    };
    let given = through(&|k| source(trace.t[k]));
    let out = through(&|k| trace.struck[k] / 330.0) + through(&|k| trace.chip[k]) + through(&|k| trace.parts[0].1[k]);
    // What is left in 0.5 pF, 0.4 pF and 2.4 pF of the line is some 10 pC.
    assert!((given - out).abs() < 1e-3 * given, "{given} against {out}");
    assert!(trace.t.last().is_some_and(|t| *t >= WINDOW.0));
}

#[test]
fn a_part_whose_lines_miss_its_clamp_point_says_so() {
    // 3.3 V + 0.4 ohm · 16 A = 9.7 V, and 1 mohm for what is left of 0.35 ohm: 9.716 V in place of 8.5 V.
    let part = |resistance: f64| Part {
        resistance: Ohm(resistance),
        strength: Strength {
            standoff: Some(Volt(3.3)),
            clamp: Some(ClampPoint { voltage: Volt(8.5), current: Ampere(16.0) }),
            dynamic_resistance: Some(Ohm(0.35)),
            ..Strength::default()
        },
        ..Part::default()
    };
    assert!(misses_clamp(&part(0.4)).is_some_and(|volts| (volts.0 - 9.716).abs() < 1e-9));
    assert_eq!(misses_clamp(&part(0.3)), None);
    assert_eq!(misses_clamp(&part(0.0)), None);
}
