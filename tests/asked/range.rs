//! The values for which a line holds: closed forms, dense scans, what the protector's own capacitance and its place are.

use std::f64::consts::PI;

use super::{design, line, near, random_sheet, sized};
use crate::support::random::Random;
use lanecap::Line;
use lanecap::budget::{Figures, Verdict};
use lanecap::model::Address;
use lanecap::result::size;
use lanecap::study::{Breaks, Holding, NoRange, Over, holding, is_budget, usual_range};

fn address(text: &str) -> Address {
    text.parse().unwrap_or_else(|_| panic!("{text}"))
}

fn asked(line: &Line, of: &str, ends: Option<(f64, f64)>) -> Holding {
    let of = line.addressed(&address(of)).unwrap_or_else(|| panic!("{of}")).clone();
    let all = ends.is_none() && is_budget(line, &of.address);
    let (from, to) = ends.or_else(|| usual_range(line, &of)).unwrap_or((0.0, 1e-3));
    holding(line, &Over { of, from, to }, all).unwrap().unwrap()
}

/// Whether a value lies in what was found; `None` too near to an end to tell.
fn inside(found: &Holding, value: f64, near: f64) -> Option<bool> {
    let close = |end: f64| (end - value).abs() <= near * end.abs();
    let at_end = found.ends.iter().any(|end| close(end.value));
    let within = |(low, high): &(f64, Option<f64>)| *low <= value && high.is_none_or(|high| value <= high);
    (!at_end).then(|| found.intervals.iter().any(within))
}

/// |S11| = x/sqrt(1 + x^2), x = pi f C Z, of a matched line: a return loss of R dB ends at x = 1/sqrt(10^(R/10) - 1).
#[test]
fn the_highest_rate_of_a_matched_line() {
    let line = line(
        "lane \"l\" { rate 2 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB
        path { driver 50 ohm; protector 0.5 pF; receiver 50 ohm } }",
    );
    let found = asked(&line, "rate", None);
    let x = 1.0 / (10f64.powf(1.0) - 1.0).sqrt();
    let most = 2.0 * x / (PI * 0.5e-12 * 50.0);
    assert_eq!((found.intervals.len(), found.ends.len()), (1, 1));
    near(found.ends[0].value, most, 1.1e-6);
    assert!(found.ends[0].value <= most, "the end holds");
    assert_eq!(found.intervals, [(2e8, Some(found.ends[0].value))]);
    assert!(matches!(found.ends[0].breaks, Breaks::Limit(figure) if figure.word() == "return_loss"));
    // The lowest rate has the largest budget.
    let best = found.best.unwrap();
    assert!(best.value < 2e8 * 1.001 && best.verdict == Verdict::Bounded);
    near(best.budget.0, 2.0 * x / (PI * best.value * 50.0), 1e-9);
}

/// Every 2 x 2 symbols have half the Nyquist frequency: the number goes by the unit of the sheet.
#[test]
fn a_rate_counts_in_the_unit_of_its_sheet() {
    let of = |rate: &str| {
        let line = line(&format!(
            "lane \"l\" {{ rate {rate}; reference 50 ohm; limit return_loss >= 10 dB
        path {{ driver 50 ohm; protector 0.5 pF; receiver 50 ohm }} }}"
        ));
        asked(&line, "rate", None).ends[0].value
    };
    near(of("2 Gb/s pam4"), 2.0 * of("2 Gb/s nrz"), 3e-6);
    near(of("1 GBd pam4"), of("2 Gb/s nrz"), 3e-6);
}

fn own_capacitance(count: usize, seed: u64) {
    let mut r = Random(seed);
    let mut bounded = 0;
    for _ in 0..count {
        let sheet = random_sheet(&mut r);
        let line = line(&sheet);
        let found = asked(&line, "4.capacitance", None);
        let budget = sized(&line).0;
        assert_eq!(found.searched, (0.0, None));
        let expected = budget.allowed.ends();
        assert_eq!(found.intervals.len(), expected.len(), "{sheet}");
        for (own, expected) in found.intervals.iter().zip(&expected) {
            for (own, expected) in [(Some(own.0), Some(expected.0)), (own.1, expected.1)] {
                match (own, expected) {
                    (Some(own), Some(expected)) => near(own, expected, 1e-9),
                    (own, expected) => assert_eq!(own, expected),
                }
            }
        }
        // The end of the budget is set by the limit that sets the budget.
        if let (Some(most), Some(by)) = (budget.capacitance.filter(|c| c.0 > 0.0), budget.set_by) {
            let end = found.ends.iter().find(|end| end.value == most.0).unwrap();
            assert!(matches!(end.breaks, Breaks::Limit(figure) if figure == by), "{sheet}");
            assert_eq!(
                found.best.map(|best| (best.value, best.budget, best.verdict)),
                Some((most.0, most, budget.verdict))
            );
            bounded += 1;
        }
        // Within two values alone.
        let part = asked(&line, "4.capacitance", Some((0.1e-12, 0.3e-12)));
        let both = budget.allowed.intersect(&[lanecap::budget::Interval { low: 0.1e-12, high: 0.3e-12 }]);
        assert_eq!(part.intervals, both.ends());
    }
    assert!(3 * bounded > count, "only {bounded} of {count} are bounded");
}

#[test]
fn the_protectors_own_capacitance_is_the_budget() {
    own_capacitance(100, 0xca9);
}

#[test]
#[ignore = "long: a thousand lanes"]
fn the_protectors_own_capacitance_is_the_budget_of_a_thousand_lanes() {
    own_capacitance(1000, 0xca10);
}

fn dense(count: usize, values: u32, seed: u64) {
    let mut r = Random(seed);
    let (mut held, mut broke) = (0, 0);
    for _ in 0..count {
        let sheet = random_sheet(&mut r);
        let line = line(&sheet);
        for of in ["3.length", "4.inductance", "5.impedance", "6.capacitance", "8.pad", "rate", "place"] {
            let found = asked(&line, of, None);
            let of = address(of);
            let (from, to) = (found.searched.0, found.searched.1.unwrap());
            let mut most: Option<(f64, f64)> = None;
            for k in 0..=values {
                let value = (from + (to - from) * f64::from(k) / f64::from(values)).clamp(from, to);
                let (budget, holds) = sized(&line.with_values([(&of, value)]).unwrap());
                if let Some(inside) = inside(&found, value, 3e-6) {
                    // An interval narrower than a 400th of what is searched may be missed.
                    let step = (to - from) / 400.0;
                    let at = |value: f64| sized(&line.with_values([(&of, value.clamp(from, to))]).unwrap()).1;
                    let missed = || [value - step, value + step].map(at) == [Some(inside); 2];
                    assert!(Some(inside) == holds || missed(), "{of} = {value}: {:?}\n{sheet}", found.intervals);
                    if inside { held += 1 } else { broke += 1 }
                }
                if let (Verdict::Bounded, Some(c)) = (budget.verdict, budget.capacitance)
                    && most.is_none_or(|most| c.0 > most.1)
                {
                    most = Some((value, c.0));
                }
            }
            if let Some((value, c)) = most {
                let best = found.best.unwrap();
                assert!(
                    best.verdict == Verdict::Bounded && best.budget.0 >= c * (1.0 - 1e-9),
                    "{of}: {best:?}, {value} {c}"
                );
                let (budget, _) = sized(&line.with_values([(&of, best.value)]).unwrap());
                near(best.budget.0, budget.capacitance.unwrap().0, 1e-12);
            }
            // Just beyond each end the limit that is named breaks, and none before it in the sheet.
            for end in &found.ends {
                let Breaks::Limit(figure) = end.breaks else { panic!("{end:?}") };
                let beyond = |away: f64| sized(&line.with_values([(&of, end.value * (1.0 + away))]).unwrap()).0;
                let first = [2e-6, -2e-6].map(|away| {
                    let broken = beyond(away).limits.into_iter().find(|limit| !limit.fitted.unwrap().holds);
                    broken.map(|limit| limit.figure)
                });
                assert!(first.contains(&Some(figure)) && first.contains(&None), "{of}: {end:?} {first:?}\n{sheet}");
            }
        }
    }
    assert!(held > 50 && broke > 50, "{held} held, {broke} broke");
}

#[test]
fn a_dense_scan_finds_the_same() {
    dense(4, 211, 0xde5e);
}

#[test]
#[ignore = "long: a hundred lanes"]
fn a_dense_scan_of_a_hundred_lanes_finds_the_same() {
    dense(100, 211, 0xde5f);
}

/// Between its neighbours the protector moves and their sum stays; the loss of a trace goes with its length.
#[test]
fn a_place_is_the_sheet_with_both_lengths() {
    let sheet = |outer: f64, inner: f64| {
        format!(
            "lane \"l\" {{ rate 6 Gb/s nrz; reference 50 ohm; limit return_loss >= 14 dB
        path {{ driver 50 ohm; connector 0.2 pF 0.3 nH; trace 52 ohm {outer:?} mm permittivity 3.5 loss {:?} dB at 3 GHz
        protector 0.25 pF pad 0.05 pF; trace 48 ohm {inner:?} mm permittivity 3 loss 20 dB/m at 3 GHz
        receiver 46 ohm pad 0.3 pF }} }}",
            0.05 * outer
        )
    };
    let line = line(&sheet(6.0, 14.0));
    let found = asked(&line, "place", None);
    assert_eq!(found.searched.0, 0.0);
    near(found.searched.1.unwrap(), 20e-3, 1e-12);
    let (mut held, mut broke) = (0, 0);
    for k in 1..40 {
        let outer = 0.5 * f64::from(k);
        let (_, holds) = sized(&super::line(&sheet(outer, 20.0 - outer)));
        if let Some(inside) = inside(&found, outer * 1e-3, 1e-5) {
            assert_eq!(Some(inside), holds, "{outer} mm: {:?}", found.intervals);
            if inside { held += 1 } else { broke += 1 }
        }
    }
    assert!(held > 3 && broke > 3, "{held} held, {broke} broke");
}

/// While the rate moves every value of the path stays.
#[test]
fn a_rate_keeps_the_path() {
    let sheet = |rate: f64| {
        format!("lane \"l\" {{ rate {rate:?} Gb/s nrz; reference 50 ohm; limit added_loss <= 0.6 dB; limit return_loss >= 9 dB
        path {{ driver 50 ohm; trace 55 ohm 30 mm permittivity 3.5 loss 1.2 dB at 2 GHz; protector 0.4 pF inductance 0.3 nH
        receiver 46 ohm pad 0.3 pF }} }}")
    };
    let found = asked(&line(&sheet(4.0)), "rate", Some((1e9, 12e9)));
    assert!(!found.ends.is_empty());
    for k in 0..45 {
        let rate = 1.0 + 0.25 * f64::from(k);
        let (_, holds) = sized(&line(&sheet(rate)));
        if let Some(inside) = inside(&found, rate * 1e9, 1e-5) {
            assert_eq!(Some(inside), holds, "{rate} Gb/s: {:?}", found.intervals);
        }
    }
}

/// C_tot = wiring + inputs + n C charges through R: t = R C_tot ln(7/3) ends R; C_tot ends the wiring. A feed shifts its
/// resonance with its pad as with C.
#[test]
fn a_bus_in_closed_form_and_a_feed() {
    let mut bus = line(
        "bus \"b\" { pull_up 2 kohm; wiring 60 pF; inputs 40 pF; nodes 2
        limit rise_time <= 1 us from 30 % to 70 %; limit total_capacitance <= 400 pF }",
    );
    bus.fit(lanecap::units::Farad::pico(20.0));
    let found = asked(&bus, "pull_up", None);
    let [end] = found.ends.as_slice() else { panic!("{found:?}") };
    near(end.value, 1e-6 / (140e-12 * (7f64 / 3.0).ln()), 1.1e-6);
    let found = asked(&bus, "wiring", Some((0.0, 1e-9)));
    let [end] = found.ends.as_slice() else { panic!("{found:?}") };
    near(end.value, 320e-12, 1.1e-6);
    assert!(matches!(end.breaks, Breaks::Limit(figure) if figure.word() == "total_capacitance"));

    let feed = line("feed \"f\" { band 1.5 GHz to 1.6 GHz; reference 50 ohm; limit return_loss >= 8 dB
        path { antenna series 1.55 GHz 45 ohm q 8; protector 0.05 pF; trace 50 ohm 5 mm permittivity 3; radio 50 ohm } }");
    let most = sized(&feed).0.capacitance.unwrap().0;
    let found = asked(&feed, "2.pad", Some((0.0, 3.0 * most)));
    near(found.ends[0].value + 0.05e-12, most, 1e-5);
}

/// In time the end is known to 1e-4.
#[test]
fn a_limit_in_time_ends_where_it_breaks() {
    let sheet = "lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit worst_eye_penalty <= 4 %
        path { driver 50 ohm; protector 0.2 pF; receiver 50 ohm } }";
    let line = line(sheet);
    let found = asked(&line, "2.pad", Some((0.0, 3e-12)));
    let [end] = found.ends.as_slice() else { panic!("{found:?}") };
    assert!(matches!(end.breaks, Breaks::Limit(figure) if figure.word() == "worst_eye_penalty"));
    // Without an inductance a pad is as good as C.
    let most = sized(&line).0.capacitance.unwrap().0;
    near(end.value + 0.2e-12, most, 2e-4);
}

const STRUCK: &str = "part \"late array\" {
    capacitance 0.28 pF max at 0 V
    inductance 0.3 nH; resistance 0.05 ohm
    bidirectional; standoff 3.6 V
    breakdown 5 V at 1 mA; clamp 9 V at 16 A; dynamic_resistance 0.2 ohm
    contact 15 kV
}
lane \"level sensor\" {
    rate 2.5 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 1.2 V
    exposure contact 8 kV
    limit added_loss <= LIMIT dB
    path {
        driver 50 ohm
        protector part \"late array\" inductance 0.2 nH
        trace 50 ohm 3 mm permittivity 3.8
        series 2 ohm
        receiver 50 ohm pad 0.4 pF clamps 2.6 V 0.9 ohm negative 2.6 V survives 2.5 A peak PEAK
    }
}";

/// Whether a line passes its limits and the checks of its pin, sized by itself.
fn pin_holds(line: &Line) -> bool {
    let mut port = design("rail \"supply\" { line_voltage 0 V to 5 V }");
    port.lines = vec![line.clone()];
    let report = size(&port, &[0], Figures::All, &Default::default(), &|| ()).unwrap();
    report.lanes[0].passes()
}

/// The most ground inductance, and the least resistance and length, with which signal and chip hold: just inside the line
/// passes, just beyond a check of the pin fails.
#[test]
fn a_chip_sets_the_ends_too() {
    let sheet = STRUCK.replace("LIMIT", "3").replace("PEAK", "9 A");
    let line = line(&sheet);
    // Too near the chip the part does not turn on in time.
    let late = "trigger 16 V; holding 2 V at 20 mA; turn_on 0.3 ns; clamp 4.4 V";
    let race = sheet.replace("breakdown 5 V at 1 mA; clamp 9 V", late).replace("series 2 ohm", "series 0.5 ohm");
    let race = super::line(&race.replace("peak 9 A", "peak 12 A"));
    for (line, of, ends, is_most) in [
        (&line, "2.inductance", (0.0, 3e-9), true),
        (&line, "4.resistance", (0.1, 20.0), false),
        (&race, "3.length", (0.0, 60e-3), false),
    ] {
        let found = asked(line, of, Some(ends));
        assert_eq!(found.struck, Some(true));
        let [end] = found.ends.as_slice() else { panic!("{of}: {found:?}") };
        assert!(matches!(&end.breaks, Breaks::Check(name) if name.starts_with("pin ")), "{of}: {end:?}");
        assert_eq!(found.intervals.len(), 1);
        assert_eq!(found.intervals[0].1 == Some(end.value), is_most, "{of}: {found:?}");
        let at = |away: f64| pin_holds(&line.with_values([(&address(of), end.value * (1.0 + away))]).unwrap());
        let beyond = if is_most { 3e-4 } else { -3e-4 };
        assert!(at(0.0) && !at(beyond), "{of}: {end:?}");
    }
    // A tight limit ends the inductance before the chip does.
    let tight = asked(
        &super::line(&STRUCK.replace("LIMIT", "0.05").replace("PEAK", "90 A")),
        "2.inductance",
        Some((0.0, 3e-9)),
    );
    assert!(tight.ends.iter().all(|end| matches!(end.breaks, Breaks::Limit(_))), "{tight:?}");
}

#[test]
fn what_cannot_be_searched() {
    let none = line(
        "lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB
        path { driver 50 ohm; trace 50 ohm 4 mm permittivity 3; protector; receiver 50 ohm } }",
    );
    let of = none.addressed(&address("2.length")).unwrap().clone();
    assert_eq!(usual_range(&none, &of), Some((0.0, 40e-3)));
    let over = Over { of, from: 0.0, to: 1e-2 };
    assert_eq!(holding(&none, &over, false).unwrap(), Err(NoRange::NothingFitted));
    let impedance = none.addressed(&address("1.impedance")).unwrap();
    assert_eq!(usual_range(&none, impedance), Some((5.0, 500.0)));
    let stub = none.addressed(&address("3.stub")).unwrap();
    assert_eq!(usual_range(&none, stub), None);
    // The capacitance itself is asked for with nothing fitted.
    let found = asked(&none, "3.capacitance", None);
    assert_eq!((found.fitted, found.ends.len()), (None, 1));
}

/// Where no line can be made there is none that holds.
#[test]
fn values_without_a_line_do_not_hold() {
    let line = line("lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 5 dB
        path { driver 50 ohm; trace 50 ohm 5 mm permittivity 3.5 loss 0.2 dB at 2 GHz; protector 0.1 pF; receiver 50 ohm } }");
    let found = asked(&line, "2.length", None);
    let first = found.ends.first().unwrap();
    assert!(matches!(&first.breaks, Breaks::NoLine(_)), "{found:?}");
    let makes = |length: f64| line.with_values([(&address("2.length"), length)]).is_ok();
    assert!(first.value > 0.0 && makes(first.value) && !makes(first.value * (1.0 - 2e-6)));
}
