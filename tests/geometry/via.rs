use std::f64::consts::TAU;

use approx::assert_relative_eq;
use num_complex::Complex64;

use lanecap::model::{Barrel, Element};
use lanecap::network::{Chain, Section, sections_of};
use lanecap::resolve::geometry::{ViaGeometry, ViaGeometryError};
use lanecap::units::{Hertz, Metre, Ohm};
use lanecap::{Figures, size_lane};

use crate::support::{lanes, read_text};

const C0: f64 = 299_792_458.0;

fn inch(barrel: f64, drill: f64, pad: f64, antipad: f64) -> Result<ViaGeometry, ViaGeometryError> {
    let inch = |x: f64| Metre(x * 0.0254);
    ViaGeometry::new(inch(barrel), inch(drill), inch(pad), inch(antipad))
}

/// A coaxial line whose diameters are as e to 1 has η0/(2π) = 59.96 Ω in air (Pozar, 2nd ed., table 2.1).
#[test]
fn a_barrel_is_a_coaxial_line() {
    let via = inch(0.05, 0.010, 0.020, 0.010 * std::f64::consts::E).unwrap();
    assert_relative_eq!(via.impedance(1.0).0, 376.730_313 / (2.0 * std::f64::consts::PI), max_relative = 1e-3);
    assert_relative_eq!(via.impedance(4.0).0, 29.979, max_relative = 1e-3);
}

#[test]
fn impossible_diameters_are_refused() {
    assert_eq!(inch(0.05, 0.01, 0.02, 0.02), Err(ViaGeometryError::AntipadNotAbovePad));
    assert_eq!(inch(0.05, 0.02, 0.02, 0.03), Err(ViaGeometryError::PadNotAboveDrill));
    assert_eq!(ViaGeometryError::AntipadNotAbovePad.to_string(), "expected an antipad wider than the pad");
}

/// A lane through 1.6 mm of board of permittivity 4.2 at every frequency, the protector on its outer side.
fn sheet(via: &str, limit: &str) -> String {
    format!(
        "laminate \"board\" {{ permittivity 4.2 at 1 GHz; loss_tangent 0 at 1 GHz }}
lane \"link\" {{
    rate 20 Gb/s nrz; reference 50 ohm; limit {limit}
    path {{ driver 50 ohm; protector; {via} on \"board\"; receiver 50 ohm }}
}}"
    )
}

const VIA: &str = "via barrel 1.6 mm drill 0.25 mm pad 0.5 mm antipad 0.8 mm";

/// By hand: 60/√4.2 · ln 3.2 = 34.054 Ω and 1.6 mm · √4.2/c = 10.938 ps.
const Z: f64 = 34.053_57;
const TAU_S: f64 = 10.937_65e-12;

/// A whole hole behaves as its line: the inductance and the capacitance of the whole, B/jω and C/jω as ω goes to 0, have
/// √(LC) = h √ε_r/c and √(L/C) = Z.
#[test]
fn inductance_and_capacitance_belong_together() {
    let (_, design) = read_text(&sheet(VIA, "return_loss >= 10 dB"));
    let lane = lanes(design.unwrap()).remove(0);
    let sections = sections_of(&lane.path, 2, 1.0, Ohm(50.0));
    let [barrel] = sections[..] else { panic!("{sections:?}") };
    let (two_port, omega) = (barrel.two_port(Hertz(1e3)), TAU * 1e3);
    let (l, c) = (two_port.b.im / omega, two_port.c.im / omega);
    assert_relative_eq!((l * c).sqrt(), 1.6e-3 * 4.2f64.sqrt() / C0, max_relative = 1e-9);
    assert_relative_eq!((l / c).sqrt(), Z, max_relative = 1e-5);
    // 0.321 pF and 0.372 nH.
    assert_relative_eq!(c, TAU_S / Z, max_relative = 1e-5);
    assert_relative_eq!(l, TAU_S * Z, max_relative = 1e-5);
}

/// S21 and S11 of a shunt C before a lossless line, its matrix [cos θ, jZ sin θ; j sin θ/Z, cos θ] (Pozar), by hand.
fn scattering(f: f64, c: f64) -> (Complex64, Complex64) {
    let (sin, cos) = (TAU * f * TAU_S).sin_cos();
    let y = Complex64::new(0.0, TAU * f * c);
    let (a, b) = (Complex64::new(cos, 0.0), Complex64::new(0.0, Z * sin));
    let (c, d) = (a * y + Complex64::new(0.0, sin / Z), b * y + cos);
    let sum = a + b / 50.0 + c * 50.0 + d;
    (2.0 / sum, (a + b / 50.0 - c * 50.0 - d) / sum)
}

#[test]
fn a_via_from_its_dimensions_is_a_lossless_line() {
    let (_, design) = read_text(&sheet(VIA, "return_loss >= 10 dB"));
    let lane = lanes(design.unwrap()).remove(0);
    let chain = Chain::new(&lane);
    for f in [1e6, 3e9, 10e9, 22.856e9, 60e9] {
        let point = chain.at(Hertz(f));
        for c in [0.0, 0.2e-12, 1e-12] {
            let (s21, s11) = scattering(f, c);
            assert!((point.at(c).s21 - s21).norm() < 1e-4, "{f} Hz, {c} F: {} is not {s21}", point.at(c).s21);
            assert!((point.at(c).s11 - s11).norm() < 1e-4, "{f} Hz, {c} F: {} is not {s11}", point.at(c).s11);
        }
    }
}

/// The largest C by bisection on the hand's own matrices.
#[test]
fn a_budget_behind_a_via_is_that_behind_its_line() {
    let (_, design) = read_text(&sheet(VIA, "return_loss >= 10 dB"));
    let sized = size_lane(&lanes(design.unwrap()).remove(0), Figures::Nyquist).unwrap();
    let (mut low, mut high) = (0.0, 10e-12);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if -20.0 * scattering(10e9, middle).1.norm().log10() >= 10.0 { low = middle } else { high = middle }
    }
    assert_relative_eq!(sized.sized.budget.capacitance.unwrap().0, low, max_relative = 1e-3);
}

/// Its delay is waited for in the reflection profile, as that of a trace is, and its stub hangs where it did.
#[test]
fn delay_and_stub_are_those_of_the_line() {
    let (_, design) = read_text(&sheet(&format!("{VIA} stub 0.8 mm outer"), "return_loss >= 10 dB"));
    let lane = lanes(design.unwrap()).remove(0);
    let chain = Chain::new(&lane);
    assert_relative_eq!(Chain::line_delay(chain.sections_inward()).0, TAU_S, max_relative = 1e-5);
    let [Section::OpenStub { impedance, delay }, Section::Line(barrel)] = *chain.sections() else { panic!() };
    assert_eq!(impedance, barrel.impedance());
    assert_relative_eq!(delay.0, TAU_S / 2.0, max_relative = 1e-5);
    let Element::Via(via) = &lane.path.elements[2].element else { panic!() };
    assert!(matches!(via.barrel, Barrel::Line { .. }));
}
