//! Steps, derivatives and what is taken out, against closed forms and against sheets with those values.

use std::f64::consts::TAU;

use super::{budget, design, edited, line, near, random_sheet, sized};
use crate::support::random::Random;
use lanecap::budget::Verdict;
use lanecap::study::{Change, Moved, Out, Sensitivity, gains};

fn of(sheet: &str) -> Sensitivity {
    Sensitivity::of(&line(sheet)).unwrap().unwrap()
}

#[track_caller]
fn value<'a>(found: &'a Sensitivity, address: &str) -> &'a Moved {
    found.values.iter().find(|moved| moved.address.to_string() == address).unwrap_or_else(|| panic!("{address}"))
}

/// C and its pad stand beside each other: every farad of the pad is one of the budget.
#[test]
fn a_pad_costs_what_it_has() {
    let found = of("lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB
        path { driver 50 ohm; protector pad 0.1 pF; receiver 50 ohm } }");
    let pad = value(&found, "2.pad");
    near(pad.derivative.unwrap(), -1.0, 1e-7);
    let before = found.budget.capacitance.unwrap().0;
    near(pad.up.as_ref().unwrap().budget.unwrap().0, before - 0.01e-12, 1e-12);
    near(pad.down.as_ref().unwrap().budget.unwrap().0, before + 0.01e-12, 1e-12);
    let out = found.without.iter().find(|own| own.out.to_string() == "2.pad").unwrap();
    near(out.gain.unwrap().0, 0.1e-12, 1e-9);
    assert_eq!(out.verdict, Verdict::Bounded);
    assert_eq!(
        found.ranking.first().map(|gain| (gain.of.to_string(), gain.change)),
        Some(("2.pad".into(), Change::Out))
    );
}

/// Two ends and C between them: the fundamental loses 1 - 1/sqrt(1 + (w C Z)^2), Z both ends side by side. With
/// k = sqrt(1/(1 - p)^2 - 1), C = k/(w Z), 1/Z = 1/Zs + 1/Zr, so that dC/dZr = -(k/w)/Zr^2.
#[test]
fn an_end_impedance_under_an_eye_penalty() {
    let (zs, zr, rate, p): (f64, f64, f64, f64) = (50.0, 70.0, 4e9, 0.08);
    let found = of("lane \"l\" { rate 4 Gb/s nrz; reference 50 ohm; limit eye_penalty <= 8 %
        path { driver 50 ohm; protector; receiver 70 ohm } }");
    let k = (1.0 / (1.0 - p).powi(2) - 1.0).sqrt();
    let omega = TAU * rate / 2.0;
    near(found.budget.capacitance.unwrap().0, k / omega * (1.0 / zs + 1.0 / zr), 1e-9);
    near(value(&found, "3.impedance").derivative.unwrap(), -k / omega / (zr * zr), 1e-6);
    near(value(&found, "1.impedance").derivative.unwrap(), -k / omega / (zs * zs), 1e-6);
    // A step of a tenth, solved again.
    let up = value(&found, "3.impedance").up.as_ref().unwrap();
    near(up.budget.unwrap().0, k / omega * (1.0 / zs + 1.0 / (1.1 * zr)), 1e-9);
}

/// C_tot = t/(R f): a farad of wiring costs 1/n, an ohm of the pull-up -t/(R^2 f n).
#[test]
fn a_bus_in_closed_form() {
    let found = of("bus \"b\" { pull_up 2 kohm ± 5 %; wiring 60 pF; inputs 40 pF; nodes 2
        limit rise_time <= 1 us from 30 % to 70 % }");
    let factor = (0.7f64 / 0.3).ln();
    near(value(&found, "wiring").derivative.unwrap(), -0.5, 1e-6);
    near(value(&found, "inputs").derivative.unwrap(), -0.5, 1e-6);
    let pull_up = value(&found, "pull_up");
    near(pull_up.derivative.unwrap(), -1e-6 / (4e6 * factor * 2.0), 1e-6);
    near(pull_up.step, 100.0, 1e-12);
    let share = |r: f64| (1e-6 / (r * factor) - 100e-12) / 2.0;
    near(pull_up.up.as_ref().unwrap().budget.unwrap().0, share(2100.0), 1e-9);
    assert_eq!(found.at, found.budget.capacitance);
}

#[test]
fn each_step_is_the_sheet_with_that_value() {
    let mut r = Random(0x5e75);
    for _ in 0..6 {
        let sheet = random_sheet(&mut r);
        let found = of(&sheet);
        let cases = [
            ("1.impedance", 1, "driver ", "ohm", 1.0),
            ("2.capacitance", 2, "connector ", "pF", 1e-12),
            ("3.length", 3, "ohm ", "mm", 1e-3),
            ("4.inductance", 4, "inductance ", "nH", 1e-9),
            ("5.loss", 5, "loss ", "dB", 1.0),
            ("6.inductance", 6, "pF ", "nH", 1e-9),
            ("7.resistance", 7, "series ", "ohm", 1.0),
            ("8.pad", 8, "pad ", "pF", 1e-12),
        ];
        for (address, element, before, unit, factor) in cases {
            let moved = value(&found, address);
            near(moved.step, 0.1 * moved.value, 1e-12);
            for step in [&moved.down, &moved.up] {
                let step = step.as_ref().unwrap();
                let own = edited(&sheet, element, before, unit, step.value / factor);
                let expected = sized(&line(&own)).0;
                assert_eq!(step.verdict, expected.verdict, "{address}\n{own}");
                match (step.budget, expected.capacitance) {
                    (Some(found), Some(expected)) => near(found.0, expected.0, 1e-9),
                    (found, expected) => assert_eq!(found, expected, "{address}\n{own}"),
                }
            }
        }
    }
}

/// An element that is taken out keeps its place: the port plane stays at the connector.
#[test]
fn what_is_taken_out_is_the_sheet_with_nothing_there() {
    let mut r = Random(0x0071);
    for _ in 0..6 {
        let sheet = random_sheet(&mut r);
        let found = of(&sheet);
        let rows: Vec<&str> = sheet.lines().collect();
        let first = rows.iter().position(|row| row.starts_with("path {")).unwrap();
        let with = |element: usize, row: &str| {
            let mut rows = rows.clone();
            rows[first + element] = row;
            rows.join("\n")
        };
        let cases = [
            ("2", with(2, "connector 0 pF")),
            ("6", with(6, "via 0 pF")),
            ("7", with(7, "series 0 ohm")),
            ("1.pad", edited(&sheet, 1, "pad ", "pF", 0.0)),
            ("8.pad", edited(&sheet, 8, "pad ", "pF", 0.0)),
            ("4.pad", edited(&sheet, 4, "pad ", "pF", 0.0)),
            ("4.inductance", edited(&sheet, 4, "inductance ", "nH", 0.0)),
            ("4.resistance", edited(&sheet, 4, "resistance ", "ohm", 0.0)),
        ];
        assert_eq!(found.without.len(), cases.len(), "{:?}", found.without);
        for (address, own) in cases {
            let out = found.without.iter().find(|own| own.out.to_string() == address).unwrap();
            match (out.budget, budget(&own)) {
                (Some(found), Some(expected)) => near(found.0, expected, 1e-9),
                (found, expected) => assert_eq!(found.map(|c| c.0), expected, "{address}\n{own}"),
            }
        }
    }
}

#[test]
fn the_ranking_is_whatever_wins_and_nothing_else() {
    let mut r = Random(0x7a9c);
    for _ in 0..10 {
        let sheet = random_sheet(&mut r);
        let found = of(&sheet);
        assert_eq!(found.ranking, gains(&line(&sheet)).unwrap());
        let Some(before) = found.budget.capacitance.filter(|c| c.0 > 0.0) else { continue };
        let better = |budget: Option<lanecap::units::Farad>| budget.is_some_and(|c| c.0 > before.0 * (1.0 + 1e-6));
        let steps = found.values.iter().flat_map(|moved| [&moved.down, &moved.up]).flatten();
        let expected = steps.filter(|step| better(step.budget)).count()
            + found.without.iter().filter(|own| better(own.budget)).count();
        let bounded: Vec<f64> = found.ranking.iter().filter_map(|gain| Some(gain.gain?.0)).collect();
        assert_eq!(bounded.len(), expected);
        assert!(bounded.is_sorted_by(|a, b| a >= b) && bounded.iter().all(|gain| *gain > 0.0));
        for gain in &found.ranking {
            near(gain.budget.unwrap().0 - before.0, gain.gain.unwrap().0, 1e-9);
            assert_eq!(
                matches!(gain.change, Change::Out),
                matches!(&gain.of, Out::Element(_)) || gain.change == Change::Out
            );
        }
    }
}

/// Of each limit the step that moves its headroom most, found again by sizing every stepped line.
#[test]
fn each_limit_names_what_moves_it_most() {
    let mut r = Random(0x11a1);
    for _ in 0..5 {
        let sheet = random_sheet(&mut r);
        let line = line(&sheet);
        let found = of(&sheet);
        let margins = |line: &lanecap::Line| -> Vec<Option<f64>> {
            sized(line).0.limits.iter().map(|limit| limit.fitted.unwrap().margin).collect()
        };
        let before = margins(&line);
        assert_eq!(found.limits.len(), before.len());
        let mut most = vec![0.0f64; before.len()];
        for moved in found.values.iter().filter(|moved| moved.address.to_string() != "4.capacitance") {
            for step in [&moved.down, &moved.up].into_iter().flatten() {
                let after = margins(&line.with_values([(&moved.address, step.value)]).unwrap());
                for (most, (after, before)) in most.iter_mut().zip(after.iter().zip(&before)) {
                    *most = most.max((after.unwrap() - before.unwrap()).abs());
                }
            }
        }
        for (limit, (before, most)) in found.limits.iter().zip(before.iter().zip(most)) {
            assert_eq!(limit.margin, *before);
            near(limit.change.unwrap().abs(), most, 1e-12);
            assert_ne!(limit.address.as_ref().map(ToString::to_string).as_deref(), Some("4.capacitance"));
        }
    }
}

#[test]
fn what_leaves_its_range_has_no_step_and_a_place_goes_by_a_millimetre() {
    let found = of("lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB
        path { driver 50 ohm pad 0 pF; trace 50 ohm 0.4 mm permittivity 3.5; protector 0.2 pF
               trace 50 ohm 20 mm permittivity 1.05; receiver 55 ohm pad 0.2 pF } }");
    let place = value(&found, "place");
    assert_eq!((place.step, place.down.is_none()), (1e-3, true));
    near(place.up.as_ref().unwrap().value, 1.4e-3, 1e-12);
    assert!(value(&found, "4.permittivity").down.is_none(), "below 1");
    let pad = value(&found, "1.pad");
    assert_eq!((pad.step, &pad.down, &pad.up), (0.0, &None, &None));
    assert!(pad.derivative.unwrap() < 0.0);
    assert!(found.values.iter().all(|moved| moved.address.to_string() != "rate"));
}

/// A line that nothing is allowed on wins all of a budget; one without bound wins nothing.
#[test]
fn no_budget_and_no_bound() {
    let sheet = |limit: &str| {
        format!(
            "lane \"l\" {{ rate 5 Gb/s nrz; reference 50 ohm; {limit}
        path {{ driver 50 ohm; connector 3 pF; protector 0.2 pF; receiver 50 ohm }} }}"
        )
    };
    let found = of(&sheet("limit return_loss >= 10 dB"));
    assert_eq!(found.budget.verdict, Verdict::Impossible);
    let first = found.ranking.first().unwrap();
    assert_eq!((first.of.to_string().as_str(), first.change, first.gain), ("2", Change::Out, first.budget));
    assert!(found.values.iter().all(|moved| moved.derivative.is_none()));
    assert!(of("bus \"b\" { pull_up 2 kohm; inputs 10 pF }").ranking.is_empty());
    let rail = design("rail \"supply\" { line_voltage 0 V to 5 V }").lines.remove(0);
    assert!(Sensitivity::of(&rail).unwrap().is_none() && gains(&rail).unwrap().is_empty());
}
