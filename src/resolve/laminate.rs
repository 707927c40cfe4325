//! A board material at one frequency.

use super::debye::{Debye, DebyeError};
use super::geometry::LaminateAt;
use crate::model::Laminate;
use crate::units::Hertz;

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
