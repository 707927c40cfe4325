//! Reflection profiles of a single capacitance.

use std::f64::consts::PI;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;

use super::special::{normal, pole_step};
use super::{constant, data, shunt};
use lanecap::network::Mobius;
use lanecap::response::{Case, ChainSample, Sample, TimeDomain, profile_impedance};

const T: f64 = 100e-12;

/// A capacitance across 50 ohm, seen through a lossless line of `delay`.
fn behind(delay: f64) -> impl Fn(f64) -> ChainSample {
    move |f| {
        let there = Complex64::cis(-4.0 * PI * f * delay);
        let x = Complex64::new(0.0, PI * f * 50.0);
        ChainSample {
            transfer: constant(Complex64::ONE),
            reflection: Sample {
                absent: Complex64::ZERO,
                with: Mobius { p: Complex64::ZERO, q: -x * there, r: Complex64::ONE, s: x },
            },
        }
    }
}

#[test]
fn area_of_the_reflection_is_half_z_c() {
    // M. Jenkins, SI-LIST, 29 Oct 1997, as quoted in a secondary source: area of the reflected pulse Z0·C/2 for any edge:
    // 1 pF in 50 ohm: 25 ps.
    for rise in [10e-12, 30e-12, 100e-12] {
        let mut lane = TimeDomain::new(shunt(50.0), data(T, rise));
        let profile = lane.profile(Case::With(1e-12), 0.0).unwrap();
        let area: f64 = profile.reflection.samples().sum::<f64>() * profile.reflection.step_s;
        assert_relative_eq!(area, -25e-12, max_relative = 1e-6);
    }
}

#[test]
fn peak_of_a_linear_ramp() {
    // Peak (τ/T_r)(1 − exp(−T_r/τ)), τ = Z0·C/2: dual of a time-domain reflectometry manual's eqs (17)–(20), as quoted in
    // a secondary source. A ramp is the mean of steps spread over T_r; each of them has a short Gaussian edge here.
    for (c, ramp, peak) in [
        (1e-12, 100e-12, 0.245_421),
        (0.5e-12, 100e-12, 0.124_958),
        (0.5e-12, 35e-12, 0.335_425),
        (2e-12, 100e-12, 0.432_332),
    ] {
        let mut lane = TimeDomain::new(shunt(50.0), data(T, 0.5e-12));
        let profile = lane.profile(Case::With(c), 0.0).unwrap();
        let mean = |end: f64| {
            let n = 4000;
            let t = |i: i32| end - ramp * (f64::from(i) + 0.5) / f64::from(n);
            (0..n).map(|i| profile.reflection.at(t(i))).sum::<f64>() / f64::from(n)
        };
        let lowest = (-20..=20).map(|i| mean(ramp + f64::from(i) * 0.1e-12)).fold(0.0, f64::min);
        // The short edge rounds the corner of the peak.
        assert_abs_diff_eq!(-lowest, peak, epsilon = 3e-3 * peak);
    }
}

#[test]
fn peak_of_a_gaussian_edge() {
    // Small C: peak = 1.016 · (Z0 C/2)/t_r, a reflectometry manual p. 9-25 as quoted in a secondary source; 1.0225302 is the
    // slope factor of an ideal Gaussian edge, hence 1 %. C = 0.05 pF, t_r = 100 ps.
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 100e-12));
    let profile = lane.profile(Case::With(0.05e-12), 0.0).unwrap();
    assert_relative_eq!(-profile.dip.reflection, 1.016 * 1.25e-12 / 100e-12, max_relative = 0.01);
}

#[test]
fn dip_and_place_of_a_capacitance_behind_a_line() {
    // ρ(t) = step of the pole minus the edge, delayed by the way there and back.
    let (delay, tau) = (333.3e-12, 25e-12);
    let mut lane = TimeDomain::new(behind(delay), data(T, 30e-12));
    let sigma = lane.signal().sigma_s();
    let exact = |t: f64| pole_step(t, tau, sigma) - normal(t / sigma);
    let (mut a, mut b) = (-50e-12, 100e-12);
    for _ in 0..100 {
        let (c, d) = (a + (b - a) / 3.0, b - (b - a) / 3.0);
        if exact(c) < exact(d) { b = d } else { a = c }
    }
    let profile = lane.profile(Case::With(1e-12), delay).unwrap();
    assert_abs_diff_eq!(profile.dip.reflection, exact(a), epsilon = 1e-8);
    assert_abs_diff_eq!(profile.dip.at_s, 2.0 * delay + a, epsilon = 1e-3 * 1e-12);
    assert_relative_eq!(profile.dip_ohm(90.0), 90.0 * (1.0 + exact(a)) / (1.0 - exact(a)), max_relative = 1e-7);
    let lowest = profile.points(90.0).map(|(_, z)| z).fold(f64::INFINITY, f64::min);
    assert!(lowest >= profile.dip_ohm(90.0) && lowest < profile.dip_ohm(90.0) + 0.2);
}

#[test]
fn the_window_ends_after_the_inner_end() {
    // A dip beyond 2·delay + 2·t_r is not the lane's: with the delay given as zero only the edge's first two rises count.
    let mut lane = TimeDomain::new(behind(333.3e-12), data(T, 30e-12));
    let profile = lane.profile(Case::With(1e-12), 0.0).unwrap();
    assert_relative_eq!(profile.window_s, 60e-12, max_relative = 1e-12);
    assert_abs_diff_eq!(profile.dip.reflection, 0.0, epsilon = 1e-9);
}

#[test]
fn nothing_there_is_the_reference() {
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 30e-12));
    let profile = lane.profile(Case::Absent, 100e-12).unwrap();
    assert_eq!(profile.dip_ohm(50.0), 50.0);
    assert_eq!(profile_impedance(50.0, 1.0), f64::INFINITY);
}
