//! Random circuits and random sheets, up to the ends of all ranges: every run ends, and nothing in it is no number.

use std::fmt::Write;

use lanecap::Design;
use lanecap::figures::*;
use lanecap::transient::{
    Bench, Circuit, Conductor, Node, NotStruck, Outcome, Sign, SnapBack, Strike, Surge, struck, surge,
};
use lanecap::units::{Ampere, Farad, Henry, Ohm, Second, Volt};

use crate::support::random::Random;

const STEP: Second = Second(2e-12);

/// Something of a range: mostly of the usual size, at times from anywhere in the range or its very end.
fn of(random: &mut Random, usual: [f64; 2], range: Range) -> f64 {
    let low = range.low.max(1e-21);
    match random.below(12) {
        0 => range.low,
        1 => range.high,
        2 | 3 => random.decade(low, range.high),
        _ => random.decade(usual[0], usual[1]),
    }
}

/// Of a side, of two that are alike, or of two that are not.
fn conductor(random: &mut Random) -> Conductor {
    let above = side(random);
    match random.below(4) {
        0 => above,
        1 => above.both_ways(),
        2 => above.below(&side(random)).upside_down(),
        _ => above
            .below(&Conductor::from(Volt(of(random, [0.5, 1.0], VOLTAGE)), Ohm(of(random, [0.05, 10.0], RESISTANCE)))),
    }
}

fn side(random: &mut Random) -> Conductor {
    let from = of(random, [0.5, 50.0], VOLTAGE);
    let slope = of(random, [0.05, 10.0], RESISTANCE);
    let conductor = if random.chance(0.3) {
        let next = from * random.between(1.001, 10.0);
        Conductor::through(Volt(from), &[(Volt(next), Ampere(of(random, [1.0, 20.0], CURRENT)))], Ohm(slope))
    } else {
        Conductor::from(Volt(from), Ohm(slope))
    };
    if random.chance(0.5) {
        return conductor;
    }
    let trigger = Volt(from * random.between(1.01, 50.0));
    let holding = Ampere(if random.chance(0.3) { 0.0 } else { of(random, [1e-3, 1.0], CURRENT) });
    let turn_on = random.chance(0.5).then(|| Second(of(random, [1e-10, 3e-9], TURN_ON)));
    conductor.snaps_back(SnapBack { trigger, holding, turn_on })
}

fn grow(random: &mut Random, circuit: &mut Circuit, node: Node) -> Node {
    let farad = |random: &mut Random| Farad(of(random, [0.05e-12, 10e-12], CAPACITANCE));
    let henry = |random: &mut Random| Henry(of(random, [0.1e-9, 10e-9], INDUCTANCE));
    let ohm = |random: &mut Random| Ohm(of(random, [0.1, 100.0], RESISTANCE));
    match random.below(9) {
        0 => {
            let c = farad(random);
            circuit.shunt_capacitance(node, c);
            node
        }
        1 => {
            let l = of(random, [1e-9, 1e-6], INDUCTANCE_ABOVE_ZERO);
            circuit.shunt_inductance(node, Henry(l));
            node
        }
        2 => {
            let r = of(random, [1.0, 1e4], SHUNT_RESISTANCE);
            circuit.shunt_resistance(node, Ohm(r));
            node
        }
        3 => {
            let (r, l) = (ohm(random), henry(random));
            circuit.series(node, r, l)
        }
        4 => circuit.series_capacitance(node, Farad(of(random, [1e-12, 1e-6], CAPACITANCE_ABOVE_ZERO))),
        5 | 6 => {
            let (z, delay) = (of(random, [20.0, 120.0], IMPEDANCE), of(random, [1e-12, 1e-9], DELAY));
            let behind = circuit.line(node, Ohm(z), Second(delay));
            // An open stub, at times.
            if random.chance(0.2) { node } else { behind }
        }
        7 => {
            let conductor = conductor(random);
            circuit.conductor(node, conductor);
            node
        }
        _ => {
            let series = (ohm(random), henry(random));
            let (c, conductor) = (farad(random), conductor(random));
            circuit.part(node, series, c, conductor);
            node
        }
    }
}

#[track_caller]
fn numbers(seed: u64, outcome: &Outcome) {
    let pin = &outcome.pin;
    let mut all = vec![pin.peak.0, pin.peak_at.0, pin.late_peak.0, pin.plateau.0, pin.peak_current.0, pin.energy.0];
    all.extend([pin.equivalent.0, pin.swing.0, pin.late_swing.0]);
    for part in &outcome.parts {
        all.extend([part.peak.0, part.energy.0, part.on_at.map_or(0.0, |t| t.0)]);
    }
    assert!(all.iter().all(|number| number.is_finite()), "{seed}: {outcome:?}");
    assert!(pin.peak.0 >= 0.0 && pin.peak_current.0 >= 0.0 && pin.energy.0 >= 0.0, "{seed}: {outcome:?}");
}

/// A ladder of up to 24 random elements, at a random level.
pub(super) fn circuits(seeds: std::ops::Range<u64>) {
    let mut unsolved = Vec::new();
    for seed in seeds.clone() {
        let mut random = Random(seed);
        let (mut circuit, mut node) = Circuit::struck();
        for _ in 0..1 + random.below(24) {
            node = grow(&mut random, &mut circuit, node);
        }
        let clamp = random.chance(0.7).then(|| {
            let from = of(&mut random, [0.7, 20.0], VOLTAGE);
            let slope = of(&mut random, [0.2, 5.0], CHIP_RESISTANCE);
            circuit
                .conductor(node, Conductor::from(Volt(from), Ohm(slope)).below(&Conductor::from(Volt(0.7), Ohm(slope))))
        });
        let level = Volt(of(&mut random, [500.0, 15e3], VOLTAGE));
        let bench = Bench::new(&circuit, STEP).expect("a ladder has no loop");
        let outcome = bench.run(&Strike { level, pin: node, clamp, arrives: Second(0.0) }, None);
        numbers(seed, &outcome);
        if !outcome.solved {
            unsolved.push(seed);
        }
    }
    assert!(unsolved.is_empty(), "{} of {seeds:?} without a solution: {unsolved:?}", unsolved.len());
}

/// A sheet with a path from connector to pin, and all that a part may state.
fn sheet(random: &mut Random) -> String {
    let number = |random: &mut Random, usual: [f64; 2], range: Range| of(random, usual, range);
    let mut text = String::new();
    for name in ["a", "b"] {
        let standoff = random.decade(1.0, 40.0);
        let clamp = standoff * random.between(1.05, 3.0);
        let current = of(random, [1.0, 30.0], Range { low: 1e-3, ..CURRENT });
        let (c, l) = (number(random, [1e-13, 1e-10], CAPACITANCE), number(random, [1e-10, 2e-9], INDUCTANCE));
        let r = number(random, [0.05, 1.0], RESISTANCE);
        writeln!(text, "part \"{name}\" {{ capacitance {c:e} F max at 0 V; inductance {l:e} H; resistance {r:e} ohm")
            .unwrap();
        text += *random.pick(&["unidirectional\n", "bidirectional\n"]);
        writeln!(text, "standoff {standoff} V; clamp {clamp} V at {current:e} A").unwrap();
        if random.chance(0.5) {
            let (trigger, holding) = (clamp * random.between(1.1, 20.0), standoff * random.between(0.1, 0.9));
            writeln!(text, "trigger {trigger} V; holding {holding} V").unwrap();
            if random.chance(0.5) {
                writeln!(text, "turn_on {:e} s", number(random, [1e-10, 3e-9], TURN_ON)).unwrap();
            }
        }
        text += "}\n";
    }
    text += "rail \"r\" { line_voltage 0 V; current 1 A; exposure contact 8 kV; exposure surge 20 A\npath { connector 1 pF 2 nH\n";
    let protector = random.below(6);
    for k in 0..6 {
        if k == protector {
            let (pad, l) = (number(random, [1e-14, 1e-12], CAPACITANCE), number(random, [1e-10, 1e-9], INDUCTANCE));
            writeln!(text, "protector pad {pad:e} F inductance {l:e} H part \"a\"").unwrap();
        }
        let of_each = |random: &mut Random| match random.below(6) {
            0 => {
                format!("trace {:e} ohm {:e} s", of(random, [30.0, 90.0], IMPEDANCE), of(random, [1e-12, 1e-9], DELAY))
            }
            1 => format!("series {:e} ohm", of(random, [1.0, 50.0], RESISTANCE)),
            2 => format!("series {:e} H", of(random, [1e-9, 1e-6], INDUCTANCE_ABOVE_ZERO)),
            3 => format!("series {:e} F", of(random, [1e-9, 1e-6], CAPACITANCE_ABOVE_ZERO)),
            4 => format!("shunt {:e} F", of(random, [1e-12, 1e-9], CAPACITANCE_ABOVE_ZERO)),
            _ => "guard part \"b\"".to_owned(),
        };
        writeln!(text, "{}", of_each(random)).unwrap();
    }
    let clamp = random.decade(1.0, 50.0);
    writeln!(text, "pin pad 5 pF clamps {clamp} V {:e} ohm }} }}", of(random, [0.3, 5.0], CHIP_RESISTANCE)).unwrap();
    text
}

/// Sheets that are refused count as none.
pub(super) fn sheets(seeds: std::ops::Range<u64>) {
    let (all, mut computed) = (seeds.end - seeds.start, 0);
    for seed in seeds {
        let text = sheet(&mut Random(seed));
        let Ok(design) = Design::parse(&text) else { continue };
        let line = &design.lines[0];
        for sign in [Sign::Positive, Sign::Negative] {
            let struck = match struck(line, sign) {
                Ok(struck) => struck,
                // A way of more than 500 ns is not followed.
                Err(NotStruck::Missing(..) | NotStruck::NotComputable) => continue,
                Err(refused) => panic!("{seed}: {refused:?}\n{text}"),
            };
            let strike = struck.strike(Volt(8e3));
            let outcome = Bench::new(&struck.circuit, STEP).expect("a path has no loop").run(&strike, None);
            numbers(seed, &outcome);
            assert!(outcome.solved, "{seed}\n{text}");
            computed += 1;
        }
        let Some(path) = line.path() else { panic!("{text}") };
        for stated in [Surge::Current(Ampere(20.0)), Surge::Voltage(Volt(1e3), Ohm(2.0))] {
            if let Ok(outcome) = surge(path, stated, Sign::Positive) {
                let parts = outcome.parts.iter().flat_map(|(_, part)| [part.peak.0, part.length.0, part.energy.0]);
                assert!(parts.chain([outcome.pin_peak.0]).all(|n| n.is_finite()), "{seed}: {outcome:?}\n{text}");
            }
        }
    }
    assert!(computed > all * 3 / 2, "{computed} of {all}, each in two polarities");
}

#[test]
fn circuits_to_the_ends_of_their_ranges() {
    circuits(0..200);
}

#[test]
fn sheets_to_the_ends_of_their_ranges() {
    sheets(0..100);
}

/// Takes minutes: `cargo test --release --test suite -- --ignored ten_thousand_random`.
#[test]
#[ignore = "minutes"]
fn ten_thousand_random_circuits_and_sheets() {
    circuits(1_000..8_000);
    sheets(1_000..4_000);
}
