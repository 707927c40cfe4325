//! Edge-coupled microstrip in its odd mode.
//!
//! # Formula
//! Without thickness: Kirschning & Jansen (1984) in u = w/h and g = s/h, from the single line's impedance and
//! permittivity. With thickness t, per line and unit length, over ε0:
//!
//! C_odd(t) = C_odd(0) + [C_single(t) − C_single(0)] + 2t/s,
//!
//! the last term the parallel-plate capacitance of the facing edges to the plane of symmetry, with air in the
//! gap; the same sum with ε_r = 1 gives C_air, and Z = η0/√(C C_air), ε_eff = C/C_air. The edge term is the
//! one of R. H. Jansen, *IEEE Trans. MTT* 26(2), 75–82 (1978), Δw = 2th/(sε_r); summed with the single line's
//! correction it meets a charge-basis method of moments in air within 2.4 % for t/h ≤ 0.35 and s/t ≥ 1.3.
//! For a wide gap it returns to the single line but for 2t/s.
//!
//! # Validity
//! 0.1 ≤ u ≤ 10, 0.1 ≤ g ≤ 10, 1 ≤ ε_r ≤ 18; dispersion of the permittivity to 25 GHz·mm. The impedance is
//! quasi-static.
//!
//! # References
//! M. Kirschning, R. H. Jansen, *IEEE Trans. MTT* 32(1), 83–90 (1984), constants and ranges from memory; the
//! quasi-static ones agree with an independent method of moments within 0.3 %.

use std::f64::consts::FRAC_2_PI;

use super::microstrip_shape::{Shape, dispersion_terms};
use super::range::Ranges;
use super::{CrossSection, ETA_0};

/// A pair in units of its height.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pair {
    shape: Shape,
    /// Gap as stated.
    gap: f64,
    /// Gap held where the formulas have a meaning.
    g: f64,
}

impl Pair {
    pub(crate) fn of(section: CrossSection) -> Option<Self> {
        let gap = section.gap? / section.height;
        Some(Self { shape: Shape::of(section), gap, g: gap.clamp(0.01, 100.0) })
    }

    pub(crate) fn check(self, er: f64, fn_: f64, ranges: &mut Ranges) {
        let kj = "the coupled microstrip (Kirschning & Jansen 1984)";
        ranges.check(kj, ("width/height", ""), self.shape.u, (0.1, 10.0));
        ranges.check(kj, ("gap/height", ""), self.gap, (0.1, 10.0));
        ranges.check(kj, ("relative permittivity", ""), er, (1.0, 18.0));
        ranges.check(kj, ("frequency × height", "GHz·mm"), fn_, (0.0, 25.0));
        let thick = "the thickness of a coupled microstrip (method of moments)";
        if self.shape.t > 0.0 {
            ranges.check(thick, ("gap/copper thickness", ""), self.gap / self.shape.t, (1.0, f64::INFINITY));
        }
    }

    /// Quasi-static odd-mode impedance and effective permittivity.
    pub(crate) fn odd(self, er: f64) -> (f64, f64) {
        let (air, filled) = self.thin_capacitance(er);
        let sides = 2.0 * self.shape.t / self.gap;
        let air = air + self.thickness_capacitance(1.0) + sides;
        let filled = filled + self.thickness_capacitance(er) + sides;
        let e = (filled / air).clamp(1.0, er);
        (ETA_0 / (air * e.sqrt()), e)
    }

    /// C/ε0 of an infinitely thin pair, in air and on the laminate.
    fn thin_capacitance(self, er: f64) -> (f64, f64) {
        let (u, g) = (self.shape.u, self.g);
        let (z, e) = Shape { u, t: 0.0 }.quasi_static(er);
        let mean = 0.5 * (er + 1.0);
        let a = 0.7287 * (e - mean) * (1.0 - (-0.179 * u).exp());
        let b = 0.747 * er / (0.15 + er);
        let c = b - (b - 0.207) * (-0.414 * u).exp();
        let d = 0.593 + 0.694 * (-0.562 * u).exp();
        let odd = (mean + a - e) * (-c * g.powf(d)).exp() + e;

        let tenth = |limit: f64| (g.powi(10) / (1.0 + (g / limit).powi(10))).ln();
        let q1 = 0.8695 * u.powf(0.194);
        let q2 = 1.0 + 0.7519 * g + 0.189 * g.powf(2.31);
        let q3 = 0.1975 + (16.6 + (8.4 / g).powi(6)).powf(-0.387) + tenth(3.4) / 241.0;
        let q4 = 2.0 * q1 / q2 / ((-g).exp() * u.powf(q3) + (2.0 - (-g).exp()) * u.powf(-q3));
        let q5 = 1.794 + 1.14 * (0.638 / (g + 0.517 * g.powf(2.43))).ln_1p();
        let q6 = 0.2305 + tenth(5.8) / 281.3 + (0.598 * g.powf(1.154)).ln_1p() / 5.1;
        let q7 = (10.0 + 190.0 * g * g) / (1.0 + 82.3 * g.powi(3));
        let q8 = (-6.5 - 0.95 * g.ln() - (g / 0.15).powi(5)).exp();
        let q9 = q7.ln() * (q8 + 1.0 / 16.5);
        let q10 = q4 - q5 / q2 * (u.ln() * q6 * u.powf(-q9)).exp();
        // Z_odd √ε_odd = Z_air/(1 − Z_air Q10/η0), whatever the laminate.
        let air = ETA_0 / (z * e.sqrt()) - q10;
        (air, air * odd)
    }

    /// C/ε0 that the thickness adds to a single line.
    fn thickness_capacitance(self, er: f64) -> f64 {
        let capacitance = |shape: Shape| {
            let (z, e) = shape.quasi_static(er);
            ETA_0 * e.sqrt() / z
        };
        capacitance(self.shape) - capacitance(Shape { t: 0.0, ..self.shape })
    }

    /// Odd-mode permittivity at `fn_` GHz·mm, from the quasi-static one.
    pub(crate) fn odd_dispersion(self, e: f64, er: f64, fn_: f64) -> f64 {
        let (u, g) = (self.shape.u, self.g);
        let (p1, p2, p34) = dispersion_terms(u, er, fn_);
        let p8 = 0.7168 * (1.0 + 1.076 / (1.0 + 0.0576 * (er - 1.0)));
        let p9 = p8 - 0.7913 * (1.0 - (-(fn_ / 20.0).powf(1.424)).exp()) * (2.481 * (er / 8.0).powf(0.946)).atan();
        let p10 = 0.242 * (er - 1.0).powf(0.55);
        let p11 = FRAC_2_PI * ((-0.3401 * fn_).exp() - 1.0) * (1.263 * (u / 3.0).powf(1.629)).atan();
        let p12 = p9 + (1.0 - p9) / (1.0 + 1.183 * u.powf(1.376));
        let p13 = 1.695 * p10 / (0.414 + 1.605 * p10);
        let p14 = 0.8928 + 0.1072 * (1.0 - (-0.42 * (fn_ / 20.0).powf(3.215)).exp());
        let p15 = (1.0 - 0.8928 * (1.0 + p11) * p12 * (-p13 * g.powf(1.092)).exp() / p14).abs();
        er - (er - e) / (1.0 + p1 * p2 * ((p34 + 0.1844) * fn_ * p15).powf(1.5763))
    }
}
