//! The race between a part and the chip's own clamp, each way it is published: J. Zhou et al., IEEE Transactions on
//! Electromagnetic Compatibility 64(4), 2022, 907–914 (the abstract; a secondary source).

use lanecap::Design;
use lanecap::transient::{Discharged, LineDischarge, Sign, struck};
use lanecap::units::Volt;

/// A part that snaps back at 16 V, and with an inductance of its own; behind it so much of a line and so many ohms to a
/// chip that clamps at 1.3 V.
fn lane(millimetres: f64, ohms: f64) -> Design {
    let series = if ohms > 0.0 { format!("series {ohms} ohm") } else { String::new() };
    Design::parse(&format!(
        "part \"p\" {{ capacitance 0.2 pF max at 0 V; inductance 0.3 nH; bidirectional; standoff 3.3 V
         trigger 16 V; turn_on 0.3 ns; holding 2 V at 20 mA; clamp 6 V at 16 A; dynamic_resistance 0.25 ohm }}
         lane \"l\" {{ rate 5 Gb/s nrz; reference 100 ohm differential; limit added_loss <= 1 dB; exposure contact 8 kV
         path {{ driver 100 ohm; connector 0.1 pF 0.3 nH; protector part \"p\" inductance 0.2 nH
         trace 100 ohm {millimetres} mm permittivity 3.6
         {series}
         receiver 100 ohm pad 0.3 pF clamps 1.3 V 0.8 ohm }} }}"
    ))
    .unwrap()
}

fn discharged(design: &Design) -> Discharged {
    struck(&design.lines[0], Sign::Positive).unwrap().up_to(Volt(8e3)).unwrap()
}

fn peak_of(millimetres: f64, ohms: f64) -> f64 {
    discharged(&lane(millimetres, ohms)).stated.outcome.pin.peak_current.0
}

fn equivalent_of(millimetres: f64, ohms: f64) -> f64 {
    discharged(&lane(millimetres, ohms)).stated.outcome.pin.equivalent.0
}

#[test]
fn a_longer_trace_lowers_the_chips_current() {
    let (near, far) = (peak_of(1.0, 0.0), peak_of(30.0, 0.0));
    assert!(near > 2.0 * far, "{near} A at 1 mm, {far} A at 30 mm");
}

#[test]
fn a_small_resistance_lowers_the_chips_current() {
    let (without, with) = (equivalent_of(1.0, 0.0), equivalent_of(1.0, 5.0));
    assert!(without > 2.0 * with, "{without} A without, {with} A with 5 ohm");
    let (without, with) = (peak_of(1.0, 0.0), peak_of(1.0, 5.0));
    assert!(without > 2.0 * with, "{without} A without, {with} A with 5 ohm");
}

/// Below the level that turns the part on, all of the current is the chip's: more than at the full level.
#[test]
fn a_low_level_may_leave_more_than_a_high_one() {
    let up_to = discharged(&lane(1.0, 1.0));
    let from = up_to.turns_on_from.expect("it turns on at 8 kV");
    assert!(up_to.worst_level < Volt(8e3), "{:?}", up_to.worst_level);
    let (low, high) = (up_to.worst.outcome.pin.equivalent.0, up_to.stated.outcome.pin.equivalent.0);
    assert!(low > 1.2 * high, "{low} A at {}, {high} A at 8 kV", up_to.worst_level);
    assert!(up_to.worst_level <= from, "{} against {from}", up_to.worst_level);
    // It is said of the line as a whole, too.
    let design = lane(1.0, 1.0);
    let contact = LineDischarge::of(&design.lines[0]).unwrap().contact.unwrap().unwrap();
    assert!(contact.worse_first()[0].1.worst_level < Volt(8e3));
}
