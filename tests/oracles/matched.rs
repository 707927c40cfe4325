//! A shunt capacitance on a matched line.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;

use crate::support::lanes::{bare, driver, lane, limit, place, receiver, shunt_c, trace, with_fitted};
use lanecap::budget::{Figures, size_lane};
use lanecap::figures::*;
use lanecap::network::{Chain, Scattering, TwoPort};
use lanecap::units::Hertz;

fn db(x: Complex64) -> f64 {
    -20.0 * x.norm().log10()
}

fn fitted(z: f64, f: f64, c: f64) -> Scattering {
    Chain::new(&bare(z, f, Vec::new())).at(Hertz(f)).at(c)
}

/// A circuit simulator's table of a series inductance of 0.1 nH in 50 ohm, from the tests of scikit-rf (commit bae3832d,
/// `skrf/media/tests`); by duality a shunt C = L/Z² turns the sign of S11.
#[test]
fn the_dual_of_a_simulated_inductance() {
    let rows = [
        (75.00e9, 0.181713656243, 0.385608354912, 0.818286343757),
        (75.35e9, 0.183102342596, 0.386750403661, 0.816897657404),
        (76.75e9, 0.188673944276, 0.391249392367, 0.811326055724),
    ];
    for (f, re, im, through) in rows {
        let inductance = TwoPort::series(Complex64::new(0.0, std::f64::consts::TAU * f * 1e-10)).scattering(50.0);
        let s = fitted(50.0, f, 0.04e-12);
        for (got, want) in [
            (inductance[0], Complex64::new(re, im)),
            (s.s11, Complex64::new(-re, -im)),
            (s.s21, Complex64::new(through, -im)),
        ] {
            assert_abs_diff_eq!(got.re, want.re, epsilon = 1e-11);
            assert_abs_diff_eq!(got.im, want.im, epsilon = 1e-11);
        }
    }
    let s = fitted(50.0, 75e9, 0.04e-12);
    assert_abs_diff_eq!(db(s.s11), 7.406124, epsilon = 1e-6);
    assert_abs_diff_eq!(db(s.s21), 0.870947, epsilon = 1e-6);
}

/// S11 = −jx/(2 + jx), S21 = 2/(2 + jx), x = ωCZ (from Pozar, *Microwave Engineering*, ABCD and conversion tables); the
/// numbers were computed outside the project and agree with scikit-rf 2.2.0 to 1e-12.
#[test]
fn a_grid_of_capacitances() {
    let rows = [
        (0.50, 50.0, 2.5, 0.192670635, 14.303689, 0.164287, -0.037122, -0.189061, 0.962878),
        (0.50, 50.0, 5.0, 0.365524916, 8.741660, 0.622858, -0.133608, -0.340231, 0.866392),
        (0.50, 50.0, 8.0, 0.532018045, 5.481473, 1.445070, -0.283043, -0.450477, 0.716957),
        (0.20, 50.0, 8.0, 0.243747084, 12.261211, 0.266009, -0.059413, -0.236395, 0.940587),
        (0.30, 45.0, 5.0, 0.207444569, 13.661959, 0.191032, -0.043033, -0.202932, 0.956967),
        (0.25, 45.0, 10.0, 0.333229227, 9.545138, 0.511186, -0.111042, -0.314184, 0.888958),
        (0.15, 42.5, 16.0, 0.305157911, 10.309507, 0.424508, -0.093121, -0.290602, 0.906879),
        (3.0, 45.0, 0.24, 0.101264368, 19.890867, 0.044765, -0.010254, -0.100744, 0.989746),
        (1.0, 50.0, 1.0, 0.155176880, 16.183460, 0.105857, -0.024080, -0.153297, 0.975920),
        (1.0, 50.0, 2.4, 0.352756327, 9.050504, 0.577126, -0.124437, -0.330079, 0.875563),
    ];
    for (pf, z, ghz, reflection, rl, il, re, im, through) in rows {
        let s = fitted(z, ghz * 1e9, pf * 1e-12);
        assert_relative_eq!(s.s11.norm(), reflection, max_relative = 1e-8);
        assert_abs_diff_eq!(db(s.s11), rl, epsilon = 6e-7);
        assert_abs_diff_eq!(db(s.s21), il, epsilon = 6e-7);
        for (got, want) in [(s.s11.re, re), (s.s11.im, im), (s.s21.re, through), (s.s21.im, im)] {
            assert_abs_diff_eq!(got, want, epsilon = 6e-7);
        }
    }
}

/// C_max(RL) = 2g/(ωZ√(1 − g²)), g = 10^(−RL/20), and C_max(IL) = 2√(10^(IL/10) − 1)/(ωZ): numbers computed outside the
/// project.
#[test]
fn the_largest_capacitance_of_one_limit() {
    let rows = [
        (&RETURN_LOSS, 10.0, 50.0, 1.25, 1.697653),
        (&RETURN_LOSS, 8.0, 50.0, 2.5, 1.105122),
        (&RETURN_LOSS, 20.0, 50.0, 1.0, 0.639827),
        (&RETURN_LOSS, 15.0, 45.0, 5.0, 0.255650),
        (&RETURN_LOSS, 10.0, 50.0, 16.0, 0.132629),
        (&INSERTION_LOSS, 0.5, 50.0, 5.0, 0.444757),
        (&INSERTION_LOSS, 1.0, 50.0, 5.0, 0.647884),
        (&INSERTION_LOSS, 10.0 * 2f64.log10(), 50.0, 5.0, 1.273240),
        (&INSERTION_LOSS, 0.5, 42.5, 16.0, 0.163514),
    ];
    for (kind, level, z, ghz, pf) in rows {
        let outcome = size_lane(&bare(z, ghz * 1e9, vec![limit(kind, level)]), Figures::Nyquist).unwrap();
        assert_abs_diff_eq!(outcome.sized.budget.capacitance.unwrap().0, pf * 1e-12, epsilon = 6e-19);
    }
}

/// The closed forms of a matched lossless line, x = πfZC: exact arithmetic, no outside digits.
#[test]
fn closed_forms_of_a_matched_line() {
    let (z, f) = (45.0, 5e9);
    let pi_fz = std::f64::consts::PI * f * z;
    for (kind, level, want) in [
        (&INSERTION_LOSS, 0.7, (10f64.powf(0.07) - 1.0).sqrt() / pi_fz),
        (&ADDED_LOSS, 0.7, (10f64.powf(0.07) - 1.0).sqrt() / pi_fz),
        (&RETURN_LOSS, 13.0, 1.0 / (pi_fz * (10f64.powf(1.3) - 1.0).sqrt())),
        (&RETURN_LOSS_INNER, 13.0, 1.0 / (pi_fz * (10f64.powf(1.3) - 1.0).sqrt())),
        (&EYE_PENALTY, 0.1, (0.9f64.powi(-2) - 1.0).sqrt() / pi_fz),
    ] {
        let outcome = size_lane(&with_fitted(bare(z, f, vec![limit(kind, level)]), want), Figures::Nyquist).unwrap();
        assert_relative_eq!(outcome.sized.budget.capacitance.unwrap().0, want, max_relative = 1e-12);
        let (metrics, x) = (outcome.sized.fitted.unwrap().at.figures.loss, pi_fz * want);
        assert_relative_eq!(metrics.insertion_loss.unwrap(), 10.0 * (1.0 + x * x).log10(), max_relative = 1e-12);
        assert_relative_eq!(metrics.return_loss.unwrap(), 10.0 * (1.0 + 1.0 / (x * x)).log10(), max_relative = 1e-12);
        assert_relative_eq!(metrics.nyquist_amplitude, 1.0 / (1.0 + x * x).sqrt(), max_relative = 1e-12);
    }
}

/// Two equal shunt capacitors on a matched lossless line: S11 = 0 where tan θ = 2/x (closed form; digits computed outside
/// the project).
#[test]
fn two_capacitors_that_cancel() {
    use std::f64::consts::{FRAC_PI_2, PI, TAU};
    let (f, c) = (5e9, 0.3e-12);
    let at = |theta: f64| {
        let length = theta * lanecap::units::SPEED_OF_LIGHT / (TAU * f);
        let elements = vec![driver(50.0, 0.0), place(), trace(50.0, length, 1.0), shunt_c(c), receiver(50.0, 0.0)];
        Chain::new(&lane(50.0, f, elements, Vec::new())).at(Hertz(f)).at(c)
    };
    let cancelled = at(1.339397417);
    assert!(cancelled.s11.norm() < 1e-9, "{}", cancelled.s11);
    assert_abs_diff_eq!(cancelled.s21.norm(), 1.0, epsilon = 1e-15);
    let exact = at((2.0 / (TAU * f * c * 50.0)).atan());
    assert!(exact.s11.norm() < 1e-15);
    for (theta, rl, il) in [
        (FRAC_PI_2, 19.144169, 0.053214),
        (0.0, 7.406124, 0.870947),
        (PI, 7.406124, 0.870947),
        (1.0, 15.965142, 0.111385),
    ] {
        let s = at(theta);
        assert_abs_diff_eq!(db(s.s11), rl, epsilon = 6e-7);
        assert_abs_diff_eq!(db(s.s21), il, epsilon = 6e-7);
    }
}
