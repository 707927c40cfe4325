//! The first peak of a contact discharge, by hand: 30 A at 8 kV, rising in 0.8 ns (IEC 61000-4-2, as quoted in a
//! secondary source). The part of these cases has 8.5 V up to 16 A, 13.4 V at 30 A and 0.35 nH.

use super::residual::{quad, struck};
use super::{changed, find, near, row, verdict};
use lanecap::model::Part;
use lanecap::parts::Verdict::{Fails, NotStated, Passes};
use lanecap::parts::{Check, Duty, Footprint};
use lanecap::units::{Henry, Ohm, Second, Volt};

const NAME: &str = "first peak";

fn with(ground: f64, stub_ps: f64, withstands: f64, peak: Option<f64>) -> Duty {
    changed(struck(8.0, withstands), |d| {
        d.demands.withstands_peak = peak.map(Volt);
        d.footprint = Footprint {
            ground_inductance: Henry(ground),
            resistance: Ohm(0.0),
            across: false,
            stub_delay: Second(stub_ps * 1e-12),
            reference: Ohm(45.0),
        }
    })
}

fn without_coil() -> Part {
    changed(quad(), |r| r.inductance = Henry(0.0))
}

fn triggered(part: Part, volts: f64) -> Part {
    changed(part, |r| r.strength.trigger = Some(Volt(volts)))
}

#[test]
fn inductance_of_part_via_and_stub_raises_it() {
    // 8.5 + 0.35 nH · 30 A/0.8 ns = 8.5 + 13.125; via 0.1 nH: + 3.75; stub 2 ps · 45 ohm = 0.09 nH: + 3.375
    near(row(&with(0.0, 0.0, 12.0, Some(40.0)), &quad(), NAME).1, Some(21.625));
    near(row(&with(0.1e-9, 0.0, 12.0, Some(40.0)), &quad(), NAME).1, Some(25.375));
    near(row(&with(0.1e-9, 2.0, 12.0, Some(40.0)), &quad(), NAME).1, Some(28.75));
    // a strike against ground takes the via whichever value counts for the signal
    let both = changed(with(0.1e-9, 2.0, 12.0, Some(40.0)), |d| d.footprint.across = true);
    near(row(&both, &quad(), NAME).1, Some(28.75));
    // a via alone: the resistive peak of 13.4 V is the larger one: 8.5 + 0.01 nH · 30 A/0.8 ns = 8.875
    near(row(&with(0.01e-9, 0.0, 12.0, Some(40.0)), &without_coil(), NAME).1, Some(13.4));
}

#[test]
fn it_stands_against_what_the_chip_withstands_so_long() {
    assert_eq!(verdict(&with(0.0, 0.0, 12.0, Some(21.7)), &quad(), NAME), Passes);
    let (required, _, margin, found) = row(&with(0.0, 0.0, 12.0, Some(17.3)), &quad(), NAME);
    assert_eq!((required, found), (Some(17.3), Fails));
    near(margin, Some(-(21.625 - 17.3) / 17.3));
    // the verdict at 30 ns, 8.5 V, is its own
    assert_eq!(verdict(&with(0.0, 0.0, 12.0, Some(17.3)), &quad(), "residual"), Passes);
}

#[test]
fn without_a_stated_peak_it_passes_or_says_nothing() {
    let (required, available, _, found) = row(&with(0.0, 0.0, 22.0, None), &quad(), NAME);
    assert_eq!((required, found), (Some(22.0), Passes));
    near(available, Some(21.625));
    let Check { available, verdict, why, .. } = find(&with(0.0, 0.0, 21.0, None), &quad(), NAME).unwrap();
    assert_eq!(verdict, NotStated);
    near(available, Some(21.625));
    let why = why.unwrap();
    assert!(why.contains("21.6") && why.contains("21 V") && why.contains("not stated"), "{why}");
}

#[test]
fn an_inductance_that_nobody_states_is_not_zero() {
    let check = find(&with(0.0, 0.0, 40.0, Some(60.0)), &without_coil(), NAME).unwrap();
    assert_eq!((check.verdict, check.available), (NotStated, None));
    assert!(check.why.unwrap().contains("inductance"));
    assert_eq!(verdict(&with(0.0, 0.0, 40.0, None), &without_coil(), NAME), NotStated);
    // what is too high without it fails already: 13.4 V
    assert_eq!(verdict(&with(0.0, 0.0, 12.0, Some(13.3)), &without_coil(), NAME), Fails);
    // no clamp voltage, no peak
    let bare = changed(Part::default(), |r| r.inductance = Henry(1e-9));
    let check = find(&with(0.0, 0.0, 40.0, None), &bare, NAME).unwrap();
    assert_eq!((check.verdict, check.why.as_deref()), (NotStated, Some("the part states no `clamp`")));
}

#[test]
fn a_trigger_counts_and_fails_alone() {
    for part in [triggered(quad(), 60.0), triggered(without_coil(), 60.0), triggered(Part::default(), 60.0)] {
        for peak in [None, Some(40.0)] {
            let check = find(&with(0.0, 0.0, 12.0, peak), &part, NAME).unwrap();
            assert_eq!((check.verdict, check.available), (Fails, Some(60.0)));
            assert!(check.why.unwrap().contains("60 V"));
        }
    }
    let (_, available, _, found) = row(&with(0.0, 0.0, 12.0, Some(40.0)), &triggered(quad(), 25.0), NAME);
    assert_eq!((available, found), (Some(25.0), Passes));
    assert_eq!(verdict(&with(0.0, 0.0, 30.0, None), &triggered(without_coil(), 25.0), NAME), NotStated);
}

#[test]
fn nothing_is_asked_without_a_strike_or_a_chip() {
    assert_eq!(find(&changed(struck(8.0, 22.0), |d| d.demands.contact = None), &quad(), NAME), None);
    assert_eq!(find(&changed(struck(8.0, 22.0), |d| d.demands.withstands = None), &quad(), NAME), None);
}
