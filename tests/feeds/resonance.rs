//! The frequency of least reflection, and how it shifts.

use std::f64::consts::PI;

use approx::assert_relative_eq;

use crate::support::feeds::{feed, fitted, gamma, parallel, radio, random_feed};
use crate::support::lanes::{limit, place};
use crate::support::random::Random;
use lanecap::budget::size_feed;
use lanecap::figures::*;
use lanecap::model::Antenna;

/// A capacitance directly across a parallel resonance adds to its own: f' = f0/√(1 + C/C0), C0 = Q/(2π f0 R). For 2.45
/// GHz, 50 ohm and Q = 10, C0 = 12.992240 pF.
#[test]
fn a_capacitance_across_a_parallel_resonance() {
    let own = 10.0 / (2.0 * PI * 2.45e9 * 50.0);
    assert!((own - 12.992240e-12).abs() < 5e-19);
    for (c, shifted) in [(0.1e-12, 2.440625e9), (0.3e-12, 2.422195e9), (0.5e-12, 2.404175e9), (1.0e-12, 2.360829e9)] {
        let elements = vec![parallel(2.45e9, 50.0, 10.0), place(), radio(0.0)];
        let outcome = size_feed(&fitted(feed((2.4e9, 2.5e9), elements, vec![]), c)).unwrap();
        assert_relative_eq!(outcome.sized.absent.resonance.unwrap().0, 2.45e9, max_relative = 1e-11);
        let judged = outcome.sized.fitted.unwrap().at;
        let exact = 2.45e9 / (1.0 + c / own).sqrt();
        assert!((exact - shifted).abs() < 600.0);
        assert_relative_eq!(judged.figures.resonance.unwrap().0, exact, max_relative = 1e-11);
        assert_relative_eq!(judged.changes.detuning.unwrap().0, exact - 2.45e9, max_relative = 1e-8);
    }
}

/// The same solved for C: C = C0 ((f0/f')² − 1).
#[test]
fn the_budget_of_a_detuning() {
    for (q, shift) in [(3.0, 30e6), (12.0, 8e6), (60.0, 1e6), (400.0, 0.2e6)] {
        let (f0, r) = (1575.42e6, 50.0);
        let elements = vec![parallel(f0, r, q), place(), radio(0.0)];
        let limits = vec![limit(&DETUNING, shift)];
        let outcome = size_feed(&feed((1559e6, 1610e6), elements, limits)).unwrap();
        let own = q / (2.0 * PI * f0 * r);
        let exact = own * ((f0 / (f0 - shift)).powi(2) - 1.0);
        let budget = outcome.sized.budget;
        assert_relative_eq!(budget.capacitance.unwrap().0, exact, max_relative = 1e-7);
        assert_eq!((budget.set_by, budget.set_at), (Some(&DETUNING), None));
        assert_eq!(budget.allowed.intervals().len(), 1);
    }
}

/// The middle of the range lies on the grid as well as the resonance itself, one after the other.
#[test]
fn a_resonance_in_the_middle_of_its_range() {
    let elements = vec![parallel(1.57e9, 50.0, 5.0), place(), radio(0.0)];
    let outcome = size_feed(&feed((1.57e9, 1.57e9), elements, vec![])).unwrap();
    assert_relative_eq!(outcome.sized.absent.resonance.unwrap().0, 1.57e9, max_relative = 1e-11);
}

/// An antenna that resonates far above its band reflects least at the edge of the range: no resonance is followed, and no
/// capacitance keeps a detuning.
#[test]
fn a_resonance_out_of_range() {
    let limits = vec![limit(&DETUNING, 5e6)];
    let elements = vec![parallel(50e9, 50.0, 10.0), place(), radio(0.0)];
    let outcome = size_feed(&fitted(feed((1.5e9, 1.6e9), elements, limits), 1e-13)).unwrap();
    assert_eq!(outcome.sized.absent.resonance, None);
    assert!(outcome.sized.budget.allowed.is_empty());
    let fitted = outcome.sized.fitted.unwrap();
    assert!(!fitted.holds && fitted.at.changes.retune.is_none());
}

/// Least |Γ| near a frequency, by halving a dense grid's step.
fn least_near(f: f64, width: f64, value: impl Fn(f64) -> f64) -> f64 {
    let (mut middle, mut width) = (f, width);
    for _ in 0..12 {
        let candidates = (-20..=20).map(|i| middle + width * f64::from(i) / 20.0);
        middle = candidates.min_by(|a, b| value(*a).total_cmp(&value(*b))).unwrap();
        width /= 8.0;
    }
    middle
}

/// The minimum followed in small steps of C over a dense grid, from the deepest one without protector.
#[test]
fn the_minimum_is_followed_and_never_jumps() {
    let mut r = Random(45);
    let (mut followed, mut lost) = (0, 0);
    for _ in 0..60 {
        let c = r.decade(5e-14, 2e-12);
        let feed = fitted(random_feed(&mut r), c);
        let Some(Antenna::Series(own) | Antenna::Parallel(own)) = feed.path.antenna().cloned() else {
            continue;
        };
        let (low, high) = (0.5 * feed.band.low.0, 2.0 * feed.band.high.0);
        let outcome = size_feed(&feed).unwrap();
        let value = |f: f64, c: Option<f64>| gamma(&feed, f, c, None).norm();
        let step = own.frequency.0 / own.quality / 400.0;
        let grid: Vec<f64> = (0..).map(|i| low + step * f64::from(i)).take_while(|f| *f < high).collect();
        let deepest = *grid.iter().min_by(|a, b| value(**a, None).total_cmp(&value(**b, None))).unwrap();
        if deepest < low + 2.0 * step || deepest > high - 2.0 * step {
            assert_eq!(outcome.sized.absent.resonance, None);
            continue;
        }
        let absent = least_near(deepest, step, |f| value(f, None));
        assert!(
            (outcome.sized.absent.resonance.unwrap().0 - absent).abs() < 1e-4 * step,
            "{absent} {outcome:?} {feed:?}"
        );
        // Downhill on the grid for each of many small steps of C.
        let mut at = grid.iter().position(|f| *f >= absent).unwrap();
        let mut jump = 0;
        for i in 0..=300 {
            let before = at;
            let v = |k: usize| value(grid[k], Some(c * f64::from(i) / 300.0));
            while at > 0 && at + 1 < grid.len() && (v(at - 1) < v(at) || v(at + 1) < v(at)) {
                at = if v(at - 1) < v(at + 1) { at - 1 } else { at + 1 };
            }
            if at == 0 || at + 1 == grid.len() {
                break;
            }
            jump = jump.max(if i == 0 { 0 } else { at.abs_diff(before) });
        }
        let edge = at == 0 || at + 1 == grid.len();
        let judged = outcome.sized.fitted.unwrap().at;
        match judged.figures.resonance {
            Some(found) => {
                assert!(!edge, "{c} {feed:?}");
                let near = least_near(grid[at], step, |f| value(f, Some(c)));
                assert!((found.0 - near).abs() < 1e-4 * step, "{found} {near} {c} {feed:?}");
                followed += 1;
            }
            // Lost at the edge, or where it merged with a maximum and the walk runs on to another minimum.
            None => {
                assert!(edge || jump > 5, "{jump} {c} {feed:?}");
                lost += 1;
            }
        }
    }
    assert!(followed >= 15 && lost < followed, "{followed} {lost}");
}
