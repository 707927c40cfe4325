//! Facts of the trade: common practice, no source. They order outcomes; no digit is taken from them.

use super::{changed, point, row, verdict, volts};
use lanecap::model::Polarity::Unidirectional;
use lanecap::model::{Needs, Part};
use lanecap::parts::Verdict::{Fails, Passes};
use lanecap::parts::{BillLine, BillPart, Duty, Fit, Supply, bill};
use lanecap::units::{Ohm, Volt};

#[test]
fn parts_for_signal_lines_fail_a_power_pin_by_stand_off() {
    // signal parts stand off 5, 6 or at most 12 V; a pin that may carry 20 V needs 20 V
    let pin = changed(Duty::default(), |d| {
        d.voltage = volts(0.0, 20.0);
        d.supply = Supply::Rail(None);
    });
    for (standoff, expected) in [(5.0, Fails), (6.0, Fails), (12.0, Fails), (20.0, Passes)] {
        let part = changed(Part::default(), |r| {
            r.polarity = Some(Unidirectional);
            r.strength.standoff = Some(Volt(standoff));
        });
        let (required, available, _, found) = row(&pin, &part, "stand-off");
        assert_eq!((required, available, found), (Some(20.0), Some(standoff), expected));
    }
}

#[test]
fn an_antenna_struck_with_30_kv_drops_a_part_rated_for_8() {
    let antenna = changed(Duty::default(), |d| d.demands.contact = Some(Volt(30e3)));
    let rated = |volts: f64| changed(Part::default(), |r| r.strength.contact = Some(Volt(volts)));
    assert_eq!(verdict(&antenna, &rated(8e3), "rating contact"), Fails);
    assert_eq!(verdict(&antenna, &rated(30e3), "rating contact"), Passes);
}

#[test]
fn a_sensitive_input_tells_parts_apart_by_their_residual() {
    let sensor = changed(Duty::default(), |d| {
        d.demands.contact = Some(Volt(8e3));
        d.demands.withstands = Some(Volt(9.0));
    });
    let clamping_at = |volts: f64| {
        changed(Part::default(), |r| {
            r.strength.clamp = point(volts, 16.0);
            r.strength.dynamic_resistance = Some(Ohm(0.3));
        })
    };
    assert_eq!(verdict(&sensor, &clamping_at(8.0), "residual"), Passes);
    assert_eq!(verdict(&sensor, &clamping_at(12.0), "residual"), Fails);
}

#[test]
fn a_vehicle_bus_drops_parts_that_are_not_qualified() {
    let bus = changed(Duty::default(), |d| {
        d.demands.needs = Needs { qualified: vec!["vehicle".to_owned()], ..Needs::default() }
    });
    let qualified = changed(Part::default(), |r| r.strength.qualified = vec!["vehicle".to_owned()]);
    assert_eq!(verdict(&bus, &qualified, "qualification"), Passes);
    assert_eq!(verdict(&bus, &Part::default(), "qualification"), Fails);
}

#[test]
fn powered_ethernet_needs_57_v() {
    let line = changed(Duty::default(), |d| d.voltage = volts(0.0, 57.0));
    let part = changed(Part::default(), |r| r.strength.standoff = Some(Volt(48.0)));
    assert_eq!(verdict(&line, &part, "stand-off"), Fails);
}

#[test]
fn on_a_card_interface_one_array_is_cheaper_than_singles() {
    let lines = vec![BillLine { count: 6, fits: vec![Fit::One, Fit::One] }];
    let single = BillPart { channels: 1, cost: Some(1.0) };
    let array = BillPart { channels: 6, cost: Some(4.0) };
    let found = bill(&lines, &[single, array]);
    assert_eq!((found.parts.len(), found.parts[0].part, found.parts[0].packages), (1, 1, 1));
}
