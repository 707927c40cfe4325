//! Discharges into 56 random lanes against an independent script: fixtures/reference/discharge.py.

use lanecap::Design;
use lanecap::transient::{Sign, struck};
use lanecap::units::Volt;
use serde_json::Value;

/// How close the two must come: peaks and energies, and currents of a pulse of 100 ns, as a share; instants in second.
const PEAK: f64 = 0.02;
const EQUIVALENT: f64 = 0.01;
const INSTANT: f64 = 20e-12;

/// The greatest deviations, for a message.
#[derive(Debug, Default)]
struct Worst {
    peak: (f64, String),
    equivalent: (f64, String),
    instant: (f64, String),
}

fn reference() -> Value {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/reference/discharge.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn note(worst: &mut (f64, String), found: f64, what: impl Fn() -> String) {
    if found > worst.0 {
        *worst = (found, what());
    }
}

#[test]
fn random_lanes() {
    let reference = reference();
    let lanes = reference["lanes"].as_array().unwrap();
    assert!(lanes.len() >= 40);
    // Lanes whose pin swings far enough the other way to conduct there.
    let swings = |lane: &&Value| {
        ["positive", "negative"].iter().any(|of| lane[of]["pin"]["late_lowest_v"].as_f64() < Some(-0.8))
    };
    assert!(lanes.iter().filter(swings).count() >= 5);
    let mut worst = Worst::default();
    let mut unsettled = Vec::new();
    for lane in lanes {
        let name = lane["name"].as_str().unwrap();
        let design = Design::parse(lane["sheet"].as_str().unwrap()).unwrap_or_else(|error| panic!("{name}: {error}"));
        for (sign, key) in [(Sign::Positive, "positive"), (Sign::Negative, "negative")] {
            let line = struck(&design.lines[0], sign).unwrap_or_else(|missing| panic!("{name}: {missing:?}"));
            let settled = line.discharge(Volt(lane["level_v"].as_f64().unwrap())).unwrap();
            if !settled.settled {
                unsettled.push(format!("{name} {key}"));
            }
            let (pin, at_pin) = (&settled.outcome.pin, &lane[key]["pin"]);
            // What is small against 10 mV, 1 mA and 10 pJ is compared with these.
            let share = |got: f64, key: &str, floor: f64| {
                at_pin[key].as_f64().map_or(0.0, |exact| (got - exact).abs() / exact.abs().max(floor))
            };
            for (got, word, floor) in [
                (pin.peak.0, "peak_v", 0.01),
                (pin.late_peak.0, "late_peak_v", 0.01),
                (pin.plateau.0, "v30_v", 0.01),
                (-pin.swing.0, "lowest_v", 0.1),
                (-pin.late_swing.0, "late_lowest_v", 0.1),
                (pin.peak_current.0, "peak_a", 1e-3),
                (pin.energy.0, "energy_j", 1e-11),
            ] {
                note(&mut worst.peak, share(got, word, floor), || {
                    format!("{name} {key} {word}: {got} against {}", at_pin[word])
                });
            }
            note(&mut worst.equivalent, share(pin.equivalent.0, "equivalent_a", 1e-3), || {
                format!("{name} {key}: {} against {}", pin.equivalent, at_pin["equivalent_a"])
            });
            let parts = lane[key]["parts"].as_array().unwrap();
            assert_eq!(parts.len(), line.parts.len(), "{name}");
            for ((part, exact), of) in settled.outcome.parts.iter().zip(parts).zip(&line.parts) {
                assert_eq!(of.part.name, exact["part"].as_str().unwrap());
                match (part.on_at, exact["on_at_s"].as_f64()) {
                    (Some(got), Some(exact)) => {
                        note(&mut worst.instant, (got.0 - exact).abs(), || format!("{name} {key} {}", of.part.name))
                    }
                    (got, exact) => assert_eq!(got.is_some(), exact.is_some(), "{name} {key} {}", of.part.name),
                }
                let share = |got: f64, key: &str, floor: f64| {
                    exact[key].as_f64().map_or(0.0, |exact| (got - exact).abs() / exact.abs().max(floor))
                };
                if of.has_peak {
                    note(&mut worst.peak, share(part.peak.0, "peak_a", 1e-3), || {
                        format!("{name} {key} {}: {} against {}", of.part.name, part.peak, exact["peak_a"])
                    });
                }
                note(&mut worst.peak, share(part.energy.0, "energy_j", 1e-11), || {
                    format!("{name} {key} {} energy: {} against {}", of.part.name, part.energy, exact["energy_j"])
                });
            }
        }
    }
    println!("{worst:#?} {unsettled:?}");
    assert!(worst.peak.0 < PEAK, "{worst:#?}");
    assert!(worst.equivalent.0 < EQUIVALENT, "{worst:#?}");
    assert!(worst.instant.0 < INSTANT, "{worst:#?}");
    assert!(unsettled.is_empty(), "{unsettled:?}");
}
