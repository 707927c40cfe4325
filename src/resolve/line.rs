//! A cable or trace from what is stated of it.

use super::flaw::{Flaw, MAX_LOSS};
use super::loss::{LineFault, LossPoint, resolve_loss};
use super::remark::{Remark, Resolved};
use super::surroundings::{DEFAULT_PERMITTIVITY, Surroundings};
use super::trace::{Strip, length_of, trace};
use crate::model::{
    Attenuation, LineAttenuation, LineImpedance, LineMake, Medium, StatedLength, StatedLine, TransmissionLine,
};
use crate::units::{DB_PER_NEPER, Metre};

/// Share of the conductor's internal reactance in the line's series reactance above which the loss is approximate.
const APPROXIMATE: f64 = 0.2;

/// A cable or trace from what is stated of it.
///
/// # Errors
/// A loss, a laminate or a cross-section that cannot be.
pub fn line(stated: &StatedLine, surroundings: &Surroundings) -> Result<Resolved<TransmissionLine>, Flaw> {
    let StatedLine { medium, length, ref make } = *stated;
    let mut resolved = match make {
        LineMake::Impedance(make) => from_impedance(medium, length, make, surroundings)?,
        LineMake::Microstrip(shape) => trace(Strip::Microstrip, medium, length, shape, surroundings)?,
        LineMake::Stripline(shape) => trace(Strip::Stripline, medium, length, shape, surroundings)?,
    };
    let TransmissionLine { permittivity, loss, .. } = &resolved.value;
    let share = loss.inductance_ratio(*permittivity);
    if share >= 1.0 {
        return Err(Flaw::LossTooHigh);
    }
    if share > APPROXIMATE {
        resolved.remarks.push(Remark::ApproximateLoss(share));
    }
    Ok(resolved)
}

fn from_impedance(
    medium: Medium,
    length: StatedLength,
    make: &LineImpedance,
    surroundings: &Surroundings,
) -> Result<Resolved<TransmissionLine>, Flaw> {
    let mut remarks = Vec::new();
    let permittivity = make.permittivity.unwrap_or_else(|| {
        remarks.push(Remark::DefaultPermittivity(medium));
        DEFAULT_PERMITTIVITY
    });
    let length = length_of(length, permittivity);
    if make.loss_tangent.is_some() && make.losses.len() == 2 {
        return Err(Flaw::TangentBesideTwoLosses);
    }
    // No more than two are ever stated, and lines are made by the million.
    let mut points = [LossPoint { frequency: surroundings.frequency, attenuation: 0.0 }; 2];
    for (index, loss) in make.losses.iter().enumerate() {
        let point = point(index, loss, length)?;
        points.iter_mut().skip(index).take(1).for_each(|place| *place = point);
    }
    let count = make.losses.len();
    let points = points.get(..count).ok_or(Flaw::Losses(LineFault::TooManyPoints(count), length))?;
    let loss = resolve_loss(points, make.loss_tangent, permittivity, surroundings.frequency)
        .map_err(|fault| Flaw::Losses(fault, length))?;
    if make.loss_tangent.is_none() && points.len() == 1 && loss.conductor > 0.0 {
        remarks.push(Remark::LossSplit);
    }
    Ok(Resolved { value: TransmissionLine { medium, impedance: make.impedance, length, permittivity, loss }, remarks })
}

/// A stated loss as attenuation per length.
fn point(index: usize, stated: &LineAttenuation, length: Metre) -> Result<LossPoint, Flaw> {
    let per_metre = match stated.loss {
        Attenuation::PerMetre(loss) => loss,
        Attenuation::Total(0.0) => 0.0,
        Attenuation::Total(_) if length.0 == 0.0 => return Err(Flaw::LossWithoutLength(index)),
        Attenuation::Total(loss) => loss / length.0,
    };
    if per_metre * length.0 > MAX_LOSS {
        return Err(Flaw::LossOutOfRange(index));
    }
    Ok(LossPoint { attenuation: per_metre / DB_PER_NEPER, frequency: stated.frequency })
}
