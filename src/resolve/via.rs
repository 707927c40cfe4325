//! A via from what is stated of it.

use super::flaw::Flaw;
use super::geometry::ViaGeometry;
use super::remark::{Remark, Resolved};
use super::surroundings::{DEFAULT_PERMITTIVITY, Surroundings};
use crate::model::{Barrel, StatedVia, Via, ViaMake, ViaStub};

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
                side: stub.side,
            });
            let barrel = Barrel::Lumped { capacitance: *capacitance, inductance: *inductance };
            Ok(Resolved { value: Via { barrel, stub }, remarks })
        }
        ViaMake::Geometry { barrel, drill, pad, antipad, laminate } => {
            let frequency = surroundings.frequency;
            let permittivity = laminate.at(frequency).map_err(Flaw::Laminate)?.permittivity;
            let geometry = ViaGeometry::new(*barrel, *drill, *pad, *antipad).map_err(Flaw::Via)?;
            let (impedance, delay) = (geometry.impedance(permittivity), geometry.delay(permittivity));
            let remarks = vec![Remark::ViaFromGeometry { frequency, impedance, delay }];
            let stub = stated.stub.map(|stub| ViaStub {
                length: stub.length,
                permittivity: stub.permittivity.unwrap_or(permittivity),
                side: stub.side,
            });
            let barrel = Barrel::Line { impedance, length: *barrel, permittivity };
            Ok(Resolved { value: Via { barrel, stub }, remarks })
        }
    }
}
