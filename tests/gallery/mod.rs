//! The sheets of the gallery: orders and ranges that the trade agrees on, and clauses of standards.

mod moves;

use crate::support::{read_file, root};
use lanecap::Design;
use lanecap::budget;
use lanecap::budget::Figures;
use lanecap::figures::*;
use lanecap::parts::{Check, Verdict};
use lanecap::result::{LinePickReport, PartPickReport, PickReport, Report, pick, size};
use lanecap::transient::{Contact, LineDischarge};

fn gallery(name: &str) -> (Report, PickReport) {
    let path = root().join("fixtures/sheets/ok").join(format!("{name}.lanes"));
    let (gathered, port) = read_file(&path);
    let port = port.unwrap_or_else(|errors| panic!("{name}: {errors:?}"));
    let all: Vec<usize> = (0..port.names().len()).collect();
    let sized = size(&port, &all, Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
    (sized, pick(&port, &all, &|| ()).unwrap())
}

fn line<'a>(report: &'a PickReport, name: &str) -> &'a LinePickReport {
    report.lines.iter().find(|line| line.name == name).unwrap()
}

fn part<'a>(line: &'a LinePickReport, name: &str) -> &'a PartPickReport {
    line.parts.iter().find(|part| part.part == name).unwrap()
}

fn check<'a>(part: &'a PartPickReport, name: &str) -> &'a Check {
    part.checks.iter().find(|check| check.check == name).unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64, relative: f64) {
    assert!((found / expected - 1.0).abs() <= relative, "{found} is not {expected}");
}

/// Common practice, no source: of one connector's lines the multi-gigabit pairs bear least, a 480 Mb/s pair more, the
/// sideband wires most; the power pin has no capacitance limit, and parts for signals of 5, 6 or 12 V do not stand its
/// 20 V off.
#[test]
fn a_multipurpose_port_in_its_order() {
    let (sized, picked) = gallery("multipurpose_port");
    let budget = |name: &str| line(&picked, name).budget_f;
    let (fast, service, sideband) = (budget("fast pairs"), budget("service pair"), budget("sideband"));
    assert!(fast < service && service < sideband, "{fast:?} {service:?} {sideband:?}");
    assert_eq!(budget("power pin"), None);
    assert_eq!(sized.rails.len(), 1);
    let power = line(&picked, "power pin");
    for (name, standoff) in [("fine array", 5.0), ("signal pair", 6.0), ("sideband single", 12.0)] {
        let check = check(part(power, name), "stand-off");
        assert_eq!((check.required, check.available), (Some(20.0), Some(standoff)), "{name}");
        assert_eq!(check.verdict, Verdict::Fails, "{name}");
    }
    assert_eq!(power.recommended.as_deref(), Some("power single"));
    // Four pairs are eight wires: the arrays must cover them, and no pair is split.
    let bill = &picked.bills[0];
    let fast: u32 =
        bill.parts.iter().flat_map(|used| &used.lines).filter(|l| l.name == "fast pairs").map(|l| l.channels).sum();
    assert_eq!(fast, 8);
    assert!(bill.unserved.is_empty());
}

/// Common practice, no source: sensor inputs are slow, so that capacitance hardly matters and the residual decides.
#[test]
fn a_sensor_input_cares_for_the_residual() {
    let (_, picked) = gallery("sensor_inputs");
    let probe = line(&picked, "probe");
    assert!(probe.budget_f.unwrap() > 1e-9, "nanofarads: {:?}", probe.budget_f);
    let low = part(probe, "low capacitance");
    assert_eq!(check(low, "capacitance").verdict, Verdict::Passes);
    assert_eq!(check(low, "residual").verdict, Verdict::Fails);
    assert_eq!(probe.recommended.as_deref(), Some("low residual"));
}

/// IEEE 802.3 clause 40.8.3.1, as quoted in a secondary source: 16 dB from 1 to 40 MHz, then 10 - 20 log10(f/80 MHz) to
/// 100 MHz. On 50 ohm per line without anything else RL = 10 log10(1 + 1/x²), x = π f Z C: 16 dB at 40 MHz are
/// 25.547258 pF, 8.0618 dB at 100 MHz 27.395752 pF, so that the corner at 40 MHz binds.
#[test]
fn the_corner_of_the_ethernet_mask_binds() {
    let (sized, picked) = gallery("ethernet_phy");
    let budget = sized.lanes[0].budget();
    near(budget.capacitance.unwrap().0, 25.547258e-12, 1e-6);
    near(budget.set_at.unwrap().0, 40e6, 1e-6);
    // Outdoors the same line needs a stronger part.
    assert_eq!(line(&picked, "indoor pairs").recommended.as_deref(), Some("quad pairs"));
    let outdoor = line(&picked, "outdoor pairs");
    assert_eq!(check(part(outdoor, "quad pairs"), "rating surge").verdict, Verdict::Fails);
    assert_eq!(outdoor.recommended.as_deref(), Some("strong quad"));
    // A powered port has up to 57 V between its pairs (IEEE 802.3 clause 33 and 145, as quoted in a secondary source): no
    // part for signals stands that off.
    for part in &line(&picked, "powered pairs").parts {
        let check = check(part, "stand-off");
        assert_eq!((check.required, check.verdict), (Some(57.0), Verdict::Fails));
    }
}

/// Common practice, no source: a keypad is about as fast as one can type; its budget is nanofarads, set by the filter.
#[test]
fn a_keypad_bears_nanofarads() {
    let (sized, _) = gallery("keypad");
    let budget = sized.buses[0].budget();
    assert_eq!(budget.set_by, Some(&BUS_RISE));
    // 100 µs = 2.197 · 10 kohm · C, less 50 pF of wiring and input.
    near(budget.capacitance.unwrap().0, 100e-6 / (9f64.ln() * 10e3) - 50e-12, 1e-12);
    assert!((1e-9..1e-7).contains(&budget.capacitance.unwrap().0));
}

/// A part that holds below the battery's voltage stays on once it is triggered; a pull-up does not hold it.
#[test]
fn a_battery_keeps_a_snapping_part_latched() {
    let (_, picked) = gallery("battery_contacts");
    let plus = line(&picked, "battery plus");
    let latched = check(part(plus, "snapping single"), "latch-up");
    assert_eq!((latched.required, latched.available, latched.verdict), (Some(4.0), Some(0.03), Verdict::Fails));
    assert_eq!(plus.recommended.as_deref(), Some("contact single"));
    // (4.35 V − 2.5 V)/4.7 kohm against 30 mA.
    let wire = line(&picked, "gauge wire");
    let released = check(part(wire, "snapping single"), "latch-up");
    near(released.required.unwrap(), 1.85 / 4700.0, 1e-12);
    assert_eq!(released.verdict, Verdict::Passes);
}

/// TIA-485-A: common-mode range −7 V to 12 V. From memory.
#[test]
fn a_field_bus_goes_below_ground() {
    let (sized, picked) = gallery("field_bus");
    assert!(sized.lanes.iter().all(|lane| lane.budget().verdict == budget::Verdict::Bounded));
    let hall = line(&picked, "hall");
    let one_way = part(hall, "one-way pair");
    assert_eq!(check(one_way, "polarity").verdict, Verdict::Fails);
    // Cheaper by half, and of no use.
    assert!(one_way.cost_per_line < part(hall, "field pair").cost_per_line);
    assert_eq!(hall.recommended.as_deref(), Some("field pair"));
    let roof = line(&picked, "roof");
    // 1 kV behind 42 ohm into 13 V and 24 V at 8 A: (1000 - 13)/(42 + 11/8) A.
    near(check(part(roof, "field pair"), "rating surge").required.unwrap(), 987.0 / 43.375, 1e-4);
    assert_eq!(roof.recommended.as_deref(), Some("roof pair"));
}

/// Common practice, no source: on a vehicle bus only parts qualified for vehicles may be used.
#[test]
fn a_vehicle_bus_takes_qualified_parts_alone() {
    let (sized, picked) = gallery("vehicle_bus");
    near(sized.buses[0].budget().capacitance.unwrap().0, 55e-12, 1e-12);
    let wires = line(&picked, "steering wires");
    let bench = part(wires, "bench pair");
    assert_eq!(check(bench, "qualification").verdict, Verdict::Fails);
    assert!(bench.cost_per_line < part(wires, "vehicle pair").cost_per_line);
    assert_eq!(wires.recommended.as_deref(), Some("vehicle pair"));
}

/// A slave of the single-wire bus: 250 pF at the connector less 45 pF of its transceiver are 205 pF (as quoted in a
/// secondary source, a transceiver's data sheet).
#[test]
fn a_single_wire_slave_has_205_pf_left() {
    let (sized, _) = gallery("single_wire_vehicle_bus");
    near(sized.buses[0].budget().capacitance.unwrap().0, 205e-12, 1e-9);
    let whole = &sized.buses[1];
    assert_eq!((whole.about.nodes, whole.budget().set_by), (16, Some(&TIME_CONSTANT)));
    assert!(sized.passes());
}

/// Common practice, no source: one multi-channel part is cheaper than several single ones on a card interface. The rise of
/// 1 µs with 30 pF at either side is ISO 7816-3 as quoted in a secondary source.
#[test]
fn a_card_interface_takes_one_array() {
    let (sized, picked) = gallery("card_interface");
    near(sized.buses[0].budget().capacitance.unwrap().0, 1e-6 / (9f64.ln() * 4.7e3) - 60e-12, 1e-9);
    let bill = &picked.bills[0];
    assert_eq!(bill.parts.len(), 1);
    let used = &bill.parts[0];
    assert_eq!((used.part.as_str(), used.packages, used.spare_channels), ("card array", 1, 1));
    // Five single parts would cost 1.5.
    assert_eq!(bill.cost, Some(0.9));
}

#[test]
fn a_dc_input_needs_its_own_stand_off() {
    let (_, picked) = gallery("dc_inputs");
    let high = line(&picked, "24 V input");
    let check = check(part(high, "input 18"), "stand-off");
    assert_eq!((check.required, check.available, check.verdict), (Some(32.0), Some(18.0), Verdict::Fails));
    assert_eq!(high.recommended.as_deref(), Some("input 33"));
    // The stronger stand-off leaves more at the chip of the lower input.
    assert_eq!(line(&picked, "12 V input").recommended.as_deref(), Some("input 18"));
    assert!(picked.passes());
}

/// Common practice, no source: an antenna needs the least capacitance of all and may see strikes up to 30 kV.
#[test]
fn an_antenna_bears_least_and_is_struck_hardest() {
    let (_, picked) = gallery("antenna_feed");
    let feed = line(&picked, "navigation antenna");
    assert_eq!(feed.kind, "feed");
    let (_, port) = gallery("multipurpose_port");
    let least = port.lines.iter().filter_map(|line| line.budget_f).fold(f64::INFINITY, f64::min);
    assert!(feed.budget_f.unwrap() < least, "{:?} {least}", feed.budget_f);
    let signal = check(part(feed, "signal single"), "rating air");
    assert_eq!((signal.required, signal.available, signal.verdict), (Some(30e3), Some(8e3), Verdict::Fails));
    assert_eq!(feed.recommended.as_deref(), Some("antenna single"));
    // At a part beside an antenna that is nearly matched, 100 mW in 50 ohm is about √10 V.
    let peak = check(part(feed, "antenna single"), "stand-off").required.unwrap();
    assert!((10f64.sqrt()..2.0 * 10f64.sqrt()).contains(&peak), "{peak}");
}

fn contact(name: &str, number: usize) -> Contact {
    let text = std::fs::read_to_string(root().join("fixtures/sheets/ok").join(format!("{name}.lanes"))).unwrap();
    let design = Design::parse(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
    LineDischarge::of(&design.lines[number]).unwrap().contact.unwrap().unwrap()
}

/// As published (J. Zhou et al., 2022, abstract, secondary): what stands between part and chip decides the race.
#[test]
fn the_same_part_saves_the_chip_that_stands_back() {
    let (beside, behind) = (contact("snap_and_chip", 0), contact("snap_and_chip", 1));
    let worst = |of: &Contact| of.worse_first()[0].1.worst.outcome.pin;
    let (beside, behind) = (worst(&beside), worst(&behind));
    // It survives 2.2 A, and 7 A at first.
    assert!(beside.equivalent.0 > 2.2 && beside.peak_current.0 > 7.0, "{beside:?}");
    assert!(behind.equivalent.0 < 2.2 && behind.peak_current.0 < 7.0, "{behind:?}");
    assert!(behind.equivalent.0 < beside.equivalent.0 / 2.0);
}

/// The first stage of an outdoor line fires at the stated level; a weaker discharge leaves the chip more.
#[test]
fn a_discharge_too_weak_for_the_tube_leaves_more() {
    let outdoor = contact("outdoor_line", 0);
    let above = &outdoor.positive;
    assert!(above.stated.outcome.parts[0].on_at.is_some() && above.worst.outcome.parts[0].on_at.is_none());
    assert!((2e3..4e3).contains(&above.worst_level.0), "{}", above.worst_level);
    assert!(above.worst.outcome.pin.equivalent.0 > 2.0 * above.stated.outcome.pin.equivalent.0);
}

/// A varistor behind the connector keeps what is fast; a surge does not see the inductance behind it.
#[test]
fn an_inductance_parts_what_is_fast_from_a_surge() {
    let text = std::fs::read_to_string(root().join("fixtures/sheets/ok/input_24v.lanes")).unwrap();
    let design = Design::parse(&text).unwrap();
    let input = design.lines.iter().find(|line| line.head.name == "24 V input").unwrap();
    let discharge = LineDischarge::of(input).unwrap();
    let contact = discharge.contact.unwrap().unwrap();
    let [varistor, clamp] = contact.positive.stated.outcome.parts.as_slice() else { panic!() };
    assert!(varistor.peak.0 > 20.0 && clamp.peak.0 < 2.0, "{varistor:?} {clamp:?}");
    let surge = discharge.surge.unwrap().unwrap();
    assert!(surge.parts[1].1.peak.0 > surge.parts[0].1.peak.0, "{surge:?}");
}
