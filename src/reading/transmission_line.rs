//! Cables and traces.

use super::loss::{check_internal, loss_error, loss_point};
use super::surroundings::DEFAULT_PERMITTIVITY;
use super::{Findings, Surroundings, geometry};
use crate::diag::{Diagnostic, Span};
use crate::model::{Medium, TransmissionLine};
use crate::resolve::{LossPoint, resolve_loss};
use crate::sheet::values::Values;
use crate::units::{Hertz, Metre, Ohm, SPEED_OF_LIGHT};

/// A cable or trace; `None` after an error.
pub(crate) fn lower(
    word: &str,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<TransmissionLine> {
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
    let permittivity = values.number("permittivity").map_or_else(
        || {
            let text = format!("no permittivity stated for this {word}: {DEFAULT_PERMITTIVITY:.1}");
            findings.default_used("default-permittivity", span, text);
            DEFAULT_PERMITTIVITY
        },
        |v| v.si,
    );
    let delay = values.number("delay").map(|v| SPEED_OF_LIGHT * v.si / permittivity.sqrt());
    let length = values.number("length").map(|v| v.si).or(delay)?;
    let tangent = values.number("loss_tangent");
    if let (Some(tangent), [_, second]) = (tangent, &values.losses[..]) {
        findings.errors.push(
            Diagnostic::error("loss-tangent-twice", tangent.span, "two loss points and a loss tangent say too much")
                .also(second.loss.span, "the second loss point")
                .help("keep one or the other: two points give the loss tangent themselves"),
        );
        return None;
    }
    let points: Option<Vec<LossPoint>> =
        values.losses.iter().map(|stated| loss_point(stated, length, findings)).collect();
    let stated_tangent = tangent.map(|v| v.si);
    let loss = match resolve_loss(&points?, stated_tangent, permittivity, Hertz(surroundings.nyquist)) {
        Ok(loss) => loss,
        Err(fault) => {
            findings.errors.push(loss_error(&fault, values, length, span));
            return None;
        }
    };
    check_internal(&loss, permittivity, span, findings)?;
    Some(TransmissionLine {
        medium: if word == "cable" { Medium::Cable } else { Medium::Trace },
        impedance: Ohm(impedance.si),
        length: Metre(length),
        permittivity,
        loss,
    })
}
