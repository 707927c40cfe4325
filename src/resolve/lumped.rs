//! How long a lumped element is.

use std::f64::consts::TAU;

use crate::model::{Barrel, Element, Via};
use crate::units::Hertz;

/// Electrical length ω√(LC) of a connector or a lumped via at a frequency, in radian; `None` for any other element.
pub fn lumped_angle(element: &Element, frequency: Hertz) -> Option<f64> {
    let (capacitance, inductance) = match element {
        Element::Connector { capacitance, inductance: Some(inductance) } => (capacitance.0, inductance.0),
        Element::Via(Via { barrel: Barrel::Lumped { capacitance, inductance }, .. }) => {
            (capacitance.0, inductance.map_or(0.0, |l| l.0))
        }
        _ => return None,
    };
    Some(TAU * frequency.0 * (inductance * capacitance).sqrt())
}
