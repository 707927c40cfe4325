//! The protector and guards, and the parts they name.

use super::named_part::find;
use super::{Findings, Surroundings};
use crate::diag::{Diagnostic, Span};
use crate::figures::LineKind;
use crate::model::{Neck, StatedGuard, StatedProtector};
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Metre, Ohm};

/// What is stated of the protector; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<StatedProtector> {
    let stated = values.number("capacitance");
    let name = values.text("part");
    if let (Some(stated), Some(name)) = (stated, name) {
        findings.errors.push(
            Diagnostic::error("two-alternatives", stated.span, "a protector states a capacitance or a part, not both")
                .also(name.span, "the part")
                .help("delete one of them"),
        );
        return None;
    }
    let slow = matches!(surroundings.kind, LineKind::Bus | LineKind::Rail);
    if let Some(stray) = stated.or(values.number("spread")).filter(|_| slow) {
        let message = format!("no capacitance is sized at the protector in the path of a {}", surroundings.kind.word());
        findings
            .errors
            .push(Diagnostic::error("extra-argument", stray.span, message).help("delete it; its part may be named"));
        return None;
    }
    let part = match name {
        Some(name) => Some(find(name, surroundings.context, findings)?),
        None => None,
    };
    let neck = values.number("neck.impedance").zip(values.number("neck.length"));
    Some(StatedProtector {
        capacitance: stated.map(|v| Farad(v.si)),
        part,
        pad: Farad(values.or_zero("pad")),
        inductance: Henry(values.or_zero("inductance")),
        resistance: Ohm(values.or_zero("resistance")),
        stub: Metre(values.or_zero("stub")),
        neck: neck.map(|(impedance, length)| Neck { impedance: Ohm(impedance.si), length: Metre(length.si) }),
        spread: values.number("spread").map(|v| v.si),
    })
}

/// What is stated of a guard; `None` after an error.
pub(crate) fn guard(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<StatedGuard> {
    let Some(name) = values.text("part") else {
        findings.errors.push(Diagnostic::error("guard-without-part", span, "this guard names no part").help(
            "write e.g. `guard part \"gas tube\"`; a guard is fitted, and the place to be sized is the protector",
        ));
        return None;
    };
    Some(StatedGuard {
        part: find(name, surroundings.context, findings)?,
        pad: Farad(values.or_zero("pad")),
        inductance: Henry(values.or_zero("inductance")),
        stub: Metre(values.or_zero("stub")),
    })
}
