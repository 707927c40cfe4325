//! The plane at which a lane's reflection is seen, and how far from it the protector is.

use super::{Barrel, Element, Path};
use crate::units::{SPEED_OF_LIGHT, Second};

impl Path {
    /// Index of the element before which the reflection is seen: the stated plane, else the connector next to the
    /// protector on its outer side, else the outer end.
    pub fn port_plane_index(&self) -> usize {
        let outside = &self.elements[..self.protector_index()];
        let plane = self.elements.iter().position(|e| matches!(e.element, Element::Plane));
        plane.unwrap_or_else(|| {
            outside.iter().rposition(|e| matches!(e.element, Element::Connector { .. })).unwrap_or(0)
        })
    }

    /// Delay of the lines from the port plane to the protector; `None` where the plane lies inward of it and sees nothing
    /// of it.
    pub fn delay_to_protector(&self) -> Option<Second> {
        let between = self.elements.get(self.port_plane_index()..self.protector_index())?;
        Some(Second(between.iter().map(|place| place.element.line_delay()).sum()))
    }
}

impl Element {
    /// One-way delay ℓ√ε_r/c of a line in second; 0 of any other element.
    fn line_delay(&self) -> f64 {
        let (length, permittivity) = match self {
            Element::Line(line) => (line.length, line.permittivity),
            Element::Via(via) => match via.barrel {
                Barrel::Line { length, permittivity, .. } => (length, permittivity),
                Barrel::Lumped { .. } => return 0.0,
            },
            _ => return 0.0,
        };
        length.0 * permittivity.sqrt() / SPEED_OF_LIGHT
    }
}
