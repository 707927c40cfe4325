//! Lines: textbook constants, a simulator's S-parameters, the wideband Debye dielectric, stated losses.

use std::f64::consts::{PI, TAU};

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;

use super::input_impedance;
use crate::support::lanes::lossy;
use lanecap::model::Element;
use lanecap::network::{CausalLine, TwoPort};
use lanecap::resolve::{LineFault, LossPoint, resolve_loss};
use lanecap::units::{DB_PER_NEPER, Hertz, SPEED_OF_LIGHT};

fn complex(re: f64, im: f64) -> Complex64 {
    Complex64::new(re, im)
}

fn causal(z: f64, length: f64, er: f64, reference: f64, conductor: f64, tangent: f64) -> CausalLine {
    let Element::Line(line) = lossy(z, length, er, reference, conductor, tangent) else { unreachable!() };
    CausalLine::new(&line, 1.0)
}

/// A circuit simulator's S-parameters of a distributed line, from scikit-rf (commit bae3832d),
/// `test_distributedCircuit.py`: R 1e5 ohm/m, L 1 µH/m, G 1 S/m, C 8 pF/m, 1 mm, 75 GHz, 50 ohm.
#[test]
fn a_simulated_distributed_line() {
    let omega = TAU * 75e9;
    let (z, y) = (complex(1e5, omega * 1e-6), complex(1.0, omega * 8e-12));
    let [s11, s21, s22] = TwoPort::line((z * y).sqrt() * 1e-3, (z / y).sqrt()).scattering(50.0);
    for (got, want) in [
        (s11, complex(0.878939439458, 0.0525944718183)),
        (s22, complex(0.878939439458, 0.0525944718183)),
        (s21, complex(0.0269085730219, -0.248177954464)),
    ] {
        assert_abs_diff_eq!(got.re, want.re, epsilon = 1e-12);
        assert_abs_diff_eq!(got.im, want.im, epsilon = 1e-12);
    }
}

/// R. Sadiku, *Elements of Electromagnetics*, 3rd ed., Ex. 11.4 p. 499 (Z_in 23.97 + j1.35 ohm) and Ex. 11.5 p. 501
/// (21.96 + j47.61 ohm), as quoted in a secondary source; the further digits of the first are own arithmetic.
#[test]
fn input_impedances_of_a_textbook() {
    let beta_length = TAU * 2e6 / (0.6 * 3e8) * 30.0;
    let z = input_impedance(&TwoPort::line(complex(0.0, beta_length), complex(50.0, 0.0)), complex(60.0, 40.0));
    assert_abs_diff_eq!(z.re, 23.972955, epsilon = 1e-6);
    assert_abs_diff_eq!(z.im, 1.351550, epsilon = 1e-6);
    let z = input_impedance(&TwoPort::line(complex(0.0, 0.4 * TAU), complex(75.0, 0.0)), complex(100.0, 150.0));
    assert_abs_diff_eq!(z.re, 21.96, epsilon = 0.005);
    assert_abs_diff_eq!(z.im, 47.61, epsilon = 0.005);
}

/// D. K. Mishra, *Radio-Frequency and Microwave Communication Circuits*, 2nd ed., Ex. 3.8 p. 75 (50 ohm, 100 pF/m:
/// L 0.25 µH/m, v 2e8 m/s) and Sadiku Ex. 11.1 p. 482 (70 ohm, β 3 rad/m at 100 MHz: 334.2 nH/m, 68.2 pF/m), as quoted in
/// a secondary source.
#[test]
fn line_constants_of_textbooks() {
    for (z, velocity, f, l, c, relative) in
        [(50.0, 2e8, 1e9, 0.25e-6, 100e-12, 1e-9), (70.0, TAU * 1e8 / 3.0, 1e8, 334.2e-9, 68.2e-12, 5e-4)]
    {
        let line = causal(z, 1.0, (SPEED_OF_LIGHT / velocity).powi(2), f, 0.0, 0.0);
        let (gamma, impedance) = line.constants(Hertz(f));
        assert_relative_eq!((gamma * impedance).im / (TAU * f), l, max_relative = relative);
        assert_relative_eq!((gamma / impedance).im / (TAU * f), c, max_relative = relative);
        assert_eq!((gamma.re, impedance.im), (0.0, 0.0));
    }
}

/// ε_r 4.2, tan δ 0.02 at 1 GHz, corners 1 kHz and 1 THz: the formula of scikit-rf's `analyse_dielectric` (after
/// Djordjević et al., *IEEE Trans. EMC* 43(4), 2001), digits computed outside the project with scikit-rf 2.2.0.
#[test]
fn wideband_debye() {
    let line = causal(50.0, 1.0, 4.2, 1e9, 0.0, 0.02);
    for (f, er, tangent) in [
        (1e6, 4.569635, 0.0183822),
        (1e8, 4.323212, 0.0194410),
        (1e9, 4.2, 0.02),
        (2.5e9, 4.150969, 0.0202169),
        (5e9, 4.113879, 0.0203667),
        (10e9, 4.076791, 0.0204863),
        (20e9, 4.039709, 0.0205420),
        (40e9, 4.002650, 0.0204650),
    ] {
        let permittivity = line.relative_permittivity(Hertz(f)) * 4.2;
        assert_abs_diff_eq!(permittivity.re, er, epsilon = 6e-7);
        assert_abs_diff_eq!(-permittivity.im / permittivity.re, tangent, epsilon = 6e-8);
    }
    let other = causal(50.0, 1.0, 4.413, 1e9, 0.0, 0.0182);
    for (f, er, tangent) in [(1e8, 4.530809, 0.0177368), (1e10, 4.295194, 0.0185920)] {
        let permittivity = other.relative_permittivity(Hertz(f)) * 4.413;
        assert_abs_diff_eq!(permittivity.re, er, epsilon = 6e-7);
        assert_abs_diff_eq!(-permittivity.im / permittivity.re, tangent, epsilon = 6e-8);
    }
    for decade in -3..18 {
        assert!(line.relative_permittivity(Hertz(10f64.powi(decade))).im <= 0.0, "gain at 1e{decade} Hz");
    }
}

/// The loss that results is the stated one: within 0.1 % up to R_s = 0.08 ωL, where R_s = 2 Z0 α_c is first order.
#[test]
fn a_stated_loss_is_met() {
    let (f, er) = (2.5e9, 2.2);
    let stated = 3.2 / DB_PER_NEPER / 0.8;
    let loss = resolve_loss(&[LossPoint { frequency: Hertz(f), attenuation: stated }], Some(0.001), er, Hertz(9e9));
    let loss = loss.unwrap();
    assert_eq!(loss.reference, Hertz(f));
    assert_relative_eq!(loss.conductor, stated - PI * f * er.sqrt() * 0.001 / SPEED_OF_LIGHT, max_relative = 1e-14);
    assert!(loss.inductance_ratio(er) < 0.08);
    let line = causal(45.0, 0.8, er, f, loss.conductor, loss.loss_tangent);
    let (gamma, impedance) = line.constants(Hertz(f));
    assert_relative_eq!(gamma.re, stated, max_relative = 1e-3);
    assert_relative_eq!(gamma.im, TAU * f * er.sqrt() / SPEED_OF_LIGHT, max_relative = 1e-3);
    assert_relative_eq!(impedance.re, 45.0, max_relative = 1e-2);
    assert_relative_eq!(
        loss.inductance_ratio(er),
        90.0 * loss.conductor / (45.0 * er.sqrt() * TAU * f / SPEED_OF_LIGHT)
    );
}

#[test]
fn two_losses_split_into_conductor_and_dielectric() {
    let point = |f: f64, attenuation: f64| LossPoint { frequency: Hertz(f), attenuation };
    let (a, b, er) = (3e-6, 2e-11, 3.4);
    let alpha = |f: f64| a * f64::sqrt(f) + b * f;
    for (f1, f2) in [(1e9, 2.5e9), (2.5e9, 1e9)] {
        let loss = resolve_loss(&[point(f1, alpha(f1)), point(f2, alpha(f2))], None, er, Hertz(1.0)).unwrap();
        assert_relative_eq!(loss.conductor, a * f1.sqrt(), max_relative = 1e-12);
        assert_relative_eq!(loss.loss_tangent, b * SPEED_OF_LIGHT / (PI * er.sqrt()), max_relative = 1e-12);
        assert_eq!(loss.reference, Hertz(f1));
    }
    // From 1 to 4 GHz a loss of 1 Np/m may grow to 2 (all conductor) up to 4 (all dielectric).
    let second = |attenuation| resolve_loss(&[point(1e9, 1.0), point(4e9, attenuation)], None, er, Hertz(1.0));
    assert_eq!(second(1.9), Err(LineFault::SecondOutOfRange { stated: 1.9, low: 2.0, high: 4.0 }));
    assert_eq!(second(4.1), Err(LineFault::SecondOutOfRange { stated: 4.1, low: 2.0, high: 4.0 }));
    assert_eq!(second(2.0).map(|l| (l.conductor, l.loss_tangent)), Ok((1.0, 0.0)));
    assert_eq!(second(4.0).map(|l| l.conductor), Ok(0.0));
    assert_eq!(resolve_loss(&[point(1e9, 1.0); 2], None, er, Hertz(1.0)), Err(LineFault::SameFrequency(Hertz(1e9))));
}

#[test]
fn a_loss_below_what_the_loss_tangent_explains_is_a_fault() {
    let dielectric = PI * 1e9 * 2.0 * 0.02 / SPEED_OF_LIGHT;
    let stated =
        |attenuation| resolve_loss(&[LossPoint { frequency: Hertz(1e9), attenuation }], Some(0.02), 4.0, Hertz(1.0));
    assert_eq!(stated(dielectric).map(|l| l.conductor), Ok(0.0));
    match stated(0.9 * dielectric) {
        Err(LineFault::BelowDielectric { stated, dielectric: least }) => {
            assert_relative_eq!(stated, 0.9 * least, max_relative = 1e-12);
            assert_relative_eq!(least, dielectric, max_relative = 1e-12);
        }
        other => panic!("{other:?}"),
    }
    let silent = resolve_loss(&[], Some(0.02), 4.0, Hertz(7e9)).unwrap();
    assert_eq!((silent.reference, silent.conductor, silent.loss_tangent), (Hertz(7e9), 0.0, 0.02));
}
