//! Guards, chips and curves of parts: each mistake is told once, at its place, with its cure.

use lanecap::diag::Diagnostic;
use lanecap::model::*;
use lanecap::units::*;

use crate::support::read_text;

fn errors(text: &str) -> Vec<(Diagnostic, String)> {
    let (_, design) = read_text(text);
    let found = design.err().unwrap_or_default();
    let place = |error: &Diagnostic| text[error.primary.0.start as usize..error.primary.0.end as usize].to_owned();
    found.into_iter().map(|error| (error.clone(), place(&error))).collect()
}

/// Code and place of each error; every one has a cure.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let found = errors(text);
    assert!(found.iter().all(|(error, _)| error.help.is_some()), "{found:?}");
    found.into_iter().map(|(error, place)| (error.code, place)).collect()
}

fn one(code: &'static str, place: &str) -> Vec<(&'static str, String)> {
    vec![(code, place.to_owned())]
}

fn lane(between: &str, inner: &str) -> String {
    format!(
        "part \"a\" {{ capacitance 0.4 pF max }}
lane \"l\" {{ rate 1 Gb/s nrz; reference 50 ohm; limit added_loss <= 1 dB
path {{ driver 50 ohm\n{between}\nreceiver 50 ohm {inner}\n}} }}"
    )
}

fn part(rows: &str) -> String {
    format!("part \"p\" {{ capacitance 0.4 pF max; {rows} }}\nrail \"r\" {{ line_voltage 1 V; part \"p\" }}")
}

fn slow(path: &str) -> String {
    format!(
        "part \"a\" {{ capacitance 4 pF max }}\npart \"b\" {{ capacitance 5 pF max }}
rail \"r\" {{ line_voltage 1 V; part \"a\"\npath {{ {path} }} }}"
    )
}

#[test]
fn a_guard_is_a_part() {
    assert_eq!(told(&lane("guard part \"a\"; protector; guard part \"a\" pad 0.1 pF", "")), []);
    assert_eq!(told(&lane("guard pad 0.1 pF\nprotector", "")), one("guard-without-part", "guard pad 0.1 pF"));
    assert_eq!(told(&lane("guard part \"aa\"; protector", "")), one("unknown-part", "\"aa\""));
    assert_eq!(told(&lane("guard 0.3 pF part \"a\"; protector", ""))[0].0, "extra-argument");
}

#[test]
fn what_a_chip_survives_needs_its_clamp() {
    let chip = |words: &str| told(&lane("protector", words));
    assert_eq!(chip("clamps 5 V 1 ohm survives 3 A peak 9 A negative 1 V"), []);
    assert_eq!(chip("survives 3 A"), one("chip-without-clamp", "survives"));
    assert_eq!(chip("human_body 2 kV"), one("chip-without-clamp", "human_body"));
    assert_eq!(chip("negative 0.8 V"), one("chip-without-clamp", "negative"));
    assert_eq!(chip("clamps 5 V 1 ohm survives 3 A human_body 2 kV"), one("survives-twice", "2 kV"));
    assert_eq!(chip("clamps 5 V 1 ohm peak 9 A"), one("extra-argument", "9 A"));
    assert_eq!(chip("clamps 5 V")[0].0, "missing-argument");
    assert_eq!(chip("clamps 5 V 0 ohm"), one("out-of-range", "0 ohm"));
    // A chip without a clamp built without a sheet.
    let survives = Some(Survives::of_human_body(Volt(2000.0)));
    let receiver = Receiver { chip: Chip { survives, ..Chip::default() }, ..Ohm(50.0).into() };
    let built = Lane::builder()
        .rate(Baud::giga(1.0), Modulation::Nrz)
        .reference(Ohm(50.0))
        .limit(LaneLimit::Loss(Loss::Added, Over::Level(1.0)))
        .path(|p| p.driver(Ohm(50.0)).protector(Protector::default()).receiver(receiver))
        .build();
    let flaws = built.unwrap_err().list;
    assert_eq!((flaws[0].code, flaws[0].at), ("chip-without-clamp", Place::Value(2, "human_body")));
}

#[test]
fn the_curve_of_a_part_rises() {
    let snaps = "trigger 12 V; holding 4 V";
    for good in [
        "standoff 5 V; clamp 9 V at 16 A; dynamic_resistance 0.3 ohm",
        "standoff 5 V; breakdown 6 V at 1 mA; clamp 9 V at 16 A",
        "standoff 10 V; trigger 12 V; holding 4 V; turn_on 1 ns; clamp 6 V at 16 A; dynamic_resistance 0.2 ohm",
        "trigger 12 V; holding 4 V; clamp 22 V at 16 A",
    ] {
        assert_eq!(told(&part(good)), [], "{good}");
    }
    assert_eq!(told(&part("trigger 8 V; holding 8 V")), one("trigger-below-holding", "trigger 8 V"));
    assert_eq!(told(&part("turn_on 1 ns")), one("turn-on-without-trigger", "turn_on 1 ns"));
    assert_eq!(told(&part("turn_on 1 ns; holding 3 V")), one("turn-on-without-trigger", "turn_on 1 ns"));
    assert_eq!(told(&part("turn_on 1 ns; trigger 9 V")), one("turn-on-without-trigger", "turn_on 1 ns"));
    let high = format!("{snaps}; clamp 22 V at 16 A; dynamic_resistance 0.5 ohm");
    assert_eq!(told(&part(&high)), one("falling-curve", "clamp 22 V at 16 A"));
    assert_eq!(told(&part("standoff 9 V; clamp 9 V at 16 A")), one("falling-curve", "clamp 9 V at 16 A"));
    assert_eq!(told(&part("standoff 9 V; surge_clamp 8 V at 16 A")), one("falling-curve", "surge_clamp 8 V at 16 A"));
    assert_eq!(told(&part("breakdown 9 V; clamp 9 V at 16 A")), one("breakdown-above-clamp", "9 V"));
    assert_eq!(told(&part("bidirectional; negative 1 V")), one("negative-bidirectional", "negative 1 V"));
    // A row that is wrong in itself is no second mistake.
    assert_eq!(told(&part("turn_on 1 ns; trigger 9; holding 3 V"))[0].0, "missing-unit");
    assert_eq!(told(&part("turn_on 1 ns; trigger 9; holding 3 V")).len(), 1);
}

#[test]
fn the_curve_of_a_part_without_a_sheet_rises_too() {
    let flaws = |change: fn(&mut Strength)| {
        let to_ground = Some(CapacitanceRating { maximum: Farad::pico(1.0), bias: None, span: Default::default() });
        let mut part = Part { to_ground, ..Part::default() };
        change(&mut part.strength);
        let rail = Rail { part: Some(part.into()), ..Rail::default() };
        let made = Line::new(Head::new("r"), Kind::Rail(rail));
        made.err().map_or(Vec::new(), |flaws| flaws.list.iter().map(|flaw| flaw.code).collect())
    };
    assert_eq!(flaws(|s| s.standoff = Some(Volt(5.0))), [""; 0]);
    assert_eq!(flaws(|s| s.trigger = Some(Volt(f64::NAN))), ["out-of-range"]);
    assert_eq!(flaws(|s| s.turn_on = Some(Second(1.0))), ["out-of-range"]);
    assert_eq!(flaws(|s| s.turn_on = Some(Second::nano(1.0))), ["turn-on-without-trigger"]);
    assert_eq!(flaws(|s| (s.trigger, s.holding) = (Some(Volt(5.0)), Some(Volt(6.0)))), ["trigger-below-holding"]);
    let falls = |s: &mut Strength| {
        let at = |v: f64, a: f64| Some(ClampPoint { voltage: Volt(v), current: Ampere(a) });
        (s.breakdown, s.clamp) = (at(9.0, 0.0), at(8.0, 1.0));
    };
    assert_eq!(flaws(falls), ["breakdown-above-clamp"]);
}

#[test]
fn a_slow_line_has_the_path_of_a_pin() {
    assert_eq!(told(&slow("connector 1 pF; protector; pin")), []);
    assert_eq!(told(&slow("connector 1 pF; protector part \"b\"; pin")), one("parts-differ", "protector part \"b\""));
    assert_eq!(told(&slow("connector 1 pF; pin"))[0].0, "no-protector");
    assert_eq!(told(&slow("connector 1 pF; protector"))[0].0, "path-ends");
    assert_eq!(told(&slow("pin; protector; connector 1 pF")), one("path-ends", "pin"));
    assert_eq!(told(&slow("protector; pin; pin")), one("path-ends", "pin"));
    assert_eq!(told(&slow("cable 50 ohm 1 m permittivity 2; protector; pin")), one("misplaced-word", "cable"));
    assert_eq!(told(&slow("driver 50 ohm; protector; pin")), one("misplaced-word", "driver"));
    assert_eq!(told(&slow("protector 3 pF; pin")), one("extra-argument", "3 pF"));
    assert_eq!(told(&slow("protector spread 20 %; pin")), one("extra-argument", "20 %"));
    assert_eq!(told(&lane("protector; pin", "")), one("misplaced-word", "pin"));
}
