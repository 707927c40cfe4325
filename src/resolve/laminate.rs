//! Board materials.

use super::debye::{Debye, DebyeError};
use super::geometry::LaminateAt;
use super::geometry::Roughness;
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

impl Laminate {
    /// The material at one frequency, by the wideband Debye model through the stated points.
    ///
    /// # Errors
    /// Where no such model has both points.
    pub fn at(&self, frequency: Hertz) -> Result<LaminateAt, DebyeError> {
        let (permittivity, at) = self.permittivity;
        let (loss_tangent, loss_at) = self.loss_tangent;
        let points = ((permittivity, at.unwrap_or(frequency)), (loss_tangent, loss_at.unwrap_or(frequency)));
        let debye = Debye::from_points(points.0, points.1)?;
        Ok(LaminateAt {
            permittivity: debye.permittivity(frequency).re,
            loss_tangent: debye.loss_tangent(frequency),
            copper_thickness: self.copper,
            resistivity: self.resistivity,
            roughness: self.roughness,
        })
    }
}
