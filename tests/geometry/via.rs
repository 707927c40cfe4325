use approx::assert_relative_eq;

use lanecap::resolve::geometry::{ViaGeometry, ViaGeometryError};
use lanecap::units::Metre;

fn inch(barrel: f64, drill: f64, pad: f64, antipad: f64) -> Result<ViaGeometry, ViaGeometryError> {
    let inch = |x: f64| Metre(x * 0.0254);
    ViaGeometry::new(inch(barrel), inch(drill), inch(pad), inch(antipad))
}

/// H. Johnson, M. Graham, High-Speed Digital Design (1993), ch. 7, as quoted in a secondary source (SI-LIST,
/// September 2000): ε_r 4.7, T 0.063, D1 0.028, D2 0.050 inch is 0.53 pF. The digits beyond are the formula's.
#[test]
fn via_capacitance() {
    let c = inch(0.063, 0.016, 0.028, 0.050).unwrap().capacitance(4.7).0 * 1e12;
    assert!((c - 0.53).abs() < 0.005);
    assert_relative_eq!(c, 0.531_364_909, max_relative = 1e-8);
}

/// A second example, from memory: 0.517 pF, and a 10–90 % degradation of 2.2 C Z0/2 = 31.28 ps at 55 Ω.
#[test]
fn via_capacitance_and_its_edge() {
    let c = inch(0.050, 0.010, 0.020, 0.032).unwrap().capacitance(4.4).0;
    assert_relative_eq!(c, 0.517e-12, max_relative = 1e-6);
    assert_relative_eq!(2.2 * c * 55.0 / 2.0, 31.28e-12, max_relative = 2e-4);
}

/// Johnson & Graham, as quoted in a secondary source: h 0.050, d 0.010 inch is 1.015 nH, 3.19 Ω at 1 ns. The
/// second, h 0.063 and d 0.016 inch is 1.2 nH, is the book's from memory.
#[test]
fn via_inductance() {
    let l = inch(0.050, 0.010, 0.020, 0.032).unwrap().inductance().0;
    assert!((l * 1e9 - 1.015).abs() < 0.0005);
    assert!((std::f64::consts::PI * l / 1e-9 - 3.19).abs() < 0.005);
    assert!((inch(0.063, 0.016, 0.028, 0.050).unwrap().inductance().0 * 1e9 - 1.2).abs() < 0.05);
}

/// A coaxial line whose diameters are as e to 1 has η0/(2π) = 59.96 Ω in air (Pozar, 2nd ed., table 2.1).
#[test]
fn stub_is_a_coaxial_line() {
    let via = inch(0.05, 0.010, 0.020, 0.010 * std::f64::consts::E).unwrap();
    assert_relative_eq!(via.stub_impedance(1.0).0, 376.730_313 / (2.0 * std::f64::consts::PI), max_relative = 1e-3);
    assert_relative_eq!(via.stub_impedance(4.0).0, 29.979, max_relative = 1e-3);
}

#[test]
fn impossible_diameters_are_refused() {
    assert_eq!(inch(0.05, 0.01, 0.02, 0.02), Err(ViaGeometryError::AntipadNotAbovePad));
    assert_eq!(inch(0.05, 0.02, 0.02, 0.03), Err(ViaGeometryError::PadNotAboveDrill));
    assert_eq!(ViaGeometryError::AntipadNotAbovePad.to_string(), "expected an antipad wider than the pad");
}

#[test]
fn a_short_barrel_is_noted_and_never_negative() {
    let short = inch(0.0005, 0.010, 0.020, 0.032).unwrap();
    assert_eq!(short.inductance().0, 0.0);
    assert_eq!(
        short.notes()[0].to_string(),
        "barrel/drill is 0.05, outside the range of the via inductance \
        (Johnson & Graham 1993, ch. 7): 1 and above"
    );
    assert_eq!(inch(0.05, 0.01, 0.02, 0.032).unwrap().notes(), []);
}
