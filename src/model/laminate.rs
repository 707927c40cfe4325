//! Board materials.

use crate::diag::Span;
use crate::units::{Hertz, Metre};

/// A board material as its data sheet states it.
#[derive(Debug, Clone, PartialEq)]
pub struct Laminate {
    /// Its name; empty where it has none.
    pub name: String,
    /// Where its name stands.
    pub span: Span,
    /// Relative permittivity, and the frequency it is known at (`None`: wherever it is asked for).
    pub permittivity: (f64, Option<Hertz>),
    /// Loss tangent, likewise.
    pub loss_tangent: (f64, Option<Hertz>),
    /// Thickness of the copper.
    pub copper: Metre,
    /// Resistivity of the copper in ohm metre.
    pub resistivity: f64,
    /// Roughness of the copper.
    pub roughness: Roughness,
}

/// Copper where none is stated: 35 um, common practice, no source.
const COPPER: Metre = Metre(35e-6);
/// Resistivity of copper where none is stated, in ohm metre.
const RESISTIVITY: f64 = 17.2e-9;

impl Laminate {
    /// A board of this relative permittivity, known at a frequency or wherever it is asked for: without loss in the
    /// dielectric, its copper smooth, 35 µm thick, of 17.2 nΩ·m.
    pub fn new(permittivity: f64, at: Option<Hertz>) -> Laminate {
        Laminate {
            name: String::new(),
            span: Span::default(),
            permittivity: (permittivity, at),
            loss_tangent: (0.0, None),
            copper: COPPER,
            resistivity: RESISTIVITY,
            roughness: Roughness::Smooth,
        }
    }
}

/// Surface of a conductor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Roughness {
    /// No extra loss.
    Smooth,
    /// Stated by the rms height of the profile.
    Hammerstad {
        /// The rms height Δ.
        rms: Metre,
    },
    /// Stated as spheres on a flat tile.
    Huray {
        /// Spheres on a tile.
        count: f64,
        /// Radius of a sphere.
        radius: Metre,
        /// Area of the tile in m².
        area: f64,
    },
}
