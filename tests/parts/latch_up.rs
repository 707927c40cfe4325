//! A part that snapped back stays on where the line can supply its holding current at its holding voltage: Ohm's law by
//! hand. All numbers are invented.

use super::{changed, find, near, row, volts};
use crate::support::read_text;
use lanecap::model::{Kind, Part};
use lanecap::parts::Verdict::{self, Fails, NotStated, Passes};
use lanecap::parts::{Duty, Supply};
use lanecap::units::{Ampere, Ohm, Volt};

/// A part that holds at this voltage, and at this current where it says so.
fn holding(volts: f64, amperes: Option<f64>) -> Part {
    changed(Part::default(), |r| {
        r.strength.holding = Some(Volt(volts));
        r.strength.holding_current = amperes.map(Ampere);
    })
}

fn line(high: f64, supply: Supply) -> Duty {
    changed(Duty::default(), |d| (d.voltage, d.supply) = (volts(0.0, high), supply))
}

/// Verdict, its two numbers and why.
#[track_caller]
fn judged(duty: &Duty, part: &Part) -> (Verdict, Option<f64>, Option<f64>, String) {
    let check = find(duty, part, "latch-up").unwrap();
    (check.verdict, check.required, check.available, check.why.unwrap_or_default())
}

/// (3.3 V − 1.5 V)/50 ohm = 36 mA.
#[test]
fn a_driver_supplies_what_its_resistance_lets_through() {
    let lane = line(3.3, Supply::Through(Ohm(50.0)));
    let said = "could stay on: the line supplies 36 mA at 1.5 V, from 3.3 V behind 50 ohm";
    let (verdict, required, available, why) = judged(&lane, &holding(1.5, None));
    assert_eq!((verdict, available, why.as_str()), (NotStated, None, said));
    near(required, Some(0.036));
    let (verdict, required, available, why) = judged(&lane, &holding(1.5, Some(0.02)));
    assert_eq!((verdict, available, why.as_str()), (Fails, Some(0.02), said));
    near(required, Some(0.036));
    assert_eq!(judged(&lane, &holding(1.5, Some(0.05))).0, Passes);
    // (50 − 36)/36
    near(row(&lane, &holding(1.5, Some(0.05)), "latch-up").2, Some(14.0 / 36.0));
    // It holds above the line, whatever current it takes.
    assert_eq!(judged(&lane, &holding(3.5, None)), (Passes, Some(3.3), Some(3.5), String::new()));
    // At the line's own voltage nothing flows.
    assert_eq!(judged(&lane, &holding(3.3, None)).0, Passes);
    assert_eq!(find(&line(3.3, Supply::Blocked), &holding(1.5, None), "latch-up"), None);
}

#[test]
fn a_rail_supplies_its_current_and_without_one_more_than_any_part_holds_at() {
    let rail = |amperes: Option<f64>| line(5.0, Supply::Rail(amperes.map(Ampere)));
    assert_eq!(judged(&rail(Some(0.1)), &holding(2.0, Some(0.2))).0, Passes);
    let (verdict, required, available, why) = judged(&rail(Some(3.0)), &holding(2.0, Some(0.2)));
    assert_eq!((verdict, required, available), (Fails, Some(3.0), Some(0.2)));
    assert_eq!(why, "could stay on: the line supplies 3 A at 2 V");
    let (verdict, required, available, why) = judged(&rail(Some(3.0)), &holding(2.0, None));
    assert_eq!((verdict, required, available), (Fails, Some(5.0), Some(2.0)));
    assert_eq!(why, "could stay on: the line supplies 3 A at 2 V, and the part states no holding current");
    for part in [holding(2.0, Some(0.2)), holding(2.0, None)] {
        let (verdict, required, available, why) = judged(&rail(None), &part);
        assert_eq!((verdict, required, available), (Fails, Some(5.0), Some(2.0)));
        assert_eq!(
            why,
            "could stay on: a rail that states no `current` is taken to supply more than any part holds at"
        );
    }
    assert_eq!(judged(&rail(None), &holding(5.5, None)).0, Passes);
    // Equal is not above.
    assert_eq!(judged(&rail(None), &holding(5.0, None)).0, Fails);
}

#[test]
fn a_biased_feed_supplies_what_its_radio_is_stated_to() {
    let feed = |amperes: Option<f64>| line(5.0, Supply::Bias(amperes.map(Ampere)));
    assert_eq!(judged(&feed(Some(0.03)), &holding(2.0, Some(0.05))).0, Passes);
    assert_eq!(judged(&feed(Some(0.08)), &holding(2.0, Some(0.05))).0, Fails);
    assert_eq!(judged(&feed(Some(0.08)), &holding(2.0, None)).0, NotStated);
    let (verdict, _, _, why) = judged(&feed(None), &holding(2.0, Some(0.05)));
    assert_eq!((verdict, why.as_str()), (NotStated, "could stay on: the feed states no `current` of its bias"));
    // The peak of the power lasts half a period: only the direct voltage holds a part.
    let strong = changed(feed(Some(0.08)), |d| d.feed_peak = Some(Volt(40.0)));
    assert_eq!(judged(&strong, &holding(6.0, None)).0, Passes);
}

/// The supply of the first line of a sheet.
fn supply(text: &str) -> (Supply, Duty) {
    let design = read_text(text).1.unwrap();
    let line = &design.lines[0];
    let duty = match &line.kind {
        Kind::Lane(lane) => Duty::of_lane(&line.head, lane, false),
        Kind::Feed(feed) => Duty::of_feed(&line.head, feed, 0.5),
        Kind::Bus(bus) => Duty::of_bus(&line.head, bus),
        Kind::Rail(rail) => Duty::of_rail(&line.head, rail),
        other => panic!("{other:?}"),
    };
    (duty.supply, duty)
}

fn lane(reference: &str, path: &str) -> (Supply, Duty) {
    supply(&format!(
        "lane \"a\" {{ rate 1 Gb/s nrz; reference {reference}; line_voltage 0 V to 3.3 V; limit added_loss <= 1 dB
path {{ {path} }} }}"
    ))
}

/// What a supply through a resistance has, within rounding.
#[track_caller]
fn resistance(found: Supply, ohm: f64) {
    match found {
        Supply::Through(r) => assert!((r.0 / ohm - 1.0).abs() < 1e-12, "{r:?} {ohm}"),
        other => panic!("{other:?}"),
    }
}

/// Both sides of the part in parallel, whatever their far ends lead to: with the part off they are at the line's voltage.
#[test]
fn direct_current_comes_from_both_sides_of_the_part() {
    let of = |reference: &str, path: &str| lane(reference, path).0;
    let parallel = |a: f64, b: f64| a * b / (a + b);
    let path = "driver 40 ohm; series 22 ohm; protector; series 10 ohm; receiver 50 ohm";
    resistance(of("50 ohm", path), parallel(62.0, 60.0));
    let turned = "receiver 50 ohm; series 22 ohm; protector; series 10 ohm; driver 40 ohm";
    resistance(of("50 ohm", turned), parallel(72.0, 50.0));
    // Of one line: half the driver and the receiver, every series R as it stands.
    let pair = "driver 90 ohm; series 5 ohm; protector; receiver 90 ohm";
    resistance(of("100 ohm differential", pair), parallel(50.0, 45.0));
    // A termination before a series R: 50 ohm beside 100 ohm, and 10 ohm more.
    let shunted = "driver 50 ohm; protector; series 10 ohm; shunt 100 ohm; receiver 50 ohm";
    resistance(of("50 ohm", shunted), parallel(50.0, 10.0 + 100.0 / 3.0));
    resistance(of("50 ohm", "driver 40 ohm; protector; receiver open"), 40.0);
}

#[test]
fn a_series_capacitance_parts_its_own_side_alone() {
    let of = |path: &str| lane("50 ohm", path).0;
    resistance(of("driver 40 ohm; series 100 nF; protector; receiver 50 ohm"), 50.0);
    resistance(of("driver 40 ohm; protector; series 100 nF; receiver 50 ohm"), 40.0);
    resistance(of("driver 40 ohm; series 100 nF; shunt 1 kohm; series 10 ohm; protector; receiver open"), 1010.0);
    let both = "driver 50 ohm; series 100 nF; protector; series 100 nF; receiver 50 ohm";
    assert_eq!(of(both), Supply::Blocked);
    assert_eq!(of("driver 50 ohm; series 100 nF; protector; receiver open"), Supply::Blocked);
    // What an inductance to ground lets through is not stated.
    let (found, duty) = lane("50 ohm", "driver 50 ohm; series 100 nF; shunt 10 uH; protector; receiver open");
    assert!(matches!(found, Supply::Unknown(_)));
    let (verdict, _, available, why) = judged(&duty, &holding(1.5, Some(0.02)));
    assert_eq!((verdict, available), (NotStated, Some(0.02)));
    assert!(why.contains("an inductance to ground"), "{why}");
    assert_eq!(judged(&duty, &holding(3.5, None)).0, Passes);
}

/// Where a lane does not state its voltage, nothing is known of a part that stays on; a feed without a bias has none.
#[test]
fn a_line_without_a_voltage_leaves_it_open() {
    let snaps = changed(holding(1.5, Some(0.02)), |r| r.strength.standoff = Some(Volt(5.0)));
    let lanes = "lane \"a\" { rate 1 Gb/s nrz; reference 50 ohm; path { driver 50 ohm; protector; receiver 50 ohm } }";
    let feed = "feed \"f\" { band 1 GHz to 2 GHz; reference 50 ohm; current 1 A
path { antenna 50 ohm; protector; radio 50 ohm } }";
    for text in [lanes, feed, "bus \"b\" { pull_up 100 ohm; wiring 10 pF }", "rail \"r\" { current 5 A }"] {
        let (_, duty) = supply(text);
        for name in ["latch-up", "stand-off"] {
            let check = find(&duty, &snaps, name).unwrap_or_else(|| panic!("{name} of {text}"));
            assert_eq!((check.verdict, check.required), (NotStated, None), "{name} of {text}");
            assert_eq!(check.why.as_deref(), Some("the line states no `line_voltage`"));
        }
        // A part that says nothing of a voltage is not asked for one, but where another part of the choice does.
        assert_eq!(find(&duty, &Part::default(), "stand-off"), None);
        let compared = changed(duty, |d| d.compared = true);
        assert_eq!(find(&compared, &Part::default(), "stand-off").map(|c| c.verdict), Some(NotStated));
    }
    let (_, passive) = supply(&feed.replace("current 1 A", ""));
    assert!(find(&passive, &snaps, "latch-up").is_none());
}

/// By hand: 0.7 V/25 ohm; 2 V/25 ohm; 1.8 V/1 kohm + 1.8 V/50 ohm; 2 V/50 ohm behind a capacitance.
#[test]
fn the_supply_of_whole_lanes() {
    let supplied = |reference: &str, high: f64, path: &str, part: &Part| {
        let text = format!(
            "lane \"a\" {{ rate 1 Gb/s nrz; reference {reference}; line_voltage 0 V to {high} V; limit added_loss <= 9 dB
path {{ {path} }} }}"
        );
        judged(&supply(&text).1, part)
    };
    let matched = "driver 50 ohm; protector; receiver 50 ohm";
    let found = supplied("50 ohm", 2.0, matched, &holding(1.3, Some(0.02)));
    assert_eq!(
        (found.0, found.3.as_str()),
        (Fails, "could stay on: the line supplies 28 mA at 1.3 V, from 2 V behind 25 ohm")
    );
    let pair = "driver 100 ohm; protector; receiver 100 ohm";
    let found = supplied("100 ohm differential", 3.3, pair, &holding(1.3, Some(0.05)));
    assert_eq!(
        (found.0, found.3.as_str()),
        (Fails, "could stay on: the line supplies 80 mA at 1.3 V, from 3.3 V behind 25 ohm")
    );
    let found =
        supplied("50 ohm", 3.3, "driver 1 kohm; protector; shunt 50 ohm; receiver open", &holding(1.5, Some(0.01)));
    assert_eq!(
        (found.0, found.3.as_str()),
        (Fails, "could stay on: the line supplies 37.8 mA at 1.5 V, from 3.3 V behind 47.62 ohm")
    );
    let coupled = "driver 100 ohm; series 100 nF; protector; receiver 100 ohm";
    let found = supplied("100 ohm differential", 3.3, coupled, &holding(1.3, Some(0.001)));
    assert_eq!(
        (found.0, found.3.as_str()),
        (Fails, "could stay on: the line supplies 40 mA at 1.3 V, from 3.3 V behind 50 ohm")
    );
}

fn through(ohm: f64) -> Supply {
    Supply::Through(Ohm(ohm))
}

/// A part across the pair alone closes the loop over both lines: (3.3 V − 1.5 V)/(2 · 50 ohm) = 18 mA.
#[test]
fn across_a_pair_both_lines_are_in_the_way() {
    let (_, duty) = lane("100 ohm differential", "driver 90 ohm; series 5 ohm; protector; receiver open");
    let across = changed(holding(1.5, None), |r| {
        let rating = lanecap::model::CapacitanceRating {
            maximum: lanecap::units::Farad(1e-12),
            bias: None,
            span: lanecap::diag::Span::default(),
        };
        r.across = Some(rating);
    });
    let duty = changed(duty, |d| d.footprint.across = true);
    near(judged(&duty, &across).1, Some(0.018));
}

#[test]
fn other_lines_state_what_they_supply() {
    let (of_bus, _) = supply("bus \"b\" { pull_up 2.2 kohm; line_voltage 0 V to 5 V; wiring 10 pF }");
    assert_eq!(of_bus, through(2200.0));
    let (silent, duty) = supply("bus \"b\" { line_voltage 0 V to 5 V; wiring 10 pF }");
    assert!(matches!(silent, Supply::Unknown(_)));
    let (verdict, required, available, why) = judged(&duty, &holding(2.0, Some(0.02)));
    assert_eq!((verdict, required, available), (NotStated, None, Some(0.02)));
    assert_eq!(why, "could stay on: the bus states neither `pull_up` nor `source`");
    assert_eq!(judged(&duty, &holding(5.5, None)).0, Passes);
    assert_eq!(supply("rail \"r\" { line_voltage 0 V to 5 V; current 3 A }").0, Supply::Rail(Some(Ampere(3.0))));
    assert_eq!(supply("rail \"r\" { line_voltage 0 V to 5 V }").0, Supply::Rail(None));
    let feed = |rest: &str, path: &str| {
        supply(&format!("feed \"f\" {{ band 1 GHz to 2 GHz; reference 50 ohm; {rest}\npath {{ {path} }} }}")).0
    };
    let plain = "antenna 50 ohm; protector; radio 50 ohm";
    assert_eq!(feed("line_voltage 0 V to 5 V; current 80 mA", plain), Supply::Bias(Some(Ampere(0.08))));
    assert_eq!(feed("line_voltage 0 V to 5 V", plain), Supply::Bias(None));
    // The bias may come from either side: a capacitance on one of them parts nothing.
    for path in [
        "antenna 50 ohm; protector; series 1 nF; radio 50 ohm",
        "antenna 50 ohm; series 1 nF; protector; radio 50 ohm",
        "antenna 50 ohm; series 1 nF; shunt 100 nH; protector; series 1 nF; radio 50 ohm",
    ] {
        assert_eq!(feed("line_voltage 0 V to 5 V; current 80 mA", path), Supply::Bias(Some(Ampere(0.08))), "{path}");
    }
    let parted = "antenna 50 ohm; series 1 nF; protector; series 1 nF; radio 50 ohm";
    assert_eq!(feed("line_voltage 0 V to 5 V; current 80 mA", parted), Supply::Blocked);
}

#[test]
fn a_bidirectional_part_is_held_from_below_ground_as_well() {
    let below = changed(line(0.0, through(100.0)), |d| d.voltage = volts(-5.0, 1.0));
    let part = changed(holding(2.0, None), |r| r.polarity = Some(lanecap::model::Polarity::Bidirectional));
    // (5 − 2)/100
    near(judged(&below, &part).1, Some(0.03));
    let one_way = changed(part, |r| r.polarity = Some(lanecap::model::Polarity::Unidirectional));
    assert_eq!(judged(&below, &one_way).0, Passes);
}

/// A stand-off from −12 V works either way: 12 V of a negative rail hold it above 3 V, as do −12 V of a bus (9 V/50 ohm).
#[test]
fn a_part_that_stands_off_below_ground_is_held_from_there_as_well() {
    let part = changed(holding(3.0, Some(1e-3)), |r| {
        r.strength.standoff = Some(Volt(12.0));
        r.strength.standoff_low = Some(Volt(-12.0));
    });
    let rail = changed(line(0.0, Supply::Rail(Some(Ampere(2.0)))), |d| d.voltage = volts(-12.0, -12.0));
    assert_eq!(
        judged(&rail, &part),
        (Fails, Some(2.0), Some(1e-3), "could stay on: the line supplies 2 A at 3 V".into())
    );
    let bus = changed(line(0.0, through(50.0)), |d| d.voltage = volts(-12.0, 2.0));
    let (verdict, required, ..) = judged(&bus, &part);
    assert_eq!(verdict, Fails);
    near(required, Some(0.18));
    let above = changed(part, |r| r.strength.standoff_low = Some(Volt(0.0)));
    assert_eq!(judged(&bus, &above).0, Passes);
}
