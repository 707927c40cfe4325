//! The protector and the part in its place from what is stated of them.

use super::flaw::Flaw;
use super::remark::{Remark, Resolved};
use super::surroundings::{DEFAULT_PERMITTIVITY, Surroundings};
use crate::model::{
    Element, Medium, Part, PartOnLine, Path, Polarity, Protector, Stated, StatedProtector, VoltageRange,
};

/// The protector from what is stated of it, a part at its worst case. The permittivity of its stub follows from the
/// path: [`settle_stub`].
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
        spread: stated.spread,
        ..Protector::default()
    };
    if let Some(part) = &stated.part {
        let on_line = part_on_line(part, surroundings.differential, surroundings.line_voltage)?;
        within_rails(part, surroundings.line_voltage)?;
        protector.fit_part(part, &on_line.value);
        remarks = on_line.remarks;
        if on_line.value.across && protector.inductance.0 > 0.0 {
            remarks.push(Remark::GroundInductanceLeftOut);
        }
    }
    if stated.capacitance.is_some() {
        protector.fitted = stated.capacitance;
        protector.part = None;
    }
    Ok(Resolved { value: protector, remarks })
}

/// A part on a line, with what was assumed on the way.
///
/// # Errors
/// A part stated across a pair alone has no place on a single line.
pub fn part_on_line(
    part: &Part,
    differential: bool,
    line_voltage: Option<VoltageRange>,
) -> Result<Resolved<PartOnLine>, Flaw> {
    let mut remarks = Vec::new();
    let name = || part.name.clone();
    if part.typical_only {
        remarks.push(Remark::TypicalAsMaximum(name()));
    }
    let on_line = part.on_line(differential, line_voltage, |_, outcome| {
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

/// Gives the stub of a stated protector the permittivity of the nearest trace outward, else inward, else
/// [`DEFAULT_PERMITTIVITY`].
pub fn settle_stub(path: &mut Path) -> Option<Remark> {
    let at = path.protector_index();
    let trace = |element: &Element| match element {
        Element::Line(line) if line.medium == Medium::Trace => Some(line.permittivity),
        _ => None,
    };
    let (outer, inner) = path.elements.split_at(at);
    let outward = outer.iter().rev().find_map(|e| trace(&e.element));
    let nearest = outward.or_else(|| inner.iter().find_map(|e| trace(&e.element)));
    let place = path.elements.get_mut(at).filter(|place| place.stated != Stated::AsIs)?;
    let Element::Protector(protector) = &mut place.element else { return None };
    protector.stub_permittivity = nearest.unwrap_or(DEFAULT_PERMITTIVITY);
    (protector.stub.0 > 0.0 && nearest.is_none()).then_some(Remark::StubWithoutTrace)
}
