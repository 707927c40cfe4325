//! The worst case against dense grids and closed forms.

use lanecap::Line;
use lanecap::budget::{IntervalSet, Verdict, allowed_by_line};
use lanecap::figures;
use lanecap::study::{Sampling, Tolerated, Varying, tolerate};

use crate::support::cascade::Cascade;
use crate::support::lanes::{bare, connector, driver, lane, limit, lossy, place, receiver, trace, with_fitted};
use crate::support::paths::{Kind as Paths, random_lane};
use crate::support::random::Random;
use crate::support::toleranced::{around, between, lane_line, randomly_toleranced, stated_line, with_tolerances};

const FEW: Sampling = Sampling { samples: Some(100), seed: 1 };

fn tolerated(line: &Line) -> Tolerated {
    tolerate(line, FEW).unwrap().unwrap()
}

/// What every setting of a grid with `steps` steps a direction allows, each as a line of its own.
fn over_grid(line: &Line, steps: usize) -> IntervalSet {
    let varying = Varying::of(line).unwrap();
    let directions = varying.directions;
    let mut left = IntervalSet::all();
    for index in 0..(steps + 1).pow(directions as u32) {
        let step = |d: usize| (index / (steps + 1).pow(d as u32)) % (steps + 1);
        let point: Vec<f64> = (0..directions).map(|d| step(d) as f64 / steps as f64).collect();
        let values: Vec<f64> = varying.at(&point).collect();
        let set = allowed_by_line(&varying.set(line, &values).unwrap()).unwrap();
        left = left.intersect(set.intervals());
    }
    left
}

/// What the grid leaves above what the search left, as a share; the search may not leave more.
fn short_of_grid(line: &Line, steps: usize) -> Option<f64> {
    let grid = over_grid(line, steps);
    let found = tolerated(line).worst;
    let end = grid.lowest().map(|interval| interval.high)?;
    let Some(own) = found.capacitance else {
        // Nothing left is less than anything.
        assert!(found.verdict != Verdict::Unbounded || end.is_infinite(), "unbounded, but {end} on a grid");
        return None;
    };
    Some(own.0 / end - 1.0)
}

#[test]
fn no_dense_grid_of_two_or_three_values_finds_less() {
    let mut r = Random(7);
    let (mut checked, mut worst) = (0, 0.0f64);
    for round in 0..60 {
        let mut lane = random_lane(&mut r, Paths::Any);
        lane.limits = vec![
            limit(&figures::ADDED_LOSS, r.between(0.3, 1.5)),
            limit(&figures::RETURN_LOSS, r.between(3.0, 12.0)),
            limit(&figures::EYE_PENALTY, r.between(0.02, 0.15)),
        ];
        let (count, steps) = if round % 2 == 0 { (2, 60) } else { (3, 16) };
        let Some(line) = stated_line(lane) else { continue };
        let line = randomly_toleranced(line, &mut r, count);
        if let Some(over) = short_of_grid(&line, steps) {
            worst = worst.max(over);
            checked += 1;
        }
    }
    assert!(checked > 20, "only {checked} lanes have a worst budget");
    assert!(worst <= 0.005, "{worst}");
}

/// On a long line the reflections turn several times within its tolerance: the worst lies inside.
#[test]
fn the_worst_of_a_long_line_lies_inside() {
    let mut r = Random(23);
    let (mut inside, mut worst) = (0, 0.0f64);
    for _ in 0..12 {
        let z = 50.0;
        let far = lossy(z * r.between(0.85, 1.15), r.between(0.2, 0.6), 3.4, 2e9, r.between(0.0, 0.3), 0.005);
        let near = trace(z * r.between(0.9, 1.1), r.between(5e-3, 4e-2), 3.4);
        let elements = vec![driver(z, 0.2e-12), far, connector(0.2e-12, 0.3e-9), place(), near, receiver(z, 0.3e-12)];
        let limits = vec![limit(&figures::ADDED_LOSS, 0.8), limit(&figures::EYE_PENALTY, 0.06)];
        let line = lane_line(lane(z, 2.5e9, elements, limits));
        let length = |number: usize| {
            let mut place = line.path().unwrap().elements[number - 1].clone();
            *place.value_mut(lanecap::model::ValueName::Length).unwrap()
        };
        let values = vec![around("2.length", length(2), 0.15), around("5.length", length(5), 0.1)];
        let line = with_tolerances(line, values);
        if let Some(over) = short_of_grid(&line, 160) {
            worst = worst.max(over);
        }
        let setting = tolerated(&line).worst.setting.unwrap();
        let varying = Varying::of(&line).unwrap();
        let within = |(value, place): (f64, &lanecap::study::Place)| place.low < value && value < place.high;
        inside += usize::from(setting.into_iter().zip(&varying.places).any(within));
    }
    assert!(worst <= 0.005, "{worst}");
    assert!(inside > 6, "only {inside} of 12 worst settings lie inside");
}

/// A matched line: of the pad, all that is added is taken from the part.
#[test]
fn a_pad_takes_its_own_from_the_budget() {
    let mut lane = bare(50.0, 2.5e9, vec![limit(&figures::ADDED_LOSS, 0.5)]);
    let empty = allowed_by_line(&lane_line(lane.clone())).unwrap().lowest().unwrap().high;
    for place in &mut lane.path.elements {
        if let lanecap::model::Element::Protector(protector) = &mut place.element {
            protector.pad = lanecap::units::Farad(0.1e-12);
        }
    }
    let line = with_tolerances(lane_line(lane), vec![around("2.pad", 0.1e-12, 0.3)]);
    let found = tolerated(&line);
    let worst = found.worst.capacitance.unwrap().0;
    assert!((worst - (empty - 0.13e-12)).abs() < 1e-9 * empty, "{worst}");
    assert_eq!(found.worst.setting.unwrap(), vec![0.1e-12 * 1.3]);
    assert_eq!(found.worst.verdict, Verdict::Bounded);
    assert!(found.worst.fitted.is_none() && found.yielded.held.is_none());
}

/// A coil that a capacitance must make up for: a part at its largest holds, at its least it is too small.
#[test]
fn a_part_too_small_for_a_window_is_found() {
    let coil = |c: f64| {
        let elements = vec![driver(50.0, 0.0), crate::support::lanes::series_l(1.2e-9), place(), receiver(50.0, 0.0)];
        with_fitted(lane(50.0, 2.5e9, elements, vec![limit(&figures::RETURN_LOSS, 16.0)]), c)
    };
    let window = allowed_by_line(&lane_line(coil(0.0))).unwrap().lowest().unwrap();
    assert!(window.low > 0.0 && window.high.is_finite(), "{window:?}");
    let c = 0.5 * (window.low + window.high);
    let least = 0.9 * window.low;
    let line = with_tolerances(lane_line(coil(c)), vec![between("3.capacitance", c, least, c, None)]);
    let found = tolerated(&line);
    let fitted = found.worst.fitted.unwrap();
    assert!(!fitted.holds && fitted.limits[0].setting == vec![least], "{fitted:?}");
    // What is fitted is no part of the budget.
    assert_eq!(found.worst.capacitance.unwrap().0, window.high);
    assert_eq!(found.worst.lowest.unwrap().0, window.low);
    assert!(found.yielded.share().unwrap() < 1.0);
}

/// Both ends of a window have their own worst settings.
#[test]
fn either_end_of_a_window_moves() {
    let elements = vec![driver(50.0, 0.0), crate::support::lanes::series_l(1.2e-9), place(), receiver(50.0, 0.0)];
    let line = lane_line(lane(50.0, 2.5e9, elements, vec![limit(&figures::RETURN_LOSS, 17.0)]));
    let at = |l: f64| {
        let changed = line_with(&line, "2.inductance", l);
        allowed_by_line(&changed).unwrap().lowest().unwrap()
    };
    let toleranced = with_tolerances(line.clone(), vec![around("2.inductance", 1.2e-9, 0.1)]);
    let grid = over_grid(&toleranced, 400).lowest().unwrap();
    let worst = tolerated(&toleranced).worst;
    assert_eq!(worst.verdict, Verdict::Window);
    assert!((worst.capacitance.unwrap().0 / grid.high - 1.0) < 1e-6);
    assert!((worst.lowest.unwrap().0 / grid.low - 1.0) > -1e-6);
    assert_eq!(worst.lowest_set_by, Some(&figures::RETURN_LOSS));
    let low = at(worst.lowest_setting.unwrap()[0]);
    let high = at(worst.setting.unwrap()[0]);
    assert_eq!((low.low, high.high), (worst.lowest.unwrap().0, worst.capacitance.unwrap().0));
}

fn line_with(line: &Line, address: &str, value: f64) -> Line {
    // Another nominal value: what is stated already would not be put.
    let line = with_tolerances(line.clone(), vec![around(address, 0.9 * value, 0.5)]);
    let address = address.parse().unwrap();
    line.with_values([(&address, value)]).unwrap()
}

/// Two quarter waves in a row see the ratio of their impedances alone: together they do not change it, apart they do.
#[test]
fn values_of_a_group_deviate_together() {
    let lane = || {
        let elements =
            vec![driver(50.0, 0.0), trace(52.0, 16e-3, 3.4), trace(48.0, 16e-3, 3.4), place(), receiver(50.0, 0.0)];
        lane_line(lane(50.0, 2.5e9, elements, vec![limit(&figures::RETURN_LOSS, 10.0)]))
    };
    let value = |address: &str, nominal: f64, group| between(address, nominal, 0.9 * nominal, 1.1 * nominal, group);
    let group = Some("board");
    let together = with_tolerances(lane(), vec![value("2.impedance", 52.0, group), value("3.impedance", 48.0, group)]);
    let apart = with_tolerances(lane(), vec![value("2.impedance", 52.0, None), value("3.impedance", 48.0, None)]);
    let kinds = with_tolerances(lane(), vec![value("2.impedance", 52.0, group), value("3.length", 16e-3, group)]);
    let directions = |line: &Line| Varying::of(line).unwrap().directions;
    assert_eq!([directions(&together), directions(&apart), directions(&kinds)], [1, 2, 2]);
    let [one, two] = [&together, &apart].map(|line| tolerated(line).worst.capacitance.unwrap().0);
    assert!(two < 0.999 * one, "{two} and {one}");
    let grid = over_grid(&together, 2000).lowest().unwrap().high;
    assert!((one / grid - 1.0).abs() < 1e-4, "{one} and {grid}");
}

/// Nothing is allowed at one setting: which one is said.
#[test]
fn a_setting_at_which_nothing_is_allowed_is_told() {
    let elements = vec![driver(50.0, 0.0), trace(46.0, 15e-3, 4.0), place(), receiver(50.0, 0.0)];
    let line = lane_line(lane(50.0, 2.5e9, elements, vec![limit(&figures::RETURN_LOSS, 14.0)]));
    let line = with_tolerances(line, vec![around("2.impedance", 46.0, 0.25)]);
    let worst = tolerated(&line).worst;
    assert_eq!(worst.verdict, Verdict::Impossible);
    let setting = worst.setting.unwrap()[0];
    assert!(allowed_by_line(&line_with(&line, "2.impedance", setting)).unwrap().is_empty());
    assert_eq!(worst.limits[0].verdict, Verdict::Impossible);
    assert!(!Tolerated::clone(&tolerated(&line)).worst.passes());
}

/// More values than all vertices are looked at for: pads all along a short line add up to one.
#[test]
fn more_values_than_vertices_find_the_worst_vertex() {
    let pads = 14;
    let mut elements = vec![driver(50.0, 0.0)];
    elements.extend((0..pads).map(|_| crate::support::lanes::shunt_c(5e-15)));
    elements.extend([place(), receiver(50.0, 0.0)]);
    let line = lane_line(lane(50.0, 2.5e9, elements, vec![limit(&figures::RETURN_LOSS, 12.0)]));
    let nominal = allowed_by_line(&line).unwrap().lowest().unwrap().high;
    let values = (0..pads).map(|pad| around(&format!("{}.capacitance", pad + 2), 5e-15, 0.4)).collect();
    let found = tolerated(&with_tolerances(line, values));
    let expected = nominal - f64::from(pads) * 2e-15;
    assert!((found.worst.capacitance.unwrap().0 / expected - 1.0).abs() < 1e-9);
    assert!(found.settings > 1024);
}

/// At the worst setting the limit that sets the budget stands at its bound: by a cascade of full matrices that shares no code.
#[test]
fn at_the_worst_setting_the_limit_stands_at_its_bound() {
    let mut r = Random(41);
    let mut checked = 0;
    for _ in 0..40 {
        let mut lane = random_lane(&mut r, Paths::Any);
        let bounds = [r.between(0.3, 1.5), r.between(4.0, 12.0), r.between(0.02, 0.15)];
        let figures = [&figures::ADDED_LOSS, &figures::RETURN_LOSS, &figures::EYE_PENALTY];
        lane.limits = figures.iter().zip(bounds).map(|(figure, bound)| limit(figure, bound)).collect();
        let Some(line) = stated_line(lane) else { continue };
        let count = 2 + r.index(5);
        let line = randomly_toleranced(line, &mut r, count);
        let worst = tolerated(&line).worst;
        let (Some(c), Some(by), Some(setting)) = (worst.capacitance, worst.set_by, worst.setting) else { continue };
        let there = Varying::of(&line).unwrap().set(&line, &setting).unwrap();
        let lanecap::Kind::Lane(lane) = &there.kind else { unreachable!() };
        let cascade = Cascade::new(lane, lane.nyquist().0);
        let (absent, with) = (cascade.absent(), cascade.at(c.0));
        let decibel = |ratio: f64| -20.0 * ratio.log10();
        let values = [
            decibel(with.s21.norm() / absent.s21.norm()),
            decibel(with.s11.norm()),
            1.0 - with.transfer.norm() / absent.transfer.norm(),
        ];
        let which = figures.iter().position(|figure| *figure == by).unwrap();
        assert!((values[which] - bounds[which]).abs() < 1e-6, "{}: {} and {}", by.word(), values[which], bounds[which]);
        checked += 1;
    }
    assert!(checked > 15, "only {checked} lanes have a worst budget");
}
