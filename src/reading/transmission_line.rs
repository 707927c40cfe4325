//! Cables and traces.

use super::{Findings, Surroundings, geometry};
use crate::diag::{Diagnostic, Span};
use crate::model::{Attenuation, LineAttenuation, LineImpedance, LineMake, Medium, StatedLength, StatedLine};
use crate::sheet::values::Values;
use crate::units::{Hertz, Metre, Ohm, Second};

/// What is stated of a cable or trace; `None` after an error.
pub(crate) fn lower(
    word: &str,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<StatedLine> {
    if geometry::is_stated(values) {
        return geometry::lower(values, span, surroundings, findings);
    }
    geometry::refuse_strays(values, findings)?;
    let Some(impedance) = values.number("impedance") else {
        findings.errors.push(
            Diagnostic::error("missing-argument", span, format!("`{word}` needs an impedance or its geometry"))
                .help("e.g. `trace 90 ohm 32 mm`, or `trace 32 mm microstrip width … height … on \"laminate\"`"),
        );
        return None;
    };
    let delay = values.number("delay").map(|v| StatedLength::Delay(Second(v.si)));
    let losses = values.losses.iter().map(|stated| LineAttenuation {
        loss: if stated.per_length {
            Attenuation::PerMetre(stated.loss.si)
        } else {
            Attenuation::Total(stated.loss.si)
        },
        frequency: Hertz(stated.frequency.si),
    });
    Some(StatedLine {
        medium: if word == "cable" { Medium::Cable } else { Medium::Trace },
        length: values.number("length").map(|v| StatedLength::Length(Metre(v.si))).or(delay)?,
        make: LineMake::Impedance(LineImpedance {
            impedance: Ohm(impedance.si),
            permittivity: values.number("permittivity").map(|v| v.si),
            losses: losses.collect(),
            loss_tangent: values.number("loss_tangent").map(|v| v.si),
        }),
    })
}
