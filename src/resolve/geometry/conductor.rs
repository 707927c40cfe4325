//! Skin effect, roughness, and the crowding of the current by the incremental-inductance rule.

use std::f64::consts::{FRAC_2_PI, PI};

use super::range::Ranges;
use super::{CrossSection, ETA_0, LaminateAt};
use crate::model::Roughness;
use crate::units::{Hertz, Metre, Ohm};

/// Magnetic constant μ0 in H/m (CODATA 2018).
const MU_0: f64 = 1.256_637_062_12e-6;

/// Skin depth δ = √(ρ/(π f μ0)) of a non-magnetic conductor.
///
/// # Units
/// Resistivity in Ω·m; the result is a length.
///
/// # References
/// D. M. Pozar, *Microwave Engineering*, 2nd ed. (1998), section 1.4.
pub fn skin_depth(frequency: Hertz, resistivity: f64) -> Metre {
    Metre((resistivity / (PI * frequency.0 * MU_0)).sqrt())
}

/// Surface resistance R_s = √(π f μ0 ρ) of a smooth, non-magnetic conductor, per square.
///
/// # Units
/// Resistivity in Ω·m.
///
/// # References
/// D. M. Pozar, *Microwave Engineering*, 2nd ed. (1998), section 1.7.
pub fn surface_resistance(frequency: Hertz, resistivity: f64) -> Ohm {
    Ohm((PI * frequency.0 * MU_0 * resistivity).sqrt())
}

impl Roughness {
    /// Factor K ≥ 1 by which the surface multiplies the resistance of a smooth conductor.
    ///
    /// Hammerstad: K = 1 + (2/π) atan(1.4 (Δ/δ)²), at most 2.
    ///
    /// Huray: K = 1 + (3/2) N 4πa²/A / (1 + δ/a + δ²/(2a²)).
    ///
    /// # Validity
    /// Hammerstad's formula saturates at 2 and understates copper rougher than about the skin depth; Huray's
    /// has no such limit. Neither source states a range.
    ///
    /// # References
    /// E. Hammerstad, Ø. Jensen, IEEE MTT-S Symposium Digest (1980), pp. 407–409. Huray's form as given in
    /// J. E. Bracken, DesignCon 2012, with the flat area under the spheres equal to the tile.
    pub fn factor(self, skin_depth: Metre) -> f64 {
        let delta = skin_depth.0;
        match self {
            Roughness::Smooth => 1.0,
            Roughness::Hammerstad { rms } => 1.0 + FRAC_2_PI * (1.4 * (rms.0 / delta).powi(2)).atan(),
            Roughness::Huray { radius, .. } if radius.0 <= 0.0 => 1.0,
            Roughness::Huray { count, radius, area } => {
                let (a, r) = (radius.0, delta / radius.0);
                1.0 + 1.5 * count * 4.0 * PI * a * a / area / (1.0 + r + 0.5 * r * r)
            }
        }
    }
}

/// Attenuation α_c = K R_s D/(2 Z0) in Np/m, with D = (1/η0) ∂Z_air/∂n by the incremental-inductance rule:
/// every conductor recedes by n from its surface. `air_impedance` is the impedance of the section in air.
///
/// Against a charge-basis method of moments in air: D of a single strip within 2 %, of an odd mode within
/// 6 %, for copper of 1 % or more of the height. Copper thinner than three skin depths is noted.
///
/// Source: H. A. Wheeler, "Formulas for the Skin Effect", Proc. IRE 30(9), 412–424 (1942).
pub(crate) fn conductor_loss(
    section: CrossSection,
    laminate: &LaminateAt,
    frequency: Hertz,
    impedance: f64,
    air_impedance: impl Fn(CrossSection) -> f64,
    ranges: &mut Ranges,
) -> f64 {
    let depth = skin_depth(frequency, laminate.resistivity);
    ranges.check(
        "the incremental-inductance rule (Wheeler 1942)",
        ("copper thickness/skin depth", ""),
        section.thickness / depth.0,
        (3.0, f64::INFINITY),
    );
    // An ideally thin strip would have infinite loss: its current fills one skin depth at least.
    let section = CrossSection { thickness: section.thickness.max(depth.0), ..section };
    let smallest = section.width.min(section.height).min(section.thickness);
    let n = 1e-4 * section.gap.map_or(smallest, |gap| gap.min(smallest));
    let receded = |n: f64| {
        air_impedance(CrossSection {
            width: section.width - 2.0 * n,
            height: section.height + 2.0 * n,
            thickness: section.thickness - 2.0 * n,
            gap: section.gap.map(|gap| gap + 2.0 * n),
        })
    };
    let crowding = (receded(n) - receded(-n)) / (2.0 * n * ETA_0);
    let rough = laminate.roughness.factor(depth);
    rough * surface_resistance(frequency, laminate.resistivity).0 * crowding.max(0.0) / (2.0 * impedance)
}
