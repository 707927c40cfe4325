use std::f64::consts::PI;

use approx::assert_relative_eq;
use num_complex::Complex64;

use super::{microstrip_mm, thin};
use lanecap::resolve::Debye;
use lanecap::resolve::geometry::{LaminateAt, LineFromGeometry, Roughness, microstrip};
use lanecap::units::{Hertz, Metre, SPEED_OF_LIGHT};

/// Pozar, 2nd ed., Ex. 3.7 p. 163, as re-worked in FPTC: ε_r 2.20, W/d 3.081 is 50 Ω, ε_eff 1.87, by another
/// closed form (0.6 %).
#[test]
fn pozar_example_3_7() {
    let line = microstrip_mm(3.081, 1.0, None, &thin(2.2));
    assert_relative_eq!(line.impedance.0, 50.0, max_relative = 6e-3);
    assert_relative_eq!(line.effective_permittivity, 1.87, max_relative = 7e-3);
}

/// Pozar, 3rd ed., Ex. 3.8 (ε_r 2.55, d 1 mm), its impedances as quoted in a public test file; beside them the
/// same formula and a charge-basis method of moments, both calculated independently.
#[test]
fn pozar_example_3_8() {
    for (width, printed, formula, permittivity, moments) in [
        (0.5, 119.8, 119.6598, 1.94077, 119.579),
        (1.0, 89.8, 89.5056, 1.99507, 89.457),
        (2.0, 62.2, 61.7963, 2.07557, 61.775),
        (4.0, 39.3, 39.1441, 2.17439, 39.115),
        (7.0, 25.6, 25.5859, 2.25904, 25.573),
        (10.0, 19.1, 19.0921, 2.31051, 19.091),
    ] {
        let line = microstrip_mm(width, 1.0, None, &thin(2.55));
        // Another closed form: 0.6 %, and half a unit of its last digit.
        assert!((line.impedance.0 - printed).abs() < 6e-3 * printed + 0.05, "{width} mm: {}", line.impedance);
        assert_relative_eq!(line.impedance.0, formula, max_relative = 3e-6);
        assert_relative_eq!(line.effective_permittivity, permittivity, max_relative = 4e-6);
        assert_relative_eq!(line.impedance.0, moments, max_relative = 2.5e-3);
    }
}

/// Simpler textbook closed forms, which differ from the accurate one by up to 1.5 %: M. N. O. Sadiku, Elements of
/// Electromagnetics, 3rd ed., Ex. 11.10 p. 527; G. S. Raghuvanshi, Microwave Engineering (2012), Ex. 10.2 p. 555
/// and 10.3 p. 556, all as re-worked in FPTC.
#[test]
fn textbook_points() {
    for (u, er, permittivity, impedance) in
        [(4.5, 3.8, 3.131, 30.08), (1.0, 9.7, 6.556, 49.447), (10.0 / 7.0, 5.23, 3.805, 54.822)]
    {
        let line = microstrip_mm(u, 1.0, None, &thin(er));
        assert_relative_eq!(line.effective_permittivity, permittivity, max_relative = 0.015);
        assert_relative_eq!(line.impedance.0, impedance, max_relative = 0.015);
    }
}

/// Sadiku, 3rd ed., Ex. 11.11 p. 527, as re-worked in FPTC: h 1 mm, w 0.8 mm, ε_r 6.6, tan δ 1e-4, 10 GHz:
/// 0.177 dB/m from an effective permittivity of 4.5 without dispersion.
#[test]
fn sadiku_dielectric_loss() {
    let laminate = LaminateAt { loss_tangent: 1e-4, ..thin(6.6) };
    let line = microstrip_mm(0.8, 1.0, None, &laminate);
    let attenuation = PI * 1e10 * line.effective_permittivity.sqrt() * line.loss_tangent / SPEED_OF_LIGHT;
    assert_relative_eq!(attenuation * 20.0 / 10f64.ln(), 0.177, max_relative = 0.025);
}

fn measured_board(permittivity: f64) -> LaminateAt {
    LaminateAt {
        permittivity,
        loss_tangent: 0.0182,
        copper_thickness: Metre(35e-6),
        resistivity: 1.7e-8,
        roughness: Roughness::Hammerstad { rms: Metre(0.15e-6) },
    }
}

/// Test data of scikit-rf at bae3832 (BSD-3-Clause), skrf/media/tests/test_mline.py: 49.142 Ω and 3.324 at 1 GHz
/// for Hammerstad & Jensen without dispersion, tolerance 1 %.
#[test]
fn thick_line_of_another_implementation() {
    let line = microstrip(Metre(3e-3), Metre(1.55e-3), None, &measured_board(4.413), Hertz(1e9));
    assert_relative_eq!(line.impedance.0, 49.142, max_relative = 0.01);
    assert_relative_eq!(line.effective_permittivity, 3.324, max_relative = 0.01);
}

/// S21 of 25 mm of that line in 50 Ω.
fn transmission(permittivity: f64, loss_tangent: f64, f: f64) -> (LineFromGeometry, Complex64) {
    let laminate = LaminateAt { loss_tangent, ..measured_board(permittivity) };
    let line = microstrip(Metre(3e-3), Metre(1.55e-3), None, &laminate, Hertz(f));
    let beta = 2.0 * PI * f * line.effective_permittivity.sqrt() / SPEED_OF_LIGHT;
    let angle = 0.025 * Complex64::new(line.conductor_loss + 0.5 * beta * line.loss_tangent, beta);
    let z = line.impedance.0 / 50.0;
    (line, 2.0 / (2.0 * angle.cosh() + (z + 1.0 / z) * angle.sinh()))
}

/// S-parameters of a circuit simulator for 25 mm of that line in 50 Ω (same test data): Hammerstad & Jensen with
/// the dispersion of Kirschning & Jansen, permittivity constant over frequency. Tolerance 0.1 dB and 1°, but for
/// 20 GHz: that simulator takes the dielectric loss from the quasi-static filling, we from the dispersed one.
/// Impedance and permittivity beside them are scikit-rf's own in its matching mode.
#[test]
fn dispersion_against_a_circuit_simulator() {
    for (gigahertz, re, im, decibels, values) in [
        (1.0, 0.571050504864, -0.809984165946, 0.1, Some((49.1324, 3.33350))),
        (2.0, -0.336395304609, -0.923480473967, 0.1, None),
        (5.0, 0.144778309841, 0.948221271776, 0.1, Some((49.5892, 3.44693))),
        (10.0, -0.790172001352, 0.473560645127, 0.1, Some((51.6494, 3.61670))),
        (20.0, -0.213393008508, -0.815854228786, 0.2, None),
    ] {
        let (line, s21) = transmission(4.413, 0.0182, gigahertz * 1e9);
        let ratio = s21 / Complex64::new(re, im);
        assert!((20.0 * ratio.norm().log10()).abs() < decibels, "{gigahertz} GHz: {s21}");
        assert!(ratio.arg().to_degrees().abs() < 1.0, "{gigahertz} GHz: {s21}");
        if let Some((impedance, permittivity)) = values {
            assert_relative_eq!(line.impedance.0, impedance, max_relative = 1e-5);
            assert_relative_eq!(line.effective_permittivity, permittivity, max_relative = 1e-5);
        }
    }
}

/// Another circuit simulator for the same line, with a wideband Debye laminate stated at 1 GHz (same test data):
/// 0.1 dB and 1°, as scikit-rf's own tests accept.
#[test]
fn causal_laminate_against_a_circuit_simulator() {
    let fr4 = Debye::from_points((4.413, Hertz(1e9)), (0.0182, Hertz(1e9))).unwrap();
    for (gigahertz, magnitude, degrees) in [
        (1.0, 0.99137378, -54.84817_f64),
        (5.0, 0.958543093, 83.68052),
        (10.0, 0.916207763, 156.46616),
        (20.0, 0.823424315, -83.89204),
    ] {
        let f = Hertz(gigahertz * 1e9);
        let (_, s21) = transmission(fr4.permittivity(f).re, fr4.loss_tangent(f), f.0);
        let ratio = s21 / Complex64::from_polar(magnitude, degrees.to_radians());
        assert!((20.0 * ratio.norm().log10()).abs() < 0.1, "{gigahertz} GHz: {s21}");
        assert!(ratio.arg().to_degrees().abs() < 1.0, "{gigahertz} GHz: {s21}");
    }
}
