//! Board materials.

use crate::diag::Span;
use crate::units::{Hertz, Metre};

/// A board material as its data sheet states it.
#[derive(Debug, Clone, PartialEq)]
pub struct Laminate {
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
