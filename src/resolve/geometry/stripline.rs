//! Stripline: one trace midway between two planes.

use super::conductor::conductor_loss;
use super::range::Ranges;
use super::stripline_shape::Strip;
use super::{CrossSection, LaminateAt, LineFromGeometry, coupled_stripline};
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
    let section = CrossSection::new(width, plane_spacing, gap, laminate);
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
