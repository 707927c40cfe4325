//! Microstrip: one trace over a plane.

use super::conductor::conductor_loss;
use super::coupled_microstrip::Pair;
use super::microstrip_shape::{Shape, dispersion_terms};
use super::range::Ranges;
use super::{CrossSection, LaminateAt, LineFromGeometry};
use crate::units::{Hertz, Metre, Ohm};

/// Where the dispersion formulas end, in GHz·mm: h/λ0 = 0.13.
const DISPERSION_END: f64 = 39.0;

/// A microstrip, or each line of an edge-coupled pair in its odd mode where `gap` is stated.
///
/// `height` is from trace to plane, `gap` from edge to edge. No solder mask.
///
/// # Formula
/// Quasi-static with u = w/h (Hammerstad & Jensen):
/// Z01(u) = (η0/2π) ln(F/u + √(1 + 4/u²)), F = 6 + (2π − 6) exp(−(30.666/u)^0.7528);
/// ε(u) = (ε_r + 1)/2 + (ε_r − 1)/2 · (1 + 10/u)^(−ab);
/// thickness: Δu1 = (t/πh) ln(1 + 4e h/t · tanh²√(6.517u)), Δu_r = ½ Δu1 (1 + 1/cosh√(ε_r − 1)),
/// Z = Z01(u + Δu_r)/√ε(u + Δu_r), ε_eff = ε(u + Δu_r) · (Z01(u + Δu1)/Z01(u + Δu_r))².
///
/// Dispersion: ε_eff(f) = ε_r − (ε_r − ε_eff)/(1 + P(f h)) (Kirschning & Jansen), and the power–current
/// impedance Z(f) = Z (R13/R14)^R17 (Jansen & Kirschning). Below ε_eff = 1.13 the latter is singular, and the
/// quasi-static impedance stands. Above 39 GHz·mm the dispersion is held at its value there.
///
/// The pair: Kirschning & Jansen (1984), with the thickness as documented in `coupled_microstrip`; its
/// permittivity carries the odd mode's dispersion, its impedance is quasi-static.
///
/// Conductor loss by the incremental-inductance rule on the impedance in air. (The crowding factor
/// exp(−1.2 (Z/η0)^0.7) of Hammerstad & Jensen knows no thickness: against a method of moments in air, for
/// w = h, it is right at t/h = 0.01, 40 % too high at 0.1 and 80 % too high at 0.3.)
///
/// Loss tangent: tan δ · ε_r (ε_eff − 1)/(ε_eff (ε_r − 1)); in a laminate of ε_r = 1, tan δ itself.
///
/// # Validity
/// Impedance and permittivity: 0.01 ≤ w/h ≤ 100, 1 ≤ ε_r ≤ 128. Dispersion: 0.1 ≤ w/h ≤ 100, 1 ≤ ε_r ≤ 20,
/// f h ≤ 39 GHz·mm (impedance: 0.1 ≤ w/h ≤ 10, ε_r ≤ 18, 30 GHz·mm). Outside, a note. Widths, heights and the
/// frequency must be positive; w/h is held within 0.01 to 100.
///
/// # References
/// E. Hammerstad, Ø. Jensen, IEEE MTT-S Symposium Digest (1980), pp. 407–409. M. Kirschning, R. H. Jansen,
/// *Electronics Letters* 18(6), 272–273 (1982). R. H. Jansen, M. Kirschning, *AEÜ* 37, 108–112 (1983).
/// Ranges as quoted in secondary sources.
pub fn microstrip(
    width: Metre,
    height: Metre,
    gap: Option<Metre>,
    laminate: &LaminateAt,
    frequency: Hertz,
) -> LineFromGeometry {
    let section = CrossSection::new(width, height, gap, laminate);
    let er = laminate.permittivity.max(1.0);
    let fn_ = frequency.0 * 1e-9 * height.0 * 1e3;
    let mut ranges = Ranges::new();
    let u = width.0 / height.0;
    let hj = "the microstrip impedance (Hammerstad & Jensen 1980)";
    ranges.check(hj, ("width/height", ""), u, (0.01, 100.0));
    ranges.check(hj, ("relative permittivity", ""), er, (1.0, 128.0));

    let (shape, fn_held) = (Shape::of(section), fn_.min(DISPERSION_END));
    let (impedance, effective) = match Pair::of(section) {
        Some(pair) => {
            pair.check(er, fn_, &mut ranges);
            let (z, e) = pair.odd(er);
            (z, pair.odd_dispersion(e, er, fn_held))
        }
        None => {
            let kj = "the dispersion of the permittivity (Kirschning & Jansen 1982)";
            ranges.check(kj, ("width/height", ""), u, (0.1, 100.0));
            ranges.check(kj, ("relative permittivity", ""), er, (1.0, 20.0));
            ranges.check(kj, ("frequency × height", "GHz·mm"), fn_, (0.0, DISPERSION_END));
            let jk = "the dispersion of the impedance (Jansen & Kirschning 1983)";
            ranges.check(jk, ("width/height", ""), u, (0.1, 10.0));
            ranges.check(jk, ("relative permittivity", ""), er, (1.0, 18.0));
            ranges.check(jk, ("frequency × height", "GHz·mm"), fn_, (0.0, 30.0));
            let (z, e) = shape.quasi_static(er);
            let dispersed = permittivity_dispersion(shape.u, e, er, fn_held);
            (impedance_dispersion(shape.u, z, e, dispersed, er, fn_held), dispersed)
        }
    };
    let air = |s: CrossSection| Pair::of(s).map_or_else(|| Shape::of(s).quasi_static(1.0).0, |pair| pair.odd(1.0).0);
    let conductor_loss = conductor_loss(section, laminate, frequency, impedance, air, &mut ranges);
    let filling = if er > 1.0 + 1e-9 { er * (effective - 1.0) / (effective * (er - 1.0)) } else { 1.0 };
    LineFromGeometry {
        impedance: Ohm(impedance),
        effective_permittivity: effective,
        conductor_loss,
        loss_tangent: laminate.loss_tangent * filling,
        notes: ranges.notes,
    }
}

/// ε_eff at `fn_` GHz·mm (Kirschning & Jansen 1982).
fn permittivity_dispersion(u: f64, e: f64, er: f64, fn_: f64) -> f64 {
    let (p1, p2, p34) = dispersion_terms(u, er, fn_);
    er - (er - e) / (1.0 + p1 * p2 * ((0.1844 + p34) * fn_).powf(1.5763))
}

/// Power–current impedance at `fn_` GHz·mm (Jansen & Kirschning 1983); `e` quasi-static, `ef` at the frequency.
fn impedance_dispersion(u: f64, z: f64, e: f64, ef: f64, er: f64, fn_: f64) -> f64 {
    let r1 = 0.03891 * er.powf(1.4);
    let r2 = 0.267 * u.powi(7);
    let r3 = 4.766 * (-3.228 * u.powf(0.641)).exp();
    let r4 = 0.016 + (0.0514 * er).powf(4.524);
    let r5 = (fn_ / 28.843).powi(12);
    let r6 = 22.20 * u.powf(1.92);
    let r7 = 1.206 - 0.3144 * (-r1).exp() * (1.0 - (-r2).exp());
    let r8 = 1.0 + 1.275 * (1.0 - (-0.004625 * r3 * er.powf(1.674) * (fn_ / 18.365).powf(2.745)).exp());
    let er6 = (er - 1.0).powi(6);
    let r9 = 5.086 * r4 * r5 / (0.3838 + 0.386 * r4) * (-r6).exp() / (1.0 + 1.2992 * r5) * er6 / (1.0 + 10.0 * er6);
    let r10 = 0.00044 * er.powf(2.136) + 0.0184;
    let q = (fn_ / 19.47).powi(6);
    let r11 = q / (1.0 + 0.0962 * q);
    let r12 = 1.0 / (1.0 + 0.00245 * u * u);
    let r13 = 0.9408 * ef.powf(r8) - 0.9603;
    let r14 = (0.9408 - r9) * e.powf(r8) - 0.9603;
    let r15 = 0.707 * r10 * (fn_ / 12.3).powf(1.097);
    let r16 = 1.0 + 0.0503 * er * er * r11 * (1.0 - (-(u / 15.0).powi(6)).exp());
    let r17 = r7 * (1.0 - 1.1241 * r12 / r16 * (-0.026 * fn_.powf(1.15656) - r15).exp());
    if r14 > 0.1 { z * (r13 / r14).powf(r17) } else { z }
}
