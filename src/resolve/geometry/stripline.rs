//! Stripline: one trace midway between two planes.

use std::f64::consts::{FRAC_PI_2, PI};

use super::conductor::conductor_loss;
use super::range::Ranges;
use super::{CrossSection, ETA_0, LaminateAt, LineFromGeometry, coupled_stripline};
use crate::units::{Hertz, Metre, Ohm};

/// A centred stripline, or each line of an edge-coupled pair in its odd mode where `gap` is stated.
///
/// `plane_spacing` b is from plane to plane, the copper included; `gap` from edge to edge. The mode is TEM:
/// ε_eff = ε_r, the loss tangent is the laminate's, nothing disperses but the laminate.
///
/// # Formula
/// Z = η0/(4√ε_r) · K(k)/K(k'), k = sech(πW/2B), k' = tanh(πW/2B) (moduli), exact for an infinitely thin
/// strip with W = w, B = b (Cohn). With thickness t, x = t/b, B = b − t and W = w + Δw (Wheeler):
/// Δw/B = x/(π(1 − x)) · {1 − ½ ln[(x/(2 − x))² + (0.0796 x/(w/b + 1.1x))^m]}, m = 2/(1 + ⅔ x/(1 − x)).
/// The pair: `coupled_stripline`. Conductor loss by the incremental-inductance rule on the impedance in air.
///
/// # Validity
/// Exact for t = 0. Thickness: stated as 0.5 % for W/B < 10; a method of moments agrees within 0.3 % for
/// 0.1 ≤ w/b ≤ 2, t/b ≤ 0.2. A note for t/b > 0.25; t/b is held at 0.5, w/b within 0.01 to 100.
///
/// # References
/// S. B. Cohn, *IRE Trans. MTT* 2(2), 52–57 (1954). H. A. Wheeler, *IEEE Trans. MTT* 26(11), 866–876 (1978),
/// as quoted in secondary sources.
pub fn stripline(
    width: Metre,
    plane_spacing: Metre,
    gap: Option<Metre>,
    laminate: &LaminateAt,
    frequency: Hertz,
) -> LineFromGeometry {
    let section = CrossSection {
        width: width.0,
        height: plane_spacing.0,
        thickness: laminate.copper_thickness.0.max(0.0),
        gap: gap.map(|g| g.0),
    };
    let er = laminate.permittivity.max(1.0);
    let mut ranges = Ranges::new();
    ranges.check(
        "the stripline impedance (Cohn 1954)",
        ("width/plane spacing", ""),
        width.0 / plane_spacing.0,
        (0.01, 100.0),
    );
    ranges.check(
        "the stripline thickness correction (Wheeler 1978)",
        ("copper thickness/plane spacing", ""),
        section.thickness / plane_spacing.0,
        (0.0, 0.25),
    );
    coupled_stripline::check(section, &mut ranges);
    let air = |s: CrossSection| {
        let strip = Strip::of(s);
        s.gap.map_or_else(|| strip.air_impedance(), |gap| coupled_stripline::odd_air_impedance(strip, gap / s.height))
    };
    let impedance = air(section) / er.sqrt();
    let conductor_loss = conductor_loss(section, laminate, frequency, impedance, air, &mut ranges);
    LineFromGeometry {
        impedance: Ohm(impedance),
        effective_permittivity: er,
        conductor_loss,
        loss_tangent: laminate.loss_tangent,
        notes: ranges.notes,
    }
}

/// Width and thickness in units of the plane spacing.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Strip {
    pub(crate) w: f64,
    pub(crate) t: f64,
}

impl Strip {
    fn of(section: CrossSection) -> Self {
        Self {
            w: (section.width / section.height).clamp(0.01, 100.0),
            t: (section.thickness / section.height).min(0.5),
        }
    }

    /// The strip without thickness.
    pub(crate) fn thin(self) -> Self {
        Self { t: 0.0, ..self }
    }

    pub(crate) fn air_impedance(self) -> f64 {
        let Self { w, t: x } = self;
        let ratio = if x > 0.0 {
            let m = 2.0 / (1.0 + 2.0 / 3.0 * x / (1.0 - x));
            let inner = (x / (2.0 - x)).powi(2) + (0.0796 * x / (w + 1.1 * x)).powf(m);
            w / (1.0 - x) + x / (PI * (1.0 - x)) * (1.0 - 0.5 * inner.ln())
        } else {
            w
        };
        let a = FRAC_PI_2 * ratio;
        ETA_0 / 4.0 * elliptic_ratio(1.0 / a.cosh(), a.tanh())
    }
}

/// K(k)/K(k') for moduli with k² + k'² = 1, by the arithmetic–geometric mean: K(k) = π/(2 agm(1, k')).
pub(crate) fn elliptic_ratio(k: f64, k_prime: f64) -> f64 {
    agm(k) / agm(k_prime)
}

/// Arithmetic–geometric mean of 1 and `b` > 0.
fn agm(b: f64) -> f64 {
    let (mut a, mut b) = (1.0, b);
    // Quadratic convergence: from the smallest b that occurs (1e-200) a dozen steps reach rounding.
    for _ in 0..40 {
        if (a - b).abs() <= 1e-16 * a {
            break;
        }
        (a, b) = (0.5 * (a + b), (a * b).sqrt());
    }
    a
}
