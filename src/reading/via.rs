//! Vias, lumped or from their geometry.

use super::{Findings, Surroundings, laminate};
use crate::diag::{Diagnostic, Span};
use crate::model::{StatedStub, StatedVia, StubSide, ViaMake};
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Metre};

/// The words of a via's geometry.
const GEOMETRY: [&str; 3] = ["drill", "pad", "antipad"];

/// What is stated of a via; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<StatedVia> {
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
    let make = ViaMake::Lumped {
        capacitance: Farad(capacitance.si),
        inductance: values.number("inductance").map(|v| Henry(v.si)),
    };
    Some(StatedVia { make, stub: stated_stub(values) })
}

fn stated_stub(values: &Values<'_>) -> Option<StatedStub> {
    let side = if values.word("outer").is_some() { StubSide::Outer } else { StubSide::Inner };
    let permittivity = values.number("permittivity").map(|v| v.si);
    values.number("stub").map(|length| StatedStub { length: Metre(length.si), permittivity, side })
}

fn from_geometry(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<StatedVia> {
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
    let laminate = laminate::named(values, span, surroundings, findings)?;
    let make = ViaMake::Geometry { barrel, drill, pad, antipad, laminate };
    Some(StatedVia { make, stub: stated_stub(values) })
}
