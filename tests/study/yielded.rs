//! The yield of lines whose share of good settings is known in closed form.

use lanecap::Line;
use lanecap::budget::{Interval, allowed_by_line};
use lanecap::figures;
use lanecap::model::{Distribution, Element};
use lanecap::study::{Sampling, Shares, Tolerated, Yielded, tolerate};
use lanecap::units::Farad;

use crate::support::lanes::{bare, limit, with_fitted};
use crate::support::toleranced::{around, between, lane_line, with_tolerances};

fn yielded(line: &Line, samples: u32) -> Yielded {
    tolerate(line, Sampling { samples: Some(samples), seed: 1 }).unwrap().unwrap().yielded
}

/// A matched line with a limit, its budget, and a part of C farad at most.
fn matched(which: usize, c: impl Fn(f64) -> f64) -> (Line, f64) {
    let limits =
        [limit(&figures::ADDED_LOSS, 0.5), limit(&figures::RETURN_LOSS, 16.0), limit(&figures::EYE_PENALTY, 0.08)];
    let lane = bare(50.0, 2.5e9, vec![limits[which].clone()]);
    let budget = allowed_by_line(&lane_line(lane.clone())).unwrap().lowest().unwrap().high;
    (lane_line(with_fitted(lane, c(budget))), budget)
}

/// C evenly between two ends: the share that holds is a ratio of lengths.
#[test]
fn a_part_drawn_evenly_yields_a_ratio_of_lengths() {
    for (which, part, share) in [(0, 1.0, 0.3), (1, 1.2, 0.4), (2, 0.9, 0.2)] {
        let (line, budget) = matched(which, |budget| part * budget);
        let c = part * budget;
        let line = with_tolerances(line, vec![around("2.capacitance", c, share)]);
        let exact = ((budget - c * (1.0 - share)) / (2.0 * share * c)).clamp(0.0, 1.0);
        let found = yielded(&line, 10_000);
        let (low, high) = found.interval().unwrap();
        assert!(low <= exact && exact <= high, "{exact} beside {low} to {high}");
        assert!(high - low < 0.021);
        assert_eq!((found.samples, found.seed), (10_000, 1));
    }
}

/// A pad drawn evenly takes its own from the budget: the share that allows C is a ratio of lengths, too.
#[test]
fn the_share_that_allows_a_capacitance_falls_with_the_pad() {
    let lane = bare(50.0, 2.5e9, vec![limit(&figures::ADDED_LOSS, 0.5)]);
    let empty = allowed_by_line(&lane_line(lane.clone())).unwrap().lowest().unwrap().high;
    let mut lane = lane;
    let pad = 0.3 * empty;
    for place in &mut lane.path.elements {
        if let Element::Protector(protector) = &mut place.element {
            protector.pad = Farad(pad);
        }
    }
    let samples = 100_000u32;
    let found = yielded(&with_tolerances(lane_line(lane), vec![around("2.pad", pad, 0.5)]), samples);
    let (least, most) = (empty - 1.5 * pad, empty - 0.5 * pad);
    let share = |c: f64| ((most - c) / (most - least)).clamp(0.0, 1.0);
    assert_eq!(found.shares.len(), 65);
    assert_eq!(found.shares[0], (0.0, 1.0));
    for &(c, counted) in &found.shares {
        let deviation = (share(c) * (1.0 - share(c)) / f64::from(samples)).sqrt();
        assert!((counted - share(c)).abs() <= 5.0 * deviation + 1.0 / f64::from(samples), "{c}: {counted}");
    }
    // The share is 0.997 there, give or take what so many samples let it deviate.
    let budget = found.budget.unwrap().0;
    assert!((share(budget) - 0.997).abs() < 5.0 * (0.997 * 0.003 / f64::from(samples)).sqrt(), "{}", share(budget));
    assert!(found.held.is_none() && found.share().is_none() && found.interval().is_none());
}

/// Normally with the bounds at three standard deviations, cut there; the density by Simpson's rule.
#[test]
fn a_part_drawn_normally_yields_the_area_of_the_curve() {
    let area = |to: f64| {
        let n = 2000;
        let h = (to + 3.0) / f64::from(n);
        let density = |i: i32| (-0.5 * (-3.0 + h * f64::from(i)).powi(2)).exp();
        let weight = |i: i32| {
            if i == 0 || i == n {
                1.0
            } else if i % 2 == 1 {
                4.0
            } else {
                2.0
            }
        };
        (0..=n).map(|i| weight(i) * density(i)).sum::<f64>() * h / 3.0
    };
    for (part, share) in [(1.0, 0.3), (1.1, 0.3), (0.9, 0.2)] {
        let (line, budget) = matched(0, |budget| part * budget);
        let c = part * budget;
        let mut line = with_tolerances(line, vec![around("2.capacitance", c, share)]);
        line.head.distribution = Distribution::Normal;
        let deviations = ((budget - c) / (share * c / 3.0)).clamp(-3.0, 3.0);
        let exact = area(deviations) / area(3.0);
        let (low, high) = yielded(&line, 10_000).interval().unwrap();
        assert!(low <= exact && exact <= high, "{exact} beside {low} to {high}");
    }
}

/// The numbers do not depend on how many threads draw them.
#[test]
fn any_number_of_threads_draws_the_same() {
    let (line, budget) = matched(0, |budget| budget);
    let line = with_tolerances(line, vec![around("2.capacitance", budget, 0.2), around("1.impedance", 50.0, 0.1)]);
    let with = |threads: usize| -> Tolerated {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| tolerate(&line, Sampling::default()).unwrap().unwrap())
    };
    let one = with(1);
    assert_eq!(one, with(2));
    assert_eq!(one, with(5));
    let other = tolerate(&line, Sampling { seed: 2, ..Sampling::default() }).unwrap().unwrap();
    assert_ne!(one.yielded.held, other.yielded.held);
    assert_eq!(one.worst, other.worst);
}

/// A part's typical value beside its maximum is drawn from; alone it makes no line a toleranced one.
#[test]
fn a_typical_value_alone_makes_no_tolerance() {
    let (line, budget) = matched(0, |budget| 1.1 * budget);
    let mut alone = between("2.capacitance", 1.1 * budget, 0.7 * budget, 1.1 * budget, None);
    alone.tolerance.as_mut().unwrap().stated = false;
    let only = with_tolerances(line.clone(), vec![alone.clone()]);
    assert_eq!(tolerate(&only, Sampling::default()).unwrap(), None);
    let beside = with_tolerances(line, vec![around("1.impedance", 50.0, 1e-9), alone]);
    let (low, high) = yielded(&beside, 10_000).interval().unwrap();
    assert!(low <= 0.75 && 0.75 <= high, "0.75 beside {low} to {high}");
}

/// Windows whose ends are counted off: 997 of 1000 allow from the 997th lower end to the 4th upper one.
#[test]
fn most_settings_allow_from_a_lower_end_to_an_upper_one() {
    let mut shares = Shares::default();
    for index in 0..1000 {
        let by = f64::from(index) / 1000.0;
        shares.push(&[Interval { low: 1.0 + by, high: 3.0 + by }]);
    }
    let shares = shares.sorted();
    assert_eq!((shares.lowest(), shares.budget()), (Some(Farad(1.996)), Some(Farad(3.003))));
    // Nothing that so many allow.
    let mut apart = Shares::default();
    apart.push(&[Interval { low: 0.0, high: 1.0 }]);
    apart.push(&[Interval { low: 2.0, high: 3.0 }]);
    let apart = apart.sorted();
    assert_eq!((apart.lowest(), apart.budget()), (None, None));
}
