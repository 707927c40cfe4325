//! Guards, pins and chips: what a sheet states of them, on lines of every kind, and the same lines built without one.

use std::sync::Arc;

use lanecap::model::*;
use lanecap::resolve::{self, Surroundings};
use lanecap::units::*;
use lanecap::{Design, Figures, size_bus, size_lane};

use crate::support::read_text;

const PARTS: &str =
    "part \"tube\" { capacitance 1.5 pF max; inductance 0.6 nH; trigger 400 V; turn_on 2 ns; holding 10 V }
part \"fine\" { capacitance 0.4 pF max at 2 V; inductance 0.3 nH; unidirectional; negative 0.8 V }
";

fn line(text: &str) -> Line {
    Design::parse(&format!("{PARTS}{text}")).unwrap().lines.remove(0)
}

fn lane(inner: &str) -> Line {
    line(&format!(
        "lane \"a\" {{ rate 1 Gb/s nrz; reference 90 ohm differential; line_voltage 0 V to 3 V
         limit added_loss <= 1 dB; limit return_loss >= 6 dB
         path {{ driver 90 ohm; guard part \"tube\" inductance 1 nH pad 0.1 pF stub 2 mm
         trace 90 ohm 20 mm permittivity 3.2; protector part \"fine\"; {inner} }} }}"
    ))
}

fn path(line: &Line) -> &Path {
    line.path().unwrap()
}

fn guards(path: &Path) -> Vec<&Guard> {
    let guards = path.elements.iter().filter_map(|place| match &place.element {
        Element::Guard(guard) => Some(guard),
        _ => None,
    });
    guards.collect()
}

#[test]
fn a_chip_is_read_from_its_end() {
    let chip = |words: &str| *path(&lane(&format!("receiver 90 ohm {words}"))).inner_chip().unwrap();
    assert_eq!(chip(""), Chip::default());
    let clamp = Some(ChipClamp { voltage: Volt(6.0), resistance: Ohm(1.5) });
    assert_eq!(chip("clamps 6 V 1.5 ohm"), Chip { clamp, ..Chip::default() });
    assert_eq!(chip("clamps 1.5 ohm 6 V"), Chip { clamp, ..Chip::default() });
    let survives = Survives { current: Ampere(4.0), peak: Some(Ampere(12.0)), human_body: None };
    let all = Chip { clamp, survives: Some(survives), negative: Some(Volt(0.9)) };
    assert_eq!(chip("survives 4 A peak 12 A negative 0.9 V clamps 6 V 1.5 ohm pad 1 pF"), all);
}

/// 2 kV through the 1.5 kohm of the human-body model is 1.333 A; what is taken stands among the defaults.
#[test]
fn a_human_body_rating_is_a_current() {
    let read = lane("receiver 90 ohm clamps 6 V 1 ohm human_body 2 kV");
    let survives = path(&read).inner_chip().unwrap().survives.unwrap();
    assert!((survives.current.0 - 4.0 / 3.0).abs() < 1e-12 && survives.peak.is_none());
    assert_eq!(survives.human_body, Some(Volt(2000.0)));
    let note = read.head.defaults.iter().find(|note| note.code == "default-survives").unwrap();
    assert!(
        note.text.contains("2 kV") && note.text.contains("1.333 A") && note.text.contains("estimate"),
        "{}",
        note.text
    );
    let stated = lane("receiver 90 ohm clamps 6 V 1 ohm survives 1.3 A");
    assert!(stated.head.defaults.iter().all(|note| note.code != "default-survives"));
}

#[test]
fn a_chip_at_the_outer_end_is_not_the_protected_one() {
    let sheet = |outer: &str| {
        line(&format!(
            "lane \"a\" {{ rate 1 Gb/s nrz; reference 50 ohm; limit added_loss <= 1 dB
             path {{ driver 50 ohm {outer}; protector; receiver 50 ohm clamps 5 V 1 ohm }} }}"
        ))
    };
    let codes = |line: &Line| line.head.warnings.iter().map(|note| note.code).collect::<Vec<_>>();
    assert_eq!(codes(&sheet("")), [""; 0]);
    assert_eq!(codes(&sheet("clamps 4 V 1 ohm")), ["chip-at-outer-end"]);
    let outer = sheet("clamps 4 V 1 ohm");
    assert_eq!(path(&outer).inner_chip().unwrap().clamp.unwrap().voltage, Volt(5.0));
}

#[test]
fn a_guard_has_its_part_at_worst_and_its_stub_the_nearest_trace() {
    let read = lane("receiver 90 ohm");
    let [guard] = guards(path(&read))[..] else { panic!("one guard") };
    assert_eq!((guard.part.name.as_str(), guard.capacitance), ("tube", Farad::pico(1.5)));
    assert_eq!((guard.part_inductance, guard.inductance), (Henry::nano(0.6), Henry::nano(1.0)));
    assert_eq!((guard.pad, guard.stub, guard.stub_permittivity), (Farad::pico(0.1), Metre::milli(2.0), 3.2));
    assert_eq!(guard.part.strength.turn_on, Some(Second::nano(2.0)));
    // One that follows the bias is at its worst, as the same part in the protector's place.
    let twice = line(
        "lane \"a\" { rate 1 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 3 V; limit added_loss <= 1 dB
         path { driver 50 ohm; guard part \"fine\" stub 1 mm; protector part \"fine\"; receiver 50 ohm } }",
    );
    let protector = path(&twice).protector().unwrap();
    let [guard] = guards(path(&twice))[..] else { panic!("one guard") };
    assert_eq!((Some(guard.capacitance), guard.bias), (protector.fitted, protector.bias));
    assert!(guard.capacitance.0 > 0.45e-12 && guard.part.strength.negative == Some(Volt(0.8)));
    let codes: Vec<_> = twice.head.defaults.iter().map(|note| note.code).collect();
    assert_eq!(codes.iter().filter(|code| **code == "default-permittivity").count(), 1, "{codes:?}");
}

/// Between the lines of a pair: 2C, L/2 and R/2 in the half circuit, without the ground via (docs/physics.md, (3)).
#[test]
fn a_guard_across_the_pair_counts_twice_and_without_its_via() {
    let read = |guard: &str| {
        line(&format!(
            "part \"over\" {{ capacitance 0.5 pF max across; inductance 0.8 nH; resistance 1 ohm; bidirectional }}
             lane \"a\" {{ rate 1 Gb/s nrz; reference 100 ohm differential; limit added_loss <= 1 dB
             path {{ driver 100 ohm; guard part \"over\" {guard}; protector; receiver 100 ohm }} }}"
        ))
    };
    let bare = read("");
    let [guard] = guards(path(&bare))[..] else { panic!("one guard") };
    assert!(guard.across && guard.capacitance == Farad::pico(1.0));
    assert_eq!((guard.part_inductance, guard.part_resistance), (Henry::nano(0.4), Ohm(0.5)));
    let with = read("inductance 2 nH");
    assert_eq!(with.head.warnings.iter().map(|note| note.code).collect::<Vec<_>>(), ["across-ground-inductance"]);
    assert_eq!(guards(path(&with))[0].ground_inductance(), Henry::ZERO);
}

/// Resolved at another voltage a path has other capacitances; at its own it is as it was.
#[test]
fn a_path_with_guards_is_resolved_again() {
    let read = line(
        "lane \"a\" { rate 1 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 3 V; limit added_loss <= 1 dB
         path { driver 50 ohm; trace 50 ohm 5 mm permittivity 3; guard part \"fine\" stub 1 mm; protector; receiver 50 ohm } }",
    );
    let surroundings = Surroundings::of(&read).unwrap();
    let mut again = path(&read).clone();
    resolve::path(&mut again, &surroundings).unwrap();
    assert_eq!(format!("{:?}", again.elements), format!("{:?}", path(&read).elements));
    let other = VoltageRange { low: Volt(2.0), high: Volt(3.0) };
    let voltages = Voltages { line: Some(other), pair: None };
    resolve::path(&mut again, &Surroundings { voltages, ..surroundings }).unwrap();
    let (then, now) = (guards(path(&read))[0].capacitance, guards(&again)[0].capacitance);
    assert!((now.0 - 0.4e-12).abs() < 1e-24 && then.0 > 1.2 * now.0, "{then} {now}");
}

#[test]
fn a_built_lane_with_a_guard_is_the_lane_of_the_same_sheet() {
    let read = lane("receiver 90 ohm clamps 6 V 1.5 ohm survives 4 A");
    let Kind::Lane(read) = &read.kind else { panic!("a lane") };
    let part = |name: &str| {
        let design = Design::parse(&format!("{PARTS}rail \"r\" {{ line_voltage 1 V }}")).unwrap();
        Arc::clone(design.parts.iter().find(|part| part.name == name).unwrap())
    };
    let footprint = StatedGuard {
        pad: Farad::pico(0.1),
        inductance: Henry::nano(1.0),
        stub: Metre::milli(2.0),
        ..part("tube").into()
    };
    let chip = path_chip(read);
    let built = Lane::builder()
        .rate(Baud::giga(1.0), Modulation::Nrz)
        .reference(Ohm(90.0))
        .differential()
        .voltage(Volt(0.0), Volt(3.0))
        .limit(LaneLimit::Loss(Loss::Added, Over::Level(1.0)))
        .limit(LaneLimit::Loss(Loss::Return, Over::Level(6.0)))
        .path(|p| {
            p.driver(Ohm(90.0))
                .guard(footprint)
                .trace(Ohm(90.0), Metre::milli(20.0), 3.2)
                .stated(Stated::Protector(StatedProtector { part: Some(part("fine")), ..Default::default() }))
                .receiver(Receiver { chip, ..Ohm(90.0).into() })
        })
        .build()
        .unwrap();
    let sized = |lane: &Lane| format!("{:?}", size_lane(lane, Figures::All).unwrap());
    assert_eq!(sized(read), sized(&built));
    // The guard is in the circuit.
    let mut without = built.clone();
    without.path.elements.retain(|place| !matches!(place.element, Element::Guard(_)));
    assert_ne!(sized(&without), sized(&built));
}

/// The working names the guard with its values, and its admittance is that of the branch by hand.
#[test]
fn the_working_shows_a_guard() {
    let text = format!(
        "{PARTS}lane \"a\" {{ rate 2 Gb/s nrz; reference 50 ohm; limit added_loss <= 1 dB
         path {{ driver 50 ohm; guard part \"tube\" inductance 0.4 nH; protector; receiver 50 ohm }} }}"
    );
    let (gathered, design) = read_text(&text);
    let working = lanecap::text::working(&design.unwrap().lines[0], &gathered.sources).unwrap();
    assert!(
        working.contains("guard \"tube\" C = 1.5 pF at worst, pad 0 F, in series with C: L = 1 nH, R = 0 ohm"),
        "{working}"
    );
    // ωC/(1 − ω²LC) at 1 GHz: 9.4248 mS/(1 − 0.059218).
    assert!(working.contains("beside C = 1.5 pF in series with L and R: 0 + j 0.010018021 S"), "{working}");
}

fn path_chip(lane: &Lane) -> Chip {
    *lane.path.inner_chip().unwrap()
}

#[test]
fn the_protector_in_the_path_of_a_slow_line_is_its_part() {
    let rail = |row: &str, place: &str| {
        line(&format!(
            "rail \"a\" {{ line_voltage 0 V to 3 V; {row}
             path outward {{ pin pad 2 pF clamps 5 V 1 ohm; {place}; guard part \"tube\"; connector 1 pF }} }}"
        ))
    };
    for read in [
        rail("part \"fine\"", "protector"),
        rail("", "protector part \"fine\""),
        rail("part \"fine\"", "protector part \"fine\""),
    ] {
        assert_eq!(read.part().unwrap().name, "fine");
        let path = path(&read);
        let words: Vec<&str> = path.elements.iter().map(|e| e.element.word()).collect();
        assert_eq!(words, ["connector", "guard", "protector", "pin"]);
        let protector = path.protector().unwrap();
        assert_eq!(protector.part.as_ref().unwrap().name, "fine");
        assert!(protector.fitted.unwrap().0 > 0.45e-12);
        assert_eq!(path.inner_chip().unwrap().clamp.unwrap().voltage, Volt(5.0));
        // Resolved again it keeps the part.
        let mut again = path.clone();
        resolve::path(&mut again, &Surroundings::of(&read).unwrap()).unwrap();
        assert_eq!(format!("{:?}", again.elements), format!("{:?}", path.elements));
    }
    let empty = rail("", "protector");
    assert!(empty.part().is_none() && path(&empty).protector().unwrap().part.is_none());
}

#[test]
fn a_part_that_is_fitted_is_fitted_in_the_path_too() {
    let bus = || {
        line(
            "bus \"a\" { source 1 kohm; line_voltage 0 V to 3 V; limit time_constant <= 1 us
             path { connector 1 pF; protector inductance 0.5 nH; pin } }",
        )
    };
    let mut fitted = bus();
    let part = Arc::clone(lane("receiver 90 ohm").part().unwrap());
    let on_line = part.on_line(false, fitted.head.voltages(), |_, _| {}).unwrap();
    fitted.fit_part(&part, &on_line);
    let Kind::Bus(of) = &fitted.kind else { panic!("a bus") };
    let place = of.path.as_ref().unwrap().protector().unwrap();
    assert_eq!((of.fitted, place.fitted), (Some(on_line.capacitance), Some(on_line.capacitance)));
    assert_eq!((of.part.as_ref(), place.part.as_ref()), (Some(&part), Some(&part)));
    assert_eq!((place.inductance, place.part_inductance), (Henry::nano(0.5), Henry::nano(0.3)));
    assert!(Line::new(fitted.head.clone(), fitted.kind.clone()).is_ok());
    let mut plain = bus();
    plain.fit(Farad::pico(3.0));
    let place = path(&plain).protector().unwrap();
    assert!(place.fitted == Some(Farad::pico(3.0)) && place.part.is_none());
}

/// A bus states its wiring, and its path adds nothing to it.
#[test]
fn the_path_of_a_bus_does_not_enter_its_budget() {
    let bus = |path: &str| {
        let read = line(&format!(
            "bus \"a\" {{ source 1 kohm; wiring 20 pF; part \"fine\"; line_voltage 0 V to 3 V; limit time_constant <= 1 us; {path} }}"
        ));
        let Kind::Bus(bus) = read.kind else { panic!("a bus") };
        format!("{:?}", size_bus(&bus))
    };
    assert_eq!(
        bus(""),
        bus("path { connector 30 pF; guard part \"tube\"; shunt 5 pF; protector pad 1 pF; pin pad 9 pF }")
    );
}

#[test]
fn a_built_bus_has_its_part_in_its_path() {
    let part = Arc::clone(lane("receiver 90 ohm").part().unwrap());
    let bus = Bus::builder().charging(Charging::Source(Ohm::kilo(1.0))).voltage(Volt(0.0), Volt(3.0));
    let way = |p: lanecap::builder::PathBuilder, place: StatedProtector| {
        p.connector(Farad::pico(1.0), Henry::nano(2.0)).stated(Stated::Protector(place)).pin(Pin::default())
    };
    let named = StatedProtector { part: Some(Arc::clone(&part)), ..Default::default() };
    let first = bus.clone().part(Arc::clone(&part)).path(|p| way(p, StatedProtector::default())).build().unwrap();
    let second = bus.clone().path(|p| way(p, named.clone())).build().unwrap();
    for built in [&first, &second] {
        let place = built.path.as_ref().unwrap().protector().unwrap();
        assert!(built.part.as_ref() == Some(&part) && place.part.as_ref() == Some(&part));
        assert!(built.fitted == place.fitted && built.fitted.unwrap().0 > 0.45e-12);
    }
    let other = Arc::new(Part { name: "other".into(), ..(*part).clone() });
    let flaws = bus.part(other).path(|p| way(p, named)).build().unwrap_err();
    assert_eq!(flaws.list.iter().map(|flaw| flaw.code).collect::<Vec<_>>(), ["parts-differ"]);
}
