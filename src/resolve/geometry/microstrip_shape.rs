//! What a single microstrip and a coupled one share: the quasi-static strip over a plane, and terms of its dispersion.

use std::f64::consts::{E, PI};

use super::{CrossSection, ETA_0};

/// Width and thickness in units of the height.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Shape {
    pub(crate) u: f64,
    pub(crate) t: f64,
}

impl Shape {
    pub(crate) fn of(section: CrossSection) -> Self {
        Self { u: (section.width / section.height).clamp(0.01, 100.0), t: section.thickness / section.height }
    }

    /// Quasi-static impedance and effective permittivity (Hammerstad & Jensen 1980).
    pub(crate) fn quasi_static(self, er: f64) -> (f64, f64) {
        let Self { u, t } = self;
        let in_air = if t > 0.0 { t / PI * (4.0 * E / t * (6.517 * u).sqrt().tanh().powi(2)).ln_1p() } else { 0.0 };
        let in_laminate = 0.5 * in_air * (1.0 + 1.0 / (er - 1.0).sqrt().cosh());
        let (z_air, z) = (homogeneous(u + in_air), homogeneous(u + in_laminate));
        let e = filled(u + in_laminate, er);
        (z / e.sqrt(), e * (z_air / z).powi(2))
    }
}

/// Impedance of an infinitely thin strip in air.
fn homogeneous(u: f64) -> f64 {
    let f = 6.0 + (2.0 * PI - 6.0) * (-(30.666 / u).powf(0.7528)).exp();
    ETA_0 / (2.0 * PI) * (f / u + (1.0 + (2.0 / u).powi(2)).sqrt()).ln()
}

/// Effective permittivity of an infinitely thin strip.
fn filled(u: f64, er: f64) -> f64 {
    let u4 = u.powi(4);
    let a = 1.0 + ((u4 + (u / 52.0).powi(2)) / (u4 + 0.432)).ln() / 49.0 + (u / 18.1).powi(3).ln_1p() / 18.7;
    let b = 0.564 * ((er - 0.9) / (er + 3.0)).powf(0.053);
    (er + 1.0) / 2.0 + (er - 1.0) / 2.0 * (1.0 + 10.0 / u).powf(-a * b)
}

/// The terms P1, P2 and P3·P4 that a single line and a pair share.
pub(crate) fn dispersion_terms(u: f64, er: f64, fn_: f64) -> (f64, f64, f64) {
    let p1 = 0.27488 + (0.6315 + 0.525 / (1.0 + 0.0157 * fn_).powi(20)) * u - 0.065683 * (-8.7513 * u).exp();
    let p2 = 0.33622 * (1.0 - (-0.03442 * er).exp());
    let p3 = 0.0363 * (-4.6 * u).exp() * (1.0 - (-(fn_ / 38.7).powf(4.97)).exp());
    let p4 = 1.0 + 2.751 * (1.0 - (-(er / 15.916).powi(8)).exp());
    (p1, p2, p3 * p4)
}
