//! Surges through a path.

use lanecap::Design;
use lanecap::transient::{LineDischarge, SurgeOutcome};

fn surge(parts: &str, exposure: &str, path: &str) -> SurgeOutcome {
    let text = format!(
        "{parts}\nrail \"r\" {{ line_voltage 0 V; current 1 A; exposure surge {exposure}\npath {{ connector 1 pF\n{path} }} }}"
    );
    let design = Design::parse(&text).unwrap_or_else(|error| panic!("{error}"));
    LineDischarge::of(&design.lines[0]).unwrap().surge.unwrap().unwrap()
}

const SHORT: &str = "part \"p\" { capacitance 1 pF max; unidirectional; standoff 1 mV; clamp 2 mV at 500 A }";

/// IEC 61000-4-5, table 2 (from memory): 1 kV behind 2 Ω drives 500 A through a short circuit, 2 kV behind 42 Ω 47.6 A.
#[test]
fn a_short_circuit_takes_the_short_circuit_current() {
    for (exposure, peak) in [("1 kV through 2 ohm", 500.0), ("2 kV through 42 ohm", 2000.0 / 42.0), ("20 A", 20.0)] {
        let outcome = surge(SHORT, exposure, "protector part \"p\"\npin");
        let found = outcome.parts[0].1.peak.0;
        // A line has 1 mΩ at least.
        assert!((found / peak - 1.0).abs() < 6e-4, "{exposure}: {found} A");
    }
}

/// Charge over peak: 17.4 µs of a current of 8/20 µs, 72 µs of a voltage of 1.2/50 µs.
#[test]
fn the_length_of_a_pulse_is_its_charge_over_its_peak() {
    for (exposure, length) in [("1 kV through 2 ohm", 72.3e-6), ("20 A", 17.45e-6)] {
        let found = surge(SHORT, exposure, "protector part \"p\"\npin").parts[0].1.length.0;
        assert!((found / length - 1.0).abs() < 5e-3, "{exposure}: {found} s");
    }
}

/// 20 A through a line of 1 Ω from 10 V beside 4 Ω and a chip that clamps at 6 V with 1 Ω: (20 + 10/1 + 6/5)/(1/1 + 1/5) V.
#[test]
fn part_and_chip_share_by_their_resistances() {
    let part = "part \"p\" { capacitance 1 pF max; unidirectional; standoff 10 V; clamp 30 V at 20 A }";
    let outcome = surge(part, "20 A", "protector part \"p\"\nseries 4 ohm\npin clamps 6 V 1 ohm");
    let node = (20.0 + 10.0 + 6.0 / 5.0) / (1.0 + 1.0 / 5.0);
    let chip = (node - 6.0) / 5.0;
    assert!((outcome.pin_peak_current.unwrap().0 - chip).abs() < 1e-3 * chip, "{outcome:?}");
    assert!((outcome.parts[0].1.peak.0 - (node - 10.0)).abs() < 1e-3 * node, "{outcome:?}");
    assert!((outcome.pin_peak.0 - (6.0 + chip)).abs() < 1e-3 * node, "{outcome:?}");
}

/// A tube that fires at 200 V in front of 20 Ω and a part that holds 20 V: the part carries at most 9 A, the tube the rest.
#[test]
fn a_resistance_lets_the_outer_part_fire() {
    let parts = "part \"tube\" { capacitance 1 pF max; bidirectional; trigger 200 V; holding 10 V at 100 mA; clamp 20 V at 100 A }
        part \"p\" { capacitance 1 pF max; unidirectional; standoff 20 V; clamp 20.001 V at 20 A }";
    let path = |ohms: &str| format!("guard part \"tube\"\nseries {ohms}\nprotector part \"p\"\npin");
    let fires = surge(parts, "1 kV through 40 ohm", &path("20 ohm"));
    let [(_, tube), (_, part)] = fires.parts.as_slice() else { panic!("{fires:?}") };
    assert!(tube.on_at.is_some() && tube.peak.0 > 24.0, "{tube:?}");
    assert!((part.peak.0 - 9.0).abs() < 0.2, "{part:?}");
    // Behind 2 Ω it never sees its 200 V: the part takes all of it.
    let idle = surge(parts, "1 kV through 40 ohm", &path("2 ohm"));
    assert_eq!(idle.parts[0].1.on_at, None);
    assert!((idle.parts[1].1.peak.0 - 980.0 / 42.0).abs() < 0.01, "{idle:?}");
}

/// Without any way for the current the pin stands at the trigger of what turns on last.
#[test]
fn a_pin_without_a_way_stands_at_the_trigger() {
    let part = "part \"p\" { capacitance 1 pF max; bidirectional; trigger 60 V; holding 5 V; clamp 10 V at 10 A }";
    let outcome = surge(part, "10 A", "protector part \"p\"\npin");
    assert!((outcome.pin_peak.0 - 60.0).abs() < 0.5, "{outcome:?}");
    assert_eq!(outcome.pin_peak_current, None);
}
