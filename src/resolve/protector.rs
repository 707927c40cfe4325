//! The protector and the part in its place from what is stated of them.

use super::flaw::Flaw;
use super::remark::{Remark, Resolved};
use super::surroundings::{DEFAULT_PERMITTIVITY, Surroundings};
use crate::model::{
    Element, Guard, Medium, Part, PartOnLine, Path, PathElement, Polarity, Protector, Stated, StatedGuard,
    StatedProtector, VoltageRange, Voltages,
};
use crate::units::Henry;

/// The protector from what is stated of it, a part at its worst case. The permittivity of its stub follows from the
/// path: [`settle_stubs`].
///
/// # Errors
/// A part that this line cannot take.
pub fn protector(stated: &StatedProtector, surroundings: &Surroundings) -> Result<Resolved<Protector>, Flaw> {
    let mut remarks = Vec::new();
    let mut protector = Protector {
        pad: stated.pad,
        inductance: stated.inductance,
        resistance: stated.resistance,
        stub: stated.stub,
        neck: stated.neck,
        spread: stated.spread,
        ..Protector::default()
    };
    if let Some(part) = &stated.part {
        let fitted = fitted(part, stated.inductance, surroundings)?;
        protector.fit_part(part, &fitted.value);
        remarks = fitted.remarks;
    }
    if stated.capacitance.is_some() {
        protector.fitted = stated.capacitance;
        protector.part = None;
    }
    Ok(Resolved { value: protector, remarks })
}

/// A guard from what is stated of it, its part at its worst case. The permittivity of its stub follows from the path:
/// [`settle_stubs`].
///
/// # Errors
/// A part that this line cannot take.
pub fn guard(stated: &StatedGuard, surroundings: &Surroundings) -> Result<Resolved<Guard>, Flaw> {
    let StatedGuard { part, pad, inductance, stub } = stated;
    let Resolved { value, remarks } = fitted(part, *inductance, surroundings)?;
    let value = Guard { pad: *pad, inductance: *inductance, stub: *stub, ..Guard::new(part, &value) };
    Ok(Resolved { value, remarks })
}

/// A part in a footprint with this ground-via inductance.
fn fitted(part: &Part, inductance: Henry, surroundings: &Surroundings) -> Result<Resolved<PartOnLine>, Flaw> {
    let mut on_line = part_on_line(part, surroundings.differential, surroundings.voltages)?;
    within_rails(part, surroundings.voltages.line)?;
    if on_line.value.across && inductance.0 > 0.0 {
        on_line.remarks.push(Remark::GroundInductanceLeftOut);
    }
    Ok(on_line)
}

/// A part on a line, with what was assumed on the way.
///
/// # Errors
/// A part stated across a pair alone has no place on a single line.
pub fn part_on_line(part: &Part, differential: bool, voltages: Voltages) -> Result<Resolved<PartOnLine>, Flaw> {
    let mut remarks = Vec::new();
    let name = || part.name.clone();
    if part.typical_only {
        remarks.push(Remark::TypicalAsMaximum(name()));
    }
    let on_line = part.on_line(differential, voltages, |_, outcome| {
        if outcome.line_voltage_missing {
            remarks.push(Remark::NoLineVoltage(name()));
        }
        if outcome.default_grading_used {
            remarks.push(Remark::DefaultGrading(name()));
        }
        if outcome.polarity_assumed {
            remarks.push(Remark::PolarityAssumed(name()));
        }
    });
    let value = on_line.ok_or(Flaw::AcrossOnSingleLine)?;
    Ok(Resolved { value, remarks })
}

/// Whether the rails of a part reach as high as the line.
///
/// # Errors
/// They do not.
pub fn within_rails(part: &Part, line_voltage: Option<VoltageRange>) -> Result<(), Flaw> {
    match (part.polarity, line_voltage) {
        (Some(Polarity::Rails(supply)), Some(VoltageRange { high, .. })) if high > supply => {
            Err(Flaw::AboveRails { high, supply })
        }
        _ => Ok(()),
    }
}

/// Gives the stubs of the stated protector and of stated guards the permittivity of the nearest trace outward, else inward,
/// else [`DEFAULT_PERMITTIVITY`]; gives the remarks, each with the index of its element.
pub fn settle_stubs(path: &mut Path) -> Vec<(usize, Remark)> {
    let trace = |place: &PathElement| match &place.element {
        Element::Line(line) if line.medium == Medium::Trace => Some(line.permittivity),
        _ => None,
    };
    let traces: Vec<Option<f64>> = path.elements.iter().map(trace).collect();
    let mut remarks = Vec::new();
    for (index, place) in path.elements.iter_mut().enumerate().filter(|(_, place)| place.stated != Stated::AsIs) {
        let (stub, permittivity) = match &mut place.element {
            Element::Protector(protector) => (protector.stub, &mut protector.stub_permittivity),
            Element::Guard(guard) => (guard.stub, &mut guard.stub_permittivity),
            _ => continue,
        };
        let (outward, inward) = traces.split_at(index);
        let nearest = outward.iter().rev().chain(inward).find_map(|trace| *trace);
        *permittivity = nearest.unwrap_or(DEFAULT_PERMITTIVITY);
        if stub.0 > 0.0 && nearest.is_none() {
            remarks.push((index, Remark::StubWithoutTrace));
        }
    }
    remarks
}
