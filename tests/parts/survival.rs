//! Every check by hand. Numbers are invented; the rule each case follows stands beside it.

use super::{changed, find, near, point, row, verdict, volts};
use lanecap::model::Polarity::{Bidirectional, Rails, Unidirectional};
use lanecap::model::{Leakage, Needs, Part, TemperatureRange};
use lanecap::parts::Verdict::{Fails, NotStated, Passes};
use lanecap::parts::{Duty, Supply, capacitance_check, checks};
use lanecap::units::{Ampere, Ohm, Volt};

fn line(low: f64, high: f64) -> Duty {
    changed(Duty::default(), |d| d.voltage = volts(low, high))
}

fn standing_off(polarity: lanecap::model::Polarity, standoff: f64) -> Part {
    changed(Part::default(), |r| {
        r.polarity = Some(polarity);
        r.strength.standoff = Some(Volt(standoff));
    })
}

#[test]
fn a_line_that_asks_for_nothing_has_no_checks() {
    let rating = changed(standing_off(Unidirectional, 3.3), |r| {
        r.strength.contact = Some(Volt(8e3));
        r.strength.holding = Some(Volt(2.0));
        r.strength.leakage = Some(Leakage { current: Ampere(1e-6), at: None });
    });
    assert!(checks(&Duty::default(), &rating).checks.is_empty());
}

#[test]
fn stand_off_margin_is_relative_to_the_lines_voltage() {
    // (3.3 − 1.2)/1.2 = 1.75
    let (required, available, margin, verdict) = row(&line(0.0, 1.2), &standing_off(Unidirectional, 3.3), "stand-off");
    near(required, Some(1.2));
    near(available, Some(3.3));
    near(margin, Some(1.75));
    assert_eq!(verdict, Passes);
}

#[test]
fn equal_to_the_limit_passes_with_no_margin() {
    let (_, _, margin, verdict) = row(&line(0.0, 3.3), &standing_off(Unidirectional, 3.3), "stand-off");
    near(margin, Some(0.0));
    assert_eq!(verdict, Passes);
    assert_eq!(super::verdict(&line(0.0, 3.300_001), &standing_off(Unidirectional, 3.3), "stand-off"), Fails);
}

#[test]
fn a_limit_of_zero_has_no_relative_margin() {
    let (required, _, margin, verdict) = row(&line(0.0, 0.0), &standing_off(Unidirectional, 3.3), "stand-off");
    assert_eq!((required, margin, verdict), (Some(0.0), None, Passes));
}

#[test]
fn a_unidirectional_part_bears_0_3_v_below_ground() {
    let part = standing_off(Unidirectional, 3.3);
    assert_eq!(verdict(&line(-0.3, 1.2), &part, "stand-off"), Passes);
    // the lower end is what fails: −0.5 V against −0.3 V, (0.3 − 0.5)/0.5 = −0.4
    let (required, available, margin, found) = row(&line(-0.5, 1.2), &part, "stand-off");
    near(required, Some(-0.5));
    near(available, Some(-0.3));
    near(margin, Some(-0.4));
    assert_eq!(found, Fails);
    // both ends fail: the one that misses by more, (3.3 − 33)/33 = −0.9
    near(row(&line(-0.5, 33.0), &part, "stand-off").2, Some(-0.9));
    // upper end fails alone
    near(row(&line(-0.2, 6.6), &part, "stand-off").2, Some(-0.5));
    // without a stand-off the lower end still fails, and is all that can be said
    let unknown = Part::default();
    assert_eq!(verdict(&line(-0.5, 1.2), &unknown, "stand-off"), Fails);
    assert_eq!(verdict(&line(0.0, 1.2), &unknown, "stand-off"), NotStated);
}

#[test]
fn a_bidirectional_part_stands_off_the_larger_end_either_way() {
    let part = standing_off(Bidirectional, 5.0);
    // |−4| > 2: (5 − 4)/4 = 0.25
    near(row(&line(-4.0, 2.0), &part, "stand-off").2, Some(0.25));
    assert_eq!(verdict(&line(-6.0, 2.0), &part, "stand-off"), Fails);
}

#[test]
fn rail_diodes_stand_off_their_supply() {
    let part = changed(Part::default(), |r| r.polarity = Some(Rails(Volt(5.0))));
    near(row(&line(0.0, 4.0), &part, "stand-off").1, Some(5.0));
    let lower = changed(part, |r| r.strength.standoff = Some(Volt(3.6)));
    near(row(&line(0.0, 4.0), &lower, "stand-off").1, Some(3.6));
    assert_eq!(verdict(&line(0.0, 4.0), &lower, "stand-off"), Fails);
}

#[test]
fn a_feeds_power_adds_its_peak_to_either_side() {
    let feed = changed(Duty::default(), |d| d.feed_peak = Some(Volt(10.0)));
    near(row(&feed, &standing_off(Bidirectional, 12.0), "stand-off").2, Some(0.2));
    assert_eq!(verdict(&feed, &standing_off(Unidirectional, 12.0), "stand-off"), Fails);
    let biased = changed(feed, |d| d.voltage = volts(3.0, 5.0));
    // 5 + 10
    near(row(&biased, &standing_off(Bidirectional, 12.0), "stand-off").0, Some(15.0));
}

#[test]
fn a_part_that_snaps_back_must_hold_above_a_line_that_can_feed_it() {
    let part = changed(standing_off(Unidirectional, 5.5), |r| r.strength.holding = Some(Volt(3.3)));
    let signal = line(0.0, 5.0);
    assert_eq!(find(&signal, &part, "latch-up"), None);
    let rail = changed(signal, |d| d.supply = Supply::Rail(None));
    // (3.3 − 5)/5 = −0.34
    let (required, available, margin, found) = row(&rail, &part, "latch-up");
    assert_eq!((required, available, found), (Some(5.0), Some(3.3), Fails));
    near(margin, Some(-0.34));
    // it must be above, not equal
    let equal = changed(part.clone(), |r| r.strength.holding = Some(Volt(5.0)));
    assert_eq!(verdict(&rail, &equal, "latch-up"), Fails);
    let above = changed(part.clone(), |r| r.strength.holding = Some(Volt(5.5)));
    assert_eq!(verdict(&rail, &above, "latch-up"), Passes);
    let only_trigger = changed(part.clone(), |r| {
        r.strength.holding = None;
        r.strength.trigger = Some(Volt(7.0));
    });
    assert_eq!(verdict(&rail, &only_trigger, "latch-up"), NotStated);
    // a plain part does not snap back
    assert_eq!(find(&rail, &standing_off(Unidirectional, 5.5), "latch-up"), None);
    let unknown_voltage = changed(rail, |d| d.voltage = None);
    assert_eq!(verdict(&unknown_voltage, &part, "latch-up"), NotStated);
}

#[test]
fn ratings_are_compared_kind_by_kind() {
    let demand = changed(Duty::default(), |d| {
        d.demands.contact = Some(Volt(8e3));
        d.demands.air = Some(Volt(15e3));
        d.demands.surge = Some(Ampere(2.0));
    });
    let part = changed(Part::default(), |r| {
        r.strength.contact = Some(Volt(12e3));
        r.strength.air = Some(Volt(12e3));
    });
    // (12 − 8)/8, (12 − 15)/15
    near(row(&demand, &part, "rating contact").2, Some(0.5));
    near(row(&demand, &part, "rating air").2, Some(-0.2));
    // 84 V through 42 ohm: 2 A
    let (required, _, margin, found) = row(&demand, &part, "rating surge");
    assert_eq!((required, margin, found), (Some(2.0), None, NotStated));
    let names: Vec<&str> = checks(&demand, &part).checks.iter().map(|c| c.check).collect();
    assert_eq!(names, ["rating contact", "rating air", "rating surge"]);
}

#[test]
fn leakage_doubles_for_every_10_degrees_above_25() {
    // common practice, no source
    let demand = |hottest: f64| {
        changed(line(0.0, 3.0), |d| {
            d.demands.needs = Needs { leakage: Some(Ampere(1e-6)), ..Needs::default() };
            d.demands.temperature = Some(TemperatureRange { low: -40.0, high: hottest });
        })
    };
    let part = changed(standing_off(Unidirectional, 3.3), |r| {
        r.strength.leakage = Some(Leakage { current: Ampere(50e-9), at: None })
    });
    near(row(&demand(25.0), &part, "leakage").1, Some(50e-9));
    near(row(&demand(-10.0), &part, "leakage").1, Some(50e-9));
    // 85 °C: 2^6 · 50 nA = 3.2 µA, 1 − 3.2
    near(row(&demand(85.0), &part, "leakage").1, Some(3.2e-6));
    near(row(&demand(85.0), &part, "leakage").2, Some(-2.2));
    // 65 °C: 2^4 · 50 nA = 0.8 µA, 1 − 0.8
    let (_, _, margin, found) = row(&demand(65.0), &part, "leakage");
    assert!((margin.unwrap() - 0.2).abs() < 1e-12);
    assert_eq!(found, Passes);
    // stated at 1 V it says nothing of 3 V, unless it is too much already
    let at_one = |current: f64| {
        changed(part.clone(), |r| r.strength.leakage = Some(Leakage { current: Ampere(current), at: Some(Volt(1.0)) }))
    };
    assert_eq!(verdict(&demand(25.0), &at_one(50e-9), "leakage"), NotStated);
    assert_eq!(verdict(&demand(25.0), &at_one(2e-6), "leakage"), Fails);
}

#[test]
fn polarity_is_asked_for_by_a_need_or_by_a_voltage_below_ground() {
    assert_eq!(find(&line(0.0, 3.3), &standing_off(Unidirectional, 5.0), "polarity"), None);
    let below = line(-1.0, 1.0);
    let needed = changed(Duty::default(), |d| d.demands.needs = Needs { bidirectional: true, ..Needs::default() });
    for demand in [below, needed] {
        assert_eq!(verdict(&demand, &standing_off(Unidirectional, 5.0), "polarity"), Fails);
        assert_eq!(verdict(&demand, &standing_off(Rails(Volt(5.0)), 5.0), "polarity"), Fails);
        assert_eq!(verdict(&demand, &standing_off(Bidirectional, 5.0), "polarity"), Passes);
        assert_eq!(verdict(&demand, &Part::default(), "polarity"), NotStated);
    }
}

#[test]
fn the_parts_temperature_must_contain_the_lines() {
    let range = |low: f64, high: f64| Some(TemperatureRange { low, high });
    let demand = changed(Duty::default(), |d| d.demands.temperature = range(-40.0, 85.0));
    let part = |low: f64, high: f64| changed(Part::default(), |r| r.strength.temperature = range(low, high));
    // the end with less room: 20 degrees below against 40 above; (−40 + 60)/40
    let (required, available, margin, found) = row(&demand, &part(-60.0, 125.0), "temperature");
    assert_eq!((required, available, found), (Some(-40.0), Some(-60.0), Passes));
    near(margin, Some(0.5));
    assert_eq!(verdict(&demand, &part(-25.0, 125.0), "temperature"), Fails);
    // (68 − 85)/85 = −0.2
    near(row(&demand, &part(-55.0, 68.0), "temperature").2, Some(-0.2));
    assert_eq!(verdict(&demand, &Part::default(), "temperature"), NotStated);
}

#[test]
fn words_must_match() {
    let demand = changed(Duty::default(), |d| {
        d.demands.needs = Needs {
            qualified: vec!["vehicle".to_owned(), "marine".to_owned()],
            package: Some("0402".to_owned()),
            channels: Some(4),
            ..Needs::default()
        }
    });
    let part = changed(Part::default(), |r| {
        r.strength.qualified = vec!["marine".to_owned()];
        r.strength.package = Some("0402".to_owned());
        r.strength.channels = Some(2);
    });
    let found: Vec<_> = checks(&demand, &part).checks.into_iter().map(|c| (c.check, c.verdict)).collect();
    let expected = [("qualification", Fails), ("qualification", Passes), ("package", Passes), ("channels", Fails)];
    assert_eq!(found, expected);
    near(row(&demand, &part, "channels").2, Some(-0.5));
    let found: Vec<_> = checks(&demand, &Part::default()).checks.into_iter().map(|c| c.verdict).collect();
    // a qualification that is not stated is not held
    assert_eq!(found, [Fails, Fails, NotStated, NotStated]);
}

#[test]
fn capacitance_counts_in_the_lowest_interval_alone() {
    let bounded = [(0.0, Some(0.5e-12)), (2e-12, Some(3e-12))];
    near(capacitance_check(&bounded, Some(0.4e-12)).margin, Some(1.0 - 0.4 / 0.5));
    assert_eq!(capacitance_check(&bounded, Some(2.5e-12)).verdict, Fails);
    assert_eq!(capacitance_check(&bounded, None).verdict, NotStated);
    let window = [(0.2e-12, Some(0.5e-12))];
    // below the window: required is the end that is missed
    near(capacitance_check(&window, Some(0.1e-12)).required, Some(0.2e-12));
    assert_eq!(capacitance_check(&window, Some(0.1e-12)).verdict, Fails);
    assert_eq!(capacitance_check(&window, Some(0.3e-12)).verdict, Passes);
    let open = capacitance_check(&[(0.0, None)], Some(1e-9));
    assert_eq!((open.required, open.margin, open.verdict), (None, None, Passes));
    assert_eq!(capacitance_check(&[], Some(0.0)).verdict, Fails);
}

#[test]
fn no_number_is_ever_infinite() {
    let demand = changed(line(0.0, 0.0), |d| {
        d.demands.contact = Some(Volt(0.0));
        d.demands.surge = Some(Ampere(1.0));
        d.demands.withstands = Some(Volt(10.0));
    });
    let part = changed(standing_off(Unidirectional, 3.0), |r| {
        r.strength.contact = Some(Volt(1.0));
        r.strength.surge_clamp = point(8.0, 0.0);
    });
    for check in checks(&demand, &part).checks {
        for number in [check.required, check.available, check.margin].into_iter().flatten() {
            assert!(number.is_finite(), "{check:?}");
        }
    }
}

/// Charge over peak of the two standard waves (own arithmetic): 17.4 µs of 8/20, 72 µs of 1.2/50; a part bears what its
/// square root allows (thermal limit of a pulse by its length, from memory).
#[test]
fn a_surge_of_high_impedance_is_a_longer_pulse() {
    let surge = |volts: f64, ohms: f64| {
        changed(Duty::default(), |d| {
            d.demands.surge = Some(Ampere(volts / ohms));
            d.demands.surge_through = Some(Ohm(ohms));
        })
    };
    let rated = |amperes: f64| changed(Part::default(), |r| r.strength.surge = Some(Ampere(amperes)));
    // 1 kV through 42 ohm: 23.81 A, against 24 A · 0.4916 = 11.80 A
    let check = find(&surge(1e3, 42.0), &rated(24.0), "rating surge").unwrap();
    near(check.available, Some(24.0 * (17.4_f64 / 72.0).sqrt()));
    assert_eq!(check.verdict, Fails);
    let why = check.why.unwrap();
    assert!(why.contains("42 ohm") && why.contains("11.8 A") && why.contains("24 A"), "{why}");
    assert_eq!(verdict(&surge(1e3, 42.0), &rated(49.0), "rating surge"), Passes);
    // at 2 ohm and below it is 8/20 itself
    assert_eq!(row(&surge(48.0, 2.0), &rated(24.0), "rating surge").1, Some(24.0));
    assert_eq!(find(&surge(48.0, 2.0), &rated(24.0), "rating surge").unwrap().why, None);
    assert_eq!(verdict(&surge(48.2, 2.008), &rated(24.0), "rating surge"), Fails);
}

#[test]
fn an_unsymmetrical_stand_off_has_two_ends() {
    let part = changed(Part::default(), |r| {
        r.strength.standoff = Some(Volt(12.0));
        r.strength.standoff_low = Some(Volt(-7.0));
    });
    // (12 − 10)/10 = 0.2 against (7 − 5)/5 = 0.4
    assert_eq!(row(&line(-5.0, 10.0), &part, "stand-off").1, Some(12.0));
    near(row(&line(-5.0, 10.0), &part, "stand-off").2, Some(0.2));
    let (required, available, margin, found) = row(&line(-8.0, 10.0), &part, "stand-off");
    assert_eq!((required, available, found), (Some(-8.0), Some(-7.0), Fails));
    near(margin, Some(-0.125));
    assert_eq!(verdict(&line(0.0, 13.0), &part, "stand-off"), Fails);
    // it says itself how far below ground it works
    assert_eq!(find(&line(-5.0, 10.0), &part, "polarity"), None);
    let both_ways = changed(part, |r| r.polarity = Some(Bidirectional));
    assert_eq!(verdict(&line(-8.0, 10.0), &both_ways, "stand-off"), Fails);
}
