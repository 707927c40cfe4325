//! Steps at the receiver and their rise times.

use std::f64::consts::PI;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;

use super::special::{erfc, pole_step, solve};
use super::{channel, data, shunt, skin};
use lanecap::model::Block;
use lanecap::response::{Case, TimeDomain, droop};
use lanecap::units::{Farad, Henry, Ohm};

const T: f64 = 100e-12;

#[test]
fn the_source_edge_alone() {
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 30e-12));
    let rise = lane.rise_s(Case::Absent, 0.0).unwrap().unwrap();
    assert_relative_eq!(rise, 30e-12, max_relative = 1e-8);
}

#[test]
fn rc_rise_time() {
    // t_r = 2.2 RC, exactly ln 9 · RC: D. A. Bell, *Solid State Pulse Circuits*, 4th ed., examples 2-5, 2-7, as quoted in a
    // secondary source. A capacitance in the middle of a line sees Z0/2: 0.5 pF, 50 ohm: 27.46531 ps.
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 1e-12));
    let rise = lane.rise_s(Case::With(0.5e-12), 0.0).unwrap().unwrap();
    assert_relative_eq!(rise, 27.465_31e-12, max_relative = 1e-3);
}

#[test]
fn rise_of_a_single_pole_behind_a_gaussian_edge() {
    for (c, rise) in [(0.5e-12, 30e-12), (2e-12, 30e-12), (10e-12, 50e-12)] {
        let mut lane = TimeDomain::new(shunt(50.0), data(T, rise));
        let (tau, sigma) = (25.0 * c, lane.signal().sigma_s());
        let level = |y: f64| solve(|t| pole_step(t, tau, sigma) - y, -6.0 * sigma, 20.0 * tau + 6.0 * sigma);
        let seen = lane.rise_s(Case::With(c), 0.0).unwrap().unwrap();
        // The level reached one unit interval after the middle of the edge.
        let reached = pole_step(level(0.5) + T, tau, sigma);
        assert_relative_eq!(seen, level(0.9 * reached) - level(0.1 * reached), max_relative = 1e-6);
    }
}

#[test]
fn step_follows_the_closed_form_wherever_it_arrives() {
    let delay = 1234.5e-12;
    let chain = move |f: f64| Complex64::cis(-2.0 * PI * f * delay) / Complex64::new(1.0, 2.0 * PI * f * 25e-12);
    let mut lane = TimeDomain::new(channel(chain), data(T, 30e-12));
    let sigma = lane.signal().sigma_s();
    let step = lane.step(Case::Absent, delay, 128);
    for i in -20..200 {
        let t = f64::from(i) * 3.7e-12;
        assert_abs_diff_eq!(step.at(delay + t), pole_step(t, 25e-12, sigma), epsilon = 1e-9);
    }
}

#[test]
fn the_slow_tail_of_skin_effect_is_no_edge() {
    // Step erfc(a/(2√t)) of exp(−a√(jω)) (textbook diffusion). An edge much shorter than the rise hardly counts.
    let (a, symbol) = (2e-5, 2e-9);
    let level = |y: f64| {
        let x = solve(|x| y - erfc(x), 0.0, 5.0);
        (a / (2.0 * x)).powi(2)
    };
    let mut lane = TimeDomain::new(channel(move |f| skin(a, f)), data(symbol, 10e-12));
    let rise = lane.rise_s(Case::Absent, 0.0).unwrap().unwrap();
    let reached = erfc(a / (2.0 * (level(0.5) + symbol).sqrt()));
    assert_relative_eq!(rise, level(0.9 * reached) - level(0.1 * reached), max_relative = 2e-4);
    // To 90 % of what settles it would take ten times as long.
    assert!(rise < 0.12 * (level(0.9) - level(0.1)));
}

#[test]
fn levels_are_those_of_the_settled_value() {
    // A divider of 0.6 changes nothing about the time.
    let chain = |f: f64| 0.6 / Complex64::new(1.0, 2.0 * PI * f * 25e-12);
    let divided = TimeDomain::new(channel(chain), data(T, 30e-12)).rise_s(Case::Absent, 0.0).unwrap().unwrap();
    let whole = TimeDomain::new(shunt(50.0), data(T, 30e-12)).rise_s(Case::With(1e-12), 0.0).unwrap().unwrap();
    assert_relative_eq!(divided, whole, max_relative = 1e-9);
}

#[test]
fn no_direct_current_no_rise_time() {
    let chain = |f: f64| {
        let x = Complex64::new(0.0, f / 1e8);
        x / (1.0 + x)
    };
    let mut lane = TimeDomain::new(channel(chain), data(T, 30e-12));
    assert_eq!(lane.rise_s(Case::Absent, 0.0).unwrap(), None);
}

#[test]
fn margin_agrees_with_the_rise_near_its_bound() {
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 30e-12));
    let rise = lane.rise_s(Case::With(1e-12), 0.0).unwrap().unwrap();
    let margin = lane.rise_margin_s(Case::With(1e-12), 0.0, rise * 1.001).unwrap().unwrap();
    assert_abs_diff_eq!(margin, 0.001 * rise, epsilon = 1e-6 * rise);
    assert!(lane.rise_margin_s(Case::With(1e-8), 0.0, rise).unwrap().unwrap() < -rise);
    assert!(lane.rise_margin_s(Case::With(f64::INFINITY), 0.0, rise).unwrap().unwrap() < -rise);
}

#[test]
fn droop_of_a_coupling_capacitor() {
    // 5 unit intervals of 200 ps behind 100 nF between 45 ohm and 45 ohm: 1 ns/9 µs.
    let ui = |receiver| Block::Series(Farad(100e-9)).time_constant(Ohm(45.0), receiver).0 / 200e-12;
    assert_relative_eq!(droop(ui(Some(Ohm(45.0)))), 1.0 / 9000.0, max_relative = 1e-12);
    assert_eq!(droop(ui(None)), 0.0);
    // A magnetising inductance of 350 uH between 50 ohm and 50 ohm runs down with L/25 ohm = 14 us: five symbols of 8 ns.
    let tau = Block::Shunt(Henry(350e-6)).time_constant(Ohm(50.0), Some(Ohm(50.0)));
    assert_relative_eq!(droop(tau.0 / 8e-9), 5.0 * 8e-9 / 14e-6, max_relative = 1e-12);
}
