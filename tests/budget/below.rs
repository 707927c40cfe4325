//! Limits at Nyquist that the lane breaks below it, against a dense walk of the direct cascade.

use approx::assert_relative_eq;

use crate::support::cascade::Cascade;
use crate::support::lanes::*;
use crate::support::paths::{Kind, random_lane};
use crate::support::random::Random;
use lanecap::budget::{BelowNyquist, Figures, size_lane};
use lanecap::figures::*;
use lanecap::model::{Lane, LaneLimit, Limit};

const NYQUIST: f64 = 6e9;

fn below(lane: &Lane) -> Vec<BelowNyquist> {
    size_lane(lane, Figures::Nyquist).unwrap().below_nyquist
}

/// Two equal capacitances a quarter of a wave apart cancel at Nyquist and add up further down.
fn pair_of_capacitances(limits: Vec<Limit<LaneLimit>>) -> Lane {
    lane(50.0, NYQUIST, vec![driver(50.0, 0.0), place(), trace(50.0, 5.3e-3, 4.0), receiver(50.0, 0.12e-12)], limits)
}

/// The return loss in dB and its frequency, at its least up to Nyquist.
fn worst(lane: &Lane, c: f64) -> (f64, f64) {
    let at = |f: f64| (-20.0 * Cascade::new(lane, f).at(c).s11.norm().log10(), f);
    (1..=20_000).map(|k| at(NYQUIST * f64::from(k) / 20_000.0)).min_by(|a, b| a.0.total_cmp(&b.0)).unwrap()
}

#[test]
fn a_return_loss_that_holds_at_nyquist_alone() {
    let lane = with_fitted(pair_of_capacitances(vec![limit(&RETURN_LOSS, 25.0)]), 0.12e-12);
    let (loss, at) = worst(&lane, 0.12e-12);
    let nyquist = -20.0 * Cascade::new(&lane, NYQUIST).at(0.12e-12).s11.norm().log10();
    assert!(nyquist > 25.0 && loss < 22.0 && at < 0.9 * NYQUIST, "{nyquist} {loss} {at}");
    let found = below(&lane);
    assert_eq!((found.len(), found[0].figure, found[0].bound), (1, &RETURN_LOSS, 25.0));
    assert_relative_eq!(found[0].value.unwrap(), loss, max_relative = 1e-6);
    assert_relative_eq!(found[0].at.0, at, max_relative = 1e-3);
}

/// Without a fitted capacitance it is the budget that is looked at; a limit broken at Nyquist says so itself, and a mask
/// looks below Nyquist of its own.
#[test]
fn of_the_budget_and_of_no_other_limit() {
    let free = pair_of_capacitances(vec![limit(&RETURN_LOSS, 25.0)]);
    let budget = size_lane(&free, Figures::Nyquist).unwrap().sized.budget.capacitance.unwrap().0;
    let (loss, _) = worst(&free, budget);
    assert_relative_eq!(below(&free)[0].value.unwrap(), loss, max_relative = 1e-6);
    let of = |of: Limit<LaneLimit>, c| below(&with_fitted(pair_of_capacitances(vec![of]), c));
    assert_eq!(of(limit(&RETURN_LOSS, 25.0), 0.5e-12), []);
    assert_eq!(of(mask(&RETURN_LOSS, &[(25.0, 0.99 * NYQUIST), (25.0, NYQUIST)]), 0.12e-12), []);
    assert_eq!(of(limit(&RETURN_LOSS, 10.0), 0.12e-12), []);
}

/// A lumped capacitance alone is worst at Nyquist: nothing to warn of, at the budget neither.
#[test]
fn nothing_where_loss_rises_with_frequency() {
    let limits = vec![limit(&RETURN_LOSS, 12.0), limit(&ADDED_LOSS, 1.0), limit(&INSERTION_LOSS, 2.0)];
    assert_eq!(below(&bare(50.0, NYQUIST, limits)), []);
}

/// The open stub of a via is a short where it is a quarter of a wave, at c/(4 l sqrt(er)) = 3.12 GHz.
#[test]
fn an_insertion_loss_with_a_notch_below_nyquist() {
    let stub = lanecap::model::StubSide::Inner;
    let elements = vec![driver(50.0, 0.0), place(), via(0.1e-12, 0.0, Some((12e-3, 4.0, stub))), receiver(50.0, 0.0)];
    let lane = with_fitted(lane(50.0, NYQUIST, elements, vec![limit(&INSERTION_LOSS, 6.0)]), 0.05e-12);
    let loss = |f: f64| -20.0 * Cascade::new(&lane, f).at(0.05e-12).s21.norm().log10();
    let deepest = (1..=20_000).map(|k| loss(NYQUIST * f64::from(k) / 20_000.0)).fold(0.0, f64::max);
    assert!(loss(NYQUIST) < 6.0 && deepest > 20.0, "{} {deepest}", loss(NYQUIST));
    let found = below(&lane)[0];
    assert!(found.value.unwrap() > 0.9 * deepest && found.figure == &INSERTION_LOSS, "{found:?}");
    assert_relative_eq!(found.value.unwrap(), loss(found.at.0), max_relative = 1e-6);
}

/// On random paths: what is warned of breaks, by the direct cascade, and of what a dense walk finds broken by a tenth of a
/// decibel nearly all is warned of. The grid is no proof.
#[test]
fn on_random_paths_against_a_dense_walk() {
    let mut r = Random(45);
    let (mut broken, mut told) = (0, 0);
    for _ in 0..250 {
        let mut lane = random_lane(&mut r, Kind::Any);
        let (nyquist, c) = (lane.nyquist().0, 0.1e-12);
        let loss = |f: f64| -20.0 * Cascade::new(&lane, f).at(c).s11.norm().log10();
        let level = loss(nyquist) - 1.0;
        if !(1.0..60.0).contains(&level) {
            continue;
        }
        let worst = (10..=500).map(|k| loss(nyquist * f64::from(k) / 500.0)).fold(f64::INFINITY, f64::min);
        let walked = worst < level - 0.1;
        lane.limits = vec![limit(&RETURN_LOSS, level)];
        lane = with_fitted(lane, c);
        let found = below(&lane);
        broken += usize::from(walked);
        told += usize::from(walked && !found.is_empty());
        if let [found] = found.as_slice() {
            let loss = -20.0 * Cascade::new(&lane, found.at.0).at(c).s11.norm().log10();
            assert!(loss < level && found.at.0 < nyquist, "{found:?} {loss} {level}");
            assert_relative_eq!(found.value.unwrap(), loss, max_relative = 1e-6, epsilon = 1e-12);
        }
    }
    assert!(broken > 50 && told as f64 > 0.9 * broken as f64, "{told} of {broken}");
}
