//! A trace from its geometry.

use super::flaw::Flaw;
use super::geometry::{microstrip, stripline};
use super::loss::dielectric_attenuation;
use super::remark::{Remark, Resolved};
use super::surroundings::Surroundings;
use crate::model::{LineLoss, Medium, StatedLength, TraceGeometry, TransmissionLine};
use crate::units::{DB_PER_NEPER, Metre, Ohm, SPEED_OF_LIGHT};

/// Where the planes of a trace are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Strip {
    /// Below it.
    Microstrip,
    /// Below and above it.
    Stripline,
}

/// The length of a line of this effective permittivity: of a delay, c·delay/√ε_r.
pub(super) fn length_of(stated: StatedLength, permittivity: f64) -> Metre {
    match stated {
        StatedLength::Length(length) => length,
        StatedLength::Delay(delay) => Metre(SPEED_OF_LIGHT * delay.0 / permittivity.sqrt()),
    }
}

/// A trace from its geometry, at the frequency of its surroundings.
pub(super) fn trace(
    strip: Strip,
    medium: Medium,
    length: StatedLength,
    shape: &TraceGeometry,
    surroundings: &Surroundings,
) -> Result<Resolved<TransmissionLine>, Flaw> {
    let TraceGeometry { width, height, gap, ref laminate } = *shape;
    let Surroundings { frequency, differential, .. } = *surroundings;
    if gap.is_some() && !differential {
        return Err(Flaw::GapOfSingleLine);
    }
    let material = laminate.at(frequency).map_err(Flaw::Laminate)?;
    if strip == Strip::Stripline && material.copper_thickness >= height {
        return Err(Flaw::CopperAbovePlanes(material.copper_thickness));
    }
    let made = match strip {
        Strip::Microstrip => microstrip(width, height, gap, &material, frequency),
        Strip::Stripline => stripline(width, height, gap, &material, frequency),
    };
    let permittivity = made.effective_permittivity;
    let length = length_of(length, permittivity);
    let mut remarks: Vec<Remark> = made.notes.into_iter().map(Remark::GeometryRange).collect();
    if strip == Strip::Microstrip {
        remarks.push(Remark::BareMicrostrip);
    }
    if differential && gap.is_none() {
        remarks.push(Remark::Uncoupled);
    }
    let impedance = Ohm(made.impedance.0 * if differential { 2.0 } else { 1.0 });
    let loss = LineLoss { reference: frequency, conductor: made.conductor_loss, loss_tangent: made.loss_tangent };
    let decibel = |per_metre: f64| per_metre * length.0 * DB_PER_NEPER;
    remarks.push(Remark::TraceFromGeometry {
        frequency,
        impedance,
        permittivity,
        conductor: decibel(made.conductor_loss),
        dielectric: decibel(dielectric_attenuation(frequency, permittivity, made.loss_tangent)),
    });
    Ok(Resolved { value: TransmissionLine { medium, impedance, length, permittivity, loss }, remarks })
}
