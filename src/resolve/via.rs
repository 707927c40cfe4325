//! A via from what is stated of it.

use super::flaw::Flaw;
use super::geometry::ViaGeometry;
use super::remark::{Remark, Resolved};
use super::surroundings::{DEFAULT_PERMITTIVITY, Surroundings};
use crate::model::{StatedVia, Via, ViaMake, ViaStub};

/// A via from what is stated of it; one from its geometry at the frequency of its surroundings.
///
/// # Errors
/// A laminate or diameters that cannot be.
pub fn via(stated: &StatedVia, surroundings: &Surroundings) -> Result<Resolved<Via>, Flaw> {
    match &stated.make {
        ViaMake::Lumped { capacitance, inductance } => {
            let mut remarks = Vec::new();
            let stub = stated.stub.map(|stub| ViaStub {
                length: stub.length,
                permittivity: stub.permittivity.unwrap_or_else(|| {
                    remarks.push(Remark::DefaultViaStubPermittivity);
                    DEFAULT_PERMITTIVITY
                }),
                impedance: None,
                side: stub.side,
            });
            Ok(Resolved { value: Via { capacitance: *capacitance, inductance: *inductance, stub }, remarks })
        }
        ViaMake::Geometry { barrel, drill, pad, antipad, laminate } => {
            let frequency = surroundings.frequency;
            let material = laminate.at(frequency).map_err(Flaw::Laminate)?;
            let geometry = ViaGeometry::new(*barrel, *drill, *pad, *antipad).map_err(Flaw::Via)?;
            let (capacitance, inductance) = (geometry.capacitance(material.permittivity), geometry.inductance());
            let mut remarks: Vec<Remark> = geometry.notes().into_iter().map(Remark::GeometryRange).collect();
            remarks.push(Remark::ViaFromGeometry { frequency, capacitance, inductance });
            let stub = stated.stub.map(|stub| {
                let permittivity = stub.permittivity.unwrap_or(material.permittivity);
                ViaStub {
                    length: stub.length,
                    permittivity,
                    impedance: Some(geometry.stub_impedance(permittivity)),
                    side: stub.side,
                }
            });
            Ok(Resolved { value: Via { capacitance, inductance: Some(inductance), stub }, remarks })
        }
    }
}
