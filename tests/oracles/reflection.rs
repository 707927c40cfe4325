//! Reflection arithmetic.

use approx::assert_abs_diff_eq;
use num_complex::Complex64;

use lanecap::network::TwoPort;
use lanecap::response::{decibels, return_loss};

use super::input_impedance;

fn complex(re: f64, im: f64) -> Complex64 {
    Complex64::new(re, im)
}

fn gamma(load: Complex64, reference: f64) -> f64 {
    ((load - reference) / (load + reference)).norm()
}

/// A return-loss table as quoted in a secondary source: dB, VSWR, |ρ|.
#[test]
fn a_return_loss_table() {
    for (db, vswr, rho) in [
        (1.0, 17.391, 0.891),
        (3.0, 5.848, 0.708),
        (6.0, 3.010, 0.501),
        (10.0, 1.925, 0.316),
        (15.0, 1.433, 0.178),
        (20.0, 1.222, 0.100),
        (30.0, 1.065, 0.032),
    ] {
        let reflection = (vswr - 1.0) / (vswr + 1.0);
        assert_abs_diff_eq!(reflection, rho, epsilon = 6e-4);
        assert_abs_diff_eq!(return_loss(reflection).unwrap(), db, epsilon = 0.07);
    }
    // Mismatch loss of a VSWR of 1.5 and 2: own arithmetic beside a coarse table quoted in a secondary source.
    for (vswr, rl, loss) in [(1.5f64, 13.9794, 0.17729), (2.0, 9.5424, 0.51153)] {
        let reflection = (vswr - 1.0) / (vswr + 1.0);
        assert_abs_diff_eq!(return_loss(reflection).unwrap(), rl, epsilon = 6e-5);
        assert_abs_diff_eq!(decibels((1.0 - reflection * reflection).sqrt()).unwrap(), loss, epsilon = 6e-6);
    }
}

/// D. M. Pozar, *Microwave Engineering*, 2nd ed., Ex. 2.3 p. 77 and Ex. 4.4 p. 198, as quoted in a secondary source: a
/// load of 80 − j40 ohm, and a 3 dB pad of 8.56, 141.8, 8.56 ohm.
#[test]
fn a_complex_load_and_a_pad() {
    let load = complex(80.0, -40.0);
    assert_abs_diff_eq!(gamma(load, 50.0), 0.367607311, epsilon = 6e-10);
    assert_abs_diff_eq!(return_loss(gamma(load, 50.0)).unwrap(), 8.692317197, epsilon = 1e-8);
    let arm = TwoPort::series(complex(8.56, 0.0));
    let pad = arm.then(&TwoPort::shunt(complex(1.0 / 141.8, 0.0))).then(&arm);
    let [s11, s21, _] = pad.scattering(50.0);
    // The book's product of two voltage dividers leaves out the factor 1 + S11.
    assert_abs_diff_eq!(s21.re / (1.0 + s11.re), 0.707663, epsilon = 6e-7);
    assert_abs_diff_eq!(s11.norm(), 4.44e-5, epsilon = 6e-8);
}

/// An impedance step from 50 to 25 ohm: S11 −1/3 (a simulator's table in the tests of scikit-rf, commit bae3832d). A
/// quarter-wave of 25 ohm between 50 ohm and nothing else shows 12.5 ohm (closed form).
#[test]
fn impedance_steps() {
    assert_abs_diff_eq!(gamma(complex(25.0, 0.0), 50.0), 0.333333333333, epsilon = 1e-12);
    let quarter = TwoPort::line(complex(0.0, std::f64::consts::FRAC_PI_2), complex(25.0, 0.0));
    assert_abs_diff_eq!(quarter.scattering(50.0)[0].norm(), 37.5 / 62.5, epsilon = 1e-12);
    assert_abs_diff_eq!(input_impedance(&quarter, complex(50.0, 0.0)).re, 12.5, epsilon = 1e-12);
}

/// Loads against the references of 85 and 115 ohm of IEEE 802.3, 40.8.3.1, from a tester's manual as quoted in a secondary
/// source: 83.5 to 117 ohm is about 16 dB, 49.5 to 197 ohm about 8 dB, 82.1 to 119 ohm about 15.5 dB (digits: own
/// arithmetic).
#[test]
fn loads_off_the_reference() {
    for (load, reference, printed, db) in [
        (83.5, 115.0, 16.0, 15.98900),
        (117.0, 85.0, 16.0, 16.00403),
        (49.5, 115.0, 8.0, 7.99849),
        (197.0, 85.0, 8.0, 8.02062),
        (82.1, 115.0, 15.5, 15.54981),
        (119.0, 85.0, 15.5, 15.56303),
    ] {
        let found = return_loss(gamma(complex(load, 0.0), reference)).unwrap();
        assert_abs_diff_eq!(found, printed, epsilon = 0.07);
        assert_abs_diff_eq!(found, db, epsilon = 6e-6);
    }
}
