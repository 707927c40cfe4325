//! Unlike pairs.

use std::f64::consts::PI;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;
use proptest::prelude::*;

use lanecap::budget::conversion_allowed;
use lanecap::model::Mismatch;
use lanecap::network::Mobius;
use lanecap::response::{Pair, real_roots, skew_estimate};
use lanecap::units::Farad;

/// S21 of a capacitance across a matched line.
fn s21(z: f64, f: f64) -> Mobius {
    Mobius { p: Complex64::ONE, q: Complex64::ZERO, r: Complex64::ONE, s: Complex64::new(0.0, PI * f * z) }
}

#[test]
fn transfer_of_a_matched_pair() {
    // S21 = 1/(1 + jx) written out for x_p and x_n (Pozar, *Microwave Engineering*, shunt admittance).
    let (z, f, c, d) = (45.0, 5e9, 0.3e-12, 0.04e-12);
    let pair = Pair::new(&s21(z, f), c, d);
    let (xp, xn) = (PI * f * z * 0.32e-12, PI * f * z * 0.28e-12);
    let size = (xp - xn) / 2.0 / ((1.0 + xp * xp) * (1.0 + xn * xn)).sqrt();
    assert_relative_eq!(pair.conversion_db().unwrap(), 20.0 * size.log10(), max_relative = 1e-12);
    assert_relative_eq!(pair.skew_s(f), (xp.atan() - xn.atan()) / (2.0 * PI * f), max_relative = 1e-12);
    assert_relative_eq!(
        pair.differential().norm_sqr() + 0.0,
        {
            let (a, b) = (1.0 / (1.0 + xp * xp), 1.0 / (1.0 + xn * xn));
            let (re, im) = ((a + b) / 2.0, (a * xp + b * xn) / 2.0);
            re * re + im * im
        },
        max_relative = 1e-12
    );
    // At a low frequency the skew is Z ΔC/2.
    let low = Pair::new(&s21(z, 1e6), c, d);
    assert_relative_eq!(low.skew_s(1e6), skew_estimate(z, d), max_relative = 1e-6);
    assert_relative_eq!(skew_estimate(z, d), 0.9e-12, max_relative = 1e-12);
}

#[test]
fn a_symmetric_pair_converts_nothing() {
    assert_eq!(Pair::new(&s21(45.0, 5e9), 0.3e-12, 0.0).conversion_db(), None);
}

#[test]
fn the_smaller_side_does_not_go_below_nothing() {
    let pair = Pair::new(&s21(45.0, 5e9), 0.01e-12, 0.04e-12);
    assert_eq!(pair.smaller, Complex64::ONE);
    assert_eq!(pair.larger, s21(45.0, 5e9).at(0.03e-12));
}

#[test]
fn fixed_difference_on_a_matched_line() {
    // With δ = πfZ·ΔC/2: |S_cd| = δ/√((1+x_p²)(1+x_n²)) falls with C, so the limit is met above some C.
    let (z, f, d) = (45.0, 5e9, 0.04e-12);
    let form = s21(z, f);
    let limit = 0.8 * Pair::new(&form, d, d).conversion().norm();
    let allowed = conversion_allowed(&form, Mismatch::Absolute(Farad(d)), limit);
    assert_eq!(allowed.len(), 2, "{allowed:?}");
    // While the smaller side is nothing, |S_cd| grows with C from zero difference: (x/2)/√(1+x²), x = πfZ(C + ΔC/2).
    let x = 2.0 * limit / (1.0 - 4.0 * limit * limit).sqrt();
    assert_relative_eq!(allowed[0].1.unwrap(), x / (PI * f * z) - d / 2.0, max_relative = 1e-9);
    let end = Pair::new(&form, allowed[1].0, d).conversion().norm();
    assert_relative_eq!(end, limit, max_relative = 1e-9);
    assert_eq!((allowed[0].0, allowed[1].1), (0.0, None));
}

#[test]
fn nothing_allowed_and_everything_allowed() {
    let form = s21(45.0, 5e9);
    assert_eq!(conversion_allowed(&form, Mismatch::Absolute(Farad(0.04e-12)), 1.0), [(0.0, None)]);
    let deaf = Mobius { s: Complex64::ZERO, ..form };
    assert_eq!(conversion_allowed(&deaf, Mismatch::Absolute(Farad(0.04e-12)), 1e-9), [(0.0, None)]);
    // A share of nothing is nothing: C = 0 always holds.
    let share = conversion_allowed(&form, Mismatch::Share(0.1), 1e-4);
    assert_eq!(share[0].0, 0.0);
    assert!(share[0].1.unwrap() > 0.0);
}

#[test]
fn roots_of_known_polynomials() {
    // (x − 1)(x − 2)(x − 3)(x − 4) = x⁴ − 10x³ + 35x² − 50x + 24
    let roots = real_roots(&[24.0, -50.0, 35.0, -10.0, 1.0]);
    assert_eq!(roots.len(), 4);
    for (root, exact) in roots.iter().zip([1.0, 2.0, 3.0, 4.0]) {
        assert_abs_diff_eq!(*root, exact, epsilon = 1e-12);
    }
    assert!(real_roots(&[1.0, 0.0, 1.0]).is_empty());
    assert!(real_roots(&[0.0, 0.0]).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_sets_agree_with_the_transfer(
        (p, q, r, s) in (part(), part(), part(), part()),
        difference in 0.01..1.0f64,
        share in prop::bool::ANY,
        limit in 0.01..0.5f64,
    ) {
        let form = Mobius { p, q: q * 1e12, r: r + 1.5, s: s * 1e12 };
        let mismatch = if share { Mismatch::Share(difference) } else { Mismatch::Absolute(Farad(difference * 1e-12)) };
        let allowed = conversion_allowed(&form, mismatch, limit);
        for i in 0..400 {
            let c = 1e-12 * 10f64.powf(f64::from(i) / 100.0 - 2.0);
            let size = Pair::new(&form, c, mismatch.at(c)).conversion().norm();
            let inside = allowed.iter().any(|(low, high)| c >= *low && high.is_none_or(|h| c <= h));
            prop_assert!(inside == (size <= limit) || (size - limit).abs() < 1e-9 * limit, "C = {c}, {size} {allowed:?}");
        }
    }
}

fn part() -> impl Strategy<Value = Complex64> {
    (-1.0..1.0f64, -1.0..1.0f64).prop_map(|(re, im)| Complex64::new(re, im))
}
