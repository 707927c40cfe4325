//! Vias, lumped or from their geometry.

use super::surroundings::DEFAULT_PERMITTIVITY;
use super::{Findings, Surroundings, laminate};
use crate::diag::{Diagnostic, Span};
use crate::model::{StubSide, Via, ViaStub};
use crate::resolve::geometry::{ViaGeometry, ViaGeometryError};
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Hertz, Metre};

/// The words of a via's geometry.
const GEOMETRY: [&str; 3] = ["drill", "pad", "antipad"];

/// A via; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Via> {
    if values.number("barrel").is_some() {
        return from_geometry(values, span, surroundings, findings);
    }
    let stray = GEOMETRY.iter().chain(&["on"]).find_map(|word| values.word(word));
    if let Some(stray) = stray {
        findings.errors.push(
            Diagnostic::error(
                "extra-argument",
                stray.span,
                format!("`{}` belongs to a via from its geometry", stray.text),
            )
            .help("write `via barrel 1.6 mm drill 0.25 mm pad 0.5 mm antipad 0.8 mm on \"laminate\"`"),
        );
        return None;
    }
    let Some(capacitance) = values.number("capacitance") else {
        findings.errors.push(
            Diagnostic::error("missing-argument", span, "`via` needs a capacitance or its `barrel`")
                .help("e.g. `via 0.2 pF 0.4 nH`, or `via barrel 1.6 mm drill … pad … antipad … on \"laminate\"`"),
        );
        return None;
    };
    let inductance = values.number("inductance").map(|v| Henry(v.si));
    let permittivity = values.number("permittivity");
    let stub = values.number("stub");
    if let (None, Some(permittivity)) = (stub, permittivity) {
        findings.errors.push(
            Diagnostic::error(
                "extra-argument",
                permittivity.span,
                "a via without a stub has no use for a permittivity",
            )
            .help("delete it, or state the `stub`"),
        );
        return None;
    }
    if stub.is_some() && permittivity.is_none() {
        let text = format!("no permittivity stated for the via's stub: {DEFAULT_PERMITTIVITY:.1}");
        findings.default_used("default-permittivity", span, text);
    }
    let stub = stub.map(|length| ViaStub {
        length: Metre(length.si),
        permittivity: permittivity.map_or(DEFAULT_PERMITTIVITY, |v| v.si),
        impedance: None,
        side: side(values),
    });
    Some(Via { capacitance: Farad(capacitance.si), inductance, stub })
}

fn side(values: &Values<'_>) -> StubSide {
    if values.word("outer").is_some() { StubSide::Outer } else { StubSide::Inner }
}

fn from_geometry(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Via> {
    let stated = ["capacitance", "inductance", "permittivity"].iter().find_map(|name| values.number(name));
    if let Some(stated) = stated {
        findings.errors.push(
            Diagnostic::error(
                "two-alternatives",
                stated.span,
                "this follows from the via's geometry and is stated beside it",
            )
            .help("delete it, or the `barrel` and its dimensions"),
        );
        return None;
    }
    let size = |word: &str| values.number(word).map(|v| Metre(v.si));
    let (Some(barrel), Some(drill), Some(pad), Some(antipad)) =
        (size("barrel"), size("drill"), size("pad"), size("antipad"))
    else {
        let missing = GEOMETRY.iter().find(|word| values.number(word).is_none()).unwrap_or(&"drill");
        findings.errors.push(
            Diagnostic::error("missing-argument", span, format!("a via from its geometry needs its `{missing}`"))
                .help("it takes `barrel`, `drill`, `pad`, `antipad` and `on \"laminate\"`"),
        );
        return None;
    };
    let material = laminate::at(values, span, surroundings, findings)?;
    let geometry = match ViaGeometry::new(barrel, drill, pad, antipad) {
        Ok(geometry) => geometry,
        Err(error) => {
            let word = match error {
                ViaGeometryError::AntipadNotAbovePad => "antipad",
                ViaGeometryError::PadNotAboveDrill => "pad",
            };
            let at = values.number(word).map_or(span, |v| v.span);
            findings.errors.push(
                Diagnostic::error("via-geometry", at, error.to_string())
                    .help("diameters rise from `drill` to `pad` to `antipad`"),
            );
            return None;
        }
    };
    for note in geometry.notes() {
        findings.warn("geometry-range", span, note.to_string());
    }
    let (capacitance, inductance) = (geometry.capacitance(material.permittivity), geometry.inductance());
    findings.default_used(
        "via-estimate",
        span,
        format!(
            "via from its geometry at {}: {capacitance}, {inductance}; an estimate: the inductance leaves out the return vias",
            Hertz(surroundings.nyquist)
        ),
    );
    let stub = values.number("stub").map(|length| ViaStub {
        length: Metre(length.si),
        permittivity: material.permittivity,
        impedance: Some(geometry.stub_impedance(material.permittivity)),
        side: side(values),
    });
    Some(Via { capacitance, inductance: Some(inductance), stub })
}
