//! Sets of capacitance by scan.

use std::convert::Infallible;

use approx::assert_relative_eq;

use super::special::{pole_step, solve};
use super::{data, shunt};
use lanecap::response::{Case, TimeDomain};
use lanecap::response::{probes, scan};

fn set(margin: impl Fn(f64) -> f64) -> Vec<(f64, Option<f64>)> {
    let Ok(spans) = scan(|c| Ok::<_, Infallible>(margin(c)), &probes(1e-12));
    spans
}

#[test]
fn one_end() {
    let spans = set(|c| 3.3e-13 - c);
    assert_eq!(spans.len(), 1);
    assert_eq!(spans[0].0, 0.0);
    assert_relative_eq!(spans[0].1.unwrap(), 3.3e-13, max_relative = 1e-8);
}

#[test]
fn everything_and_nothing() {
    assert_eq!(set(|_| 1.0), [(0.0, None)]);
    assert!(set(|_| -1.0).is_empty());
    assert!(set(|_| f64::NAN).is_empty());
}

#[test]
fn a_window_and_an_end_far_out() {
    let spans = set(|c| if c < 2e-13 { -1.0 } else { 1.0 });
    assert_eq!(spans.len(), 1);
    assert_relative_eq!(spans[0].0, 2e-13, max_relative = 1e-8);
    assert_eq!(spans[0].1, None);
    let far = set(|c| if c.is_finite() { 2e-7 - c } else { f64::NEG_INFINITY });
    assert_relative_eq!(far[0].1.unwrap(), 2e-7, max_relative = 1e-8);
}

#[test]
fn a_valley_between_probes_is_found() {
    // In x = ln(C/1.05 pF) the margin x² − 0.002² dips below zero on ±0.2 % only, far less than a probe's distance.
    let spans = set(|c| if c == 0.0 { 1.0 } else { ((c / 1.05e-12).ln().powi(2) - 4e-6).min(1.0) });
    assert_eq!(spans.len(), 2, "{spans:?}");
    assert_relative_eq!(spans[0].1.unwrap(), 1.05e-12 * (-0.002f64).exp(), max_relative = 1e-8);
    assert_relative_eq!(spans[1].0, 1.05e-12 * 0.002f64.exp(), max_relative = 1e-8);
    let island = set(|c| if c == 0.0 { -1.0 } else { (4e-6 - (c / 1.05e-12).ln().powi(2)).max(-1.0) });
    assert_eq!(island.len(), 1);
    assert_relative_eq!(island[0].0, 1.05e-12 * (-0.002f64).exp(), max_relative = 1e-8);
}

#[test]
fn budget_of_a_rise_time() {
    // The closed-form step of a pole behind a Gaussian edge, solved for the capacitance that adds 5 ps.
    let signal = data(100e-12, 30e-12);
    let sigma = signal.sigma_s();
    let rise = |c: f64| {
        let level = |y: f64| solve(|t| pole_step(t, 25.0 * c, sigma) - y, -6.0 * sigma, 500.0 * c + 6.0 * sigma);
        level(0.9) - level(0.1)
    };
    let exact = solve(|c| rise(c) - 35e-12, 1e-13, 4e-12);
    let mut lane = TimeDomain::new(shunt(50.0), signal);
    let margin = |c: f64| lane.rise_margin_s(Case::With(c), 0.0, 35e-12).map(|m| m.unwrap_or(f64::NAN));
    let spans = scan(margin, &probes(1e-12)).unwrap();
    assert_eq!(spans.len(), 1);
    assert_relative_eq!(spans[0].1.unwrap(), exact, max_relative = 1e-6);
}

#[test]
fn budget_of_an_eye() {
    let mut lane = TimeDomain::new(shunt(50.0), data(100e-12, 30e-12));
    let spans = scan(|c| lane.eye_margin(Case::With(c), 0.7), &probes(1e-12)).unwrap();
    assert_eq!(spans.len(), 1);
    let (eye, _) = lane.eye(Case::With(spans[0].1.unwrap())).unwrap();
    approx::assert_abs_diff_eq!(eye.height, 0.7, epsilon = 1e-8);
}
