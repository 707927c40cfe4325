//! Lines whose limits are asked over many frequencies or in time.

use lanecap::budget::allowed_by_line;
use lanecap::study::{Sampling, Varying, tolerate};
use lanecap::{Line, figures};

use crate::support::lanes::{connector, driver, lane, limit, mask, place, receiver, trace, with_fitted};
use crate::support::read_text;
use crate::support::toleranced::{around, lane_line, with_tolerances};

/// The least upper end over a grid of two values, each setting a line of its own.
fn least_over_grid(line: &Line, steps: usize) -> f64 {
    let varying = Varying::of(line).unwrap();
    let mut least = f64::INFINITY;
    for index in 0..(steps + 1) * (steps + 1) {
        let point = [index / (steps + 1), index % (steps + 1)].map(|step| step as f64 / steps as f64);
        let values: Vec<f64> = varying.at(&point).collect();
        let set = allowed_by_line(&varying.set(line, &values).unwrap()).unwrap();
        least = least.min(set.lowest().map_or(0.0, |lowest| lowest.high));
    }
    least
}

#[test]
fn the_worst_under_a_mask_is_that_of_a_grid() {
    let elements = vec![
        driver(50.0, 0.1e-12),
        connector(0.1e-12, 0.4e-9),
        trace(50.0, 20e-3, 3.4),
        place(),
        trace(50.0, 15e-3, 3.4),
        receiver(50.0, 0.2e-12),
    ];
    let limits = vec![mask(&figures::RETURN_LOSS, &[(18.0, 0.2e9), (14.0, 1e9), (8.0, 2.5e9)])];
    let line = lane_line(lane(50.0, 2.5e9, elements, limits));
    let line = with_tolerances(line, vec![around("3.impedance", 50.0, 0.08), around("5.length", 15e-3, 0.2)]);
    let found = tolerate(&line, Sampling::default()).unwrap().unwrap();
    let grid = least_over_grid(&line, 20);
    let worst = found.worst.capacitance.unwrap().0;
    assert!(worst <= 1.005 * grid, "{worst} and {grid}");
    assert_eq!(found.yielded.samples, 1000);
    assert!(found.yielded.budget.unwrap().0 >= worst);
}

#[test]
fn the_worst_of_an_eye_is_that_of_a_grid() {
    let elements =
        vec![driver(50.0, 0.1e-12), trace(50.0, 30e-3, 3.4), place(), trace(50.0, 15e-3, 3.4), receiver(50.0, 0.2e-12)];
    let limits = vec![limit(&figures::WORST_EYE_PENALTY, 0.1), limit(&figures::ADDED_LOSS, 0.8)];
    let line = with_fitted(lane(50.0, 2.5e9, elements, limits), 0.5e-12);
    let values = vec![around("2.impedance", 50.0, 0.1), around("5.impedance", 50.0, 0.1)];
    let line = with_tolerances(lane_line(line), values);
    let found = tolerate(&line, Sampling { samples: Some(50), seed: 1 }).unwrap().unwrap();
    let grid = least_over_grid(&line, 10);
    let worst = found.worst.capacitance.unwrap().0;
    assert!(worst <= 1.005 * grid, "{worst} and {grid}");
    // What is fitted breaks somewhere just where it lies above the worst budget.
    let fitted = found.worst.fitted.unwrap();
    assert_eq!(fitted.holds, worst >= 0.5e-12);
    assert!(found.settings < 1000, "{}", found.settings);
    let default = tolerate(&line, Sampling::default()).unwrap().unwrap();
    assert_eq!(default.yielded.samples, 200);
}

/// C_tot = wiring + inputs + n C charges through R: the worst has R, wiring and inputs at their largest.
#[test]
fn the_worst_of_a_bus_is_in_closed_form() {
    let text = "bus \"float switches\" {\n pull_up 2.2 kohm ± 5 %\n wiring 60 pF ± 20 %; inputs 15 pF ± 30 %\n nodes 2\n \
                limit rise_time <= 1 us\n}\n";
    let line = read_text(text).1.unwrap().lines.remove(0);
    let found = tolerate(&line, Sampling::default()).unwrap().unwrap();
    let exact = (1e-6 / (2.2e3 * 1.05 * 9f64.ln()) - 60e-12 * 1.2 - 15e-12 * 1.3) / 2.0;
    assert!((found.worst.capacitance.unwrap().0 / exact - 1.0).abs() < 1e-12);
    assert_eq!(found.yielded.samples, 10_000);
}

/// The one line of a sheet.
fn sheet(text: &str) -> Line {
    read_text(text).1.unwrap().lines.remove(0)
}

/// Of nine values the eye has its least opening at a vertex that the sign of each value's effect does not lead to.
#[test]
fn the_worst_of_an_eye_of_many_values_is_no_better_than_a_known_vertex() {
    let line = sheet(
        "lane \"x\" { rate 8 Gb/s nrz; reference 90 ohm differential; limit eye_height >= 67.2 %
         path { driver 90 ohm ± 10 % pad 0.15 pF ± 30 % rise 30 ps
         cable 90 ohm ± 10 % 0.3 m loss 2 dB at 4 GHz permittivity 2.2
         connector 0.15 pF ± 30 % 0.4 nH ± 30 %
         trace 90 ohm ± 15 % 12 mm ± 10 % permittivity 3.4
         protector 0.25 pF pad 0.04 pF
         trace 90 ohm ± 10 % 15 mm permittivity 3.4
         receiver 90 ohm pad 0.2 pF ± 30 % } }",
    );
    let vertex = [
        ("1.impedance", 99.0),
        ("1.pad", 0.195e-12),
        ("2.impedance", 81.0),
        ("3.capacitance", 0.105e-12),
        ("3.inductance", 0.28e-9),
        ("4.impedance", 103.5),
        ("4.length", 10.8e-3),
        ("6.impedance", 81.0),
        ("7.pad", 0.26e-12),
    ];
    let addresses: Vec<_> = vertex.iter().map(|(address, value)| (address.parse().unwrap(), *value)).collect();
    let there = line.with_values(addresses.iter().map(|(address, value)| (address, *value))).unwrap();
    let known = allowed_by_line(&there).unwrap().lowest().map_or(0.0, |lowest| lowest.high);
    assert!(known < 0.25e-12);
    let found = tolerate(&line, Sampling { samples: Some(20), seed: 1 }).unwrap().unwrap();
    assert!(found.worst.capacitance.map_or(0.0, |c| c.0) <= known * (1.0 + 1e-9));
    assert!(!found.worst.fitted.unwrap().holds);
}

/// What is fitted does not enter the budget, nor its worst case.
#[test]
fn the_worst_budget_does_not_depend_on_what_is_fitted() {
    let with = |fitted: &str| {
        let line = sheet(&format!(
            "lane \"x\" {{ rate 8 Gb/s nrz; reference 90 ohm differential; limit eye_height >= 60 %
             path {{ driver 90 ohm ± 10 % rise 30 ps; cable 90 ohm ± 10 % 0.3 m loss 2 dB at 4 GHz permittivity 2.2
             connector 0.15 pF 0.4 nH ± 30 %; trace 90 ohm ± 15 % 30 mm ± 20 % permittivity 3.4
             protector {fitted} pad 0.04 pF; trace 90 ohm ± 10 % 15 mm permittivity 3.4; receiver 90 ohm pad 0.2 pF }} }}"
        ));
        tolerate(&line, Sampling { samples: Some(20), seed: 1 }).unwrap().unwrap().worst.capacitance.unwrap().0
    };
    let (small, large) = (with("0.25 pF"), with("1 pF"));
    assert!((small / large - 1.0).abs() < 5e-3, "{small} {large}");
}

/// The lower end of a window is looked for at the lower end.
#[test]
fn a_window_in_time_has_its_worst_lower_end() {
    let line = sheet(
        "lane \"x\" { rate 16 Gb/s nrz; reference 50 ohm; limit eye_height >= 92 %
         path { driver 50 ohm rise 20 ps; connector 0 pF 1.2 nH ± 25 %; protector; series 1 ohm ± 10 %
         receiver 50 ohm pad 0.02 pF ± 50 % } }",
    );
    let addresses: Vec<_> = [("2.inductance", 1.5e-9), ("4.resistance", 1.1), ("5.pad", 0.01e-12)]
        .into_iter()
        .map(|(address, value)| (address.parse().unwrap(), value))
        .collect();
    let vertex = line.with_values(addresses.iter().map(|(address, value)| (address, *value))).unwrap();
    let known = allowed_by_line(&vertex).unwrap().lowest().unwrap().low;
    let found = tolerate(&line, Sampling { samples: Some(20), seed: 1 }).unwrap().unwrap();
    assert!(found.worst.lowest.unwrap().0 >= known * (1.0 - 1e-9));
}

/// Nothing that is drawn is worse than the worst case.
#[test]
fn no_setting_drawn_is_worse_than_the_worst_case() {
    let line = sheet(
        "lane \"x\" { rate 8 Gb/s nrz; reference 90 ohm differential; limit eye_height >= 55 %
         path { driver 90 ohm ± 10 % rise 30 ps; trace 90 ohm ± 15 % 30 mm ± 20 % permittivity 3.4
         protector 0.25 pF; trace 90 ohm ± 10 % 15 mm permittivity 3.4; receiver 90 ohm } }",
    );
    let found = tolerate(&line, Sampling { samples: Some(300), seed: 7 }).unwrap().unwrap();
    assert!(found.worst.capacitance.unwrap() <= found.yielded.budget.unwrap());
}
