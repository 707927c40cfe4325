//! Lines and vias from their geometry, at one frequency.
//!
//! Pure functions: a cross-section and a laminate in, impedance, effective permittivity and loss out.
//! Each formula states its source and the range it was published for; outside that range the value is
//! still given, and a [`RangeNote`] names the range.

mod conductor;
mod coupled_microstrip;
mod coupled_stripline;
mod microstrip;
mod microstrip_shape;
mod range;
mod stripline;
mod stripline_shape;
mod via;

pub use crate::model::Roughness;
use crate::units::{Metre, Ohm};
pub use conductor::{skin_depth, surface_resistance};
pub use microstrip::microstrip;
pub use range::RangeNote;
pub use stripline::stripline;
pub use via::{ViaGeometry, ViaGeometryError};

/// Impedance of free space η0 = μ0 c in ohm (CODATA 2018).
const ETA_0: f64 = 376.730_313_668;

/// A laminate and its copper, every value taken at the frequency of interest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaminateAt {
    /// Relative permittivity ε_r, at least 1.
    pub permittivity: f64,
    /// Loss tangent tan δ.
    pub loss_tangent: f64,
    /// Copper thickness t; zero stands for an ideally thin strip.
    pub copper_thickness: Metre,
    /// Resistivity ρ of the conductor in Ω·m.
    pub resistivity: f64,
    /// Surface of the conductor.
    pub roughness: Roughness,
}

/// A line as its geometry gives it, at one frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct LineFromGeometry {
    /// Characteristic impedance of one line: of a single line, or of each line of a pair in its odd mode.
    /// The differential impedance of the pair is twice this.
    pub impedance: Ohm,
    /// Effective relative permittivity ε_eff of that mode.
    pub effective_permittivity: f64,
    /// Attenuation α_c by the conductors, roughness included, in Np/m.
    pub conductor_loss: f64,
    /// Effective loss tangent: α_d = π f √ε_eff tan δ_eff / c.
    pub loss_tangent: f64,
    /// Published ranges that the geometry exceeds.
    pub notes: Vec<RangeNote>,
}

/// A cross-section in metre.
#[derive(Debug, Clone, Copy)]
struct CrossSection {
    width: f64,
    /// Trace to plane (microstrip) or plane to plane (stripline).
    height: f64,
    thickness: f64,
    /// Edge to edge, of a pair.
    gap: Option<f64>,
}

impl CrossSection {
    fn new(width: Metre, height: Metre, gap: Option<Metre>, laminate: &LaminateAt) -> Self {
        CrossSection {
            width: width.0,
            height: height.0,
            thickness: laminate.copper_thickness.0.max(0.0),
            gap: gap.map(|g| g.0),
        }
    }
}
