//! Edge-coupled stripline in its odd mode.
//!
//! # Formula
//! Without thickness, exact (Cohn 1955, moduli): Z_odd = η0/4 · K(k')/K(k), k = tanh(πw/2b) · coth(π(w + s)/2b).
//!
//! With thickness t, in admittances times η0 in air, C_f(x) = (1/π)[2p ln(p + 1) − (p − 1) ln(p² − 1)],
//! p = 1/(1 − x), C_f(0) = (2/π) ln 2, the fringing capacitance of an edge of thickness x = t/b:
//! - wide gap: Y = Y_1(t) + C_f(t/b)/C_f(0) · [Y_odd(0) − Y_1(0)];
//! - narrow gap: Y = Y_odd(0) + [Y_1(t) − Y_1(0)] − 2[C_f(t/b) − C_f(0)] + 2t/s.
//!
//! Y_1 is the single strip, 2t/s the plate capacitance of the facing edges to the plane of symmetry. Cohn
//! changes over at s = 5t, where the two do not meet; here the larger Y counts, which is continuous.
//!
//! # Validity
//! w/(b − t) ≥ 0.35 for the fringing capacitances to be independent of the width. A charge-basis method of
//! moments agrees within 1.5 % for 0.3 ≤ w/b ≤ 1, t/b ≤ 0.1 and 1 ≤ s/t ≤ 20.
//!
//! # References
//! S. B. Cohn, *IRE Trans. MTT* 3(5), 29–38 (1955); the thickness formulas from memory.

use std::f64::consts::{FRAC_PI_2, LN_2, PI};

use super::range::Ranges;
use super::stripline_shape::{Strip, elliptic_ratio};
use super::{CrossSection, ETA_0};

pub(crate) fn check(section: CrossSection, ranges: &mut Ranges) {
    if section.gap.is_some() && section.thickness > 0.0 && section.thickness < section.height {
        ranges.check(
            "the coupled stripline with thickness (Cohn 1955)",
            ("width/(plane spacing − copper thickness)", ""),
            section.width / (section.height - section.thickness),
            (0.35, f64::INFINITY),
        );
    }
}

/// Odd-mode impedance in air of each of two strips, `s` apart in units of the plane spacing.
pub(crate) fn odd_air_impedance(strip: Strip, s: f64) -> f64 {
    let thin_odd = thin_odd_air_impedance(strip.w, s);
    if strip.t <= 0.0 {
        return thin_odd;
    }
    let (odd, single) = (ETA_0 / thin_odd, ETA_0 / strip.thin().air_impedance());
    let thick_single = ETA_0 / strip.air_impedance();
    let (fringe, thin_fringe) = (fringing(strip.t), 2.0 * LN_2 / PI);
    let wide = thick_single + fringe / thin_fringe * (odd - single);
    let narrow = odd + thick_single - single - 2.0 * (fringe - thin_fringe) + 2.0 * strip.t / s;
    ETA_0 / wide.max(narrow)
}

fn thin_odd_air_impedance(w: f64, s: f64) -> f64 {
    // Coupling falls as exp(−πs/b): beyond ten spacings the lines are alone.
    let s = s.min(10.0);
    let (a, b) = (FRAC_PI_2 * w, FRAC_PI_2 * (w + s));
    let k = a.tanh() / b.tanh();
    let k_prime = ((1.0 + k) * (b - a).sinh() / (a.cosh() * b.sinh())).sqrt();
    ETA_0 / 4.0 * elliptic_ratio(k_prime, k)
}

/// Fringing capacitance C_f/ε of an edge of thickness `x` in units of the plane spacing.
fn fringing(x: f64) -> f64 {
    let p = 1.0 / (1.0 - x);
    (2.0 * p * (p + 1.0).ln() - (p - 1.0) * (p * p - 1.0).ln()) / PI
}
