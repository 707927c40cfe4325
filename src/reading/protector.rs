//! The protector, and the part it names.

use super::named_part::find;
use super::{Findings, Surroundings};
use crate::diag::Diagnostic;
use crate::model::StatedProtector;
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
    let part = match name {
        Some(name) => Some(find(name, surroundings.context, findings)?),
        None => None,
    };
    Some(StatedProtector {
        capacitance: stated.map(|v| Farad(v.si)),
        part,
        pad: Farad(values.or_zero("pad")),
        inductance: Henry(values.or_zero("inductance")),
        resistance: Ohm(values.or_zero("resistance")),
        stub: Metre(values.or_zero("stub")),
        spread: values.number("spread").map(|v| v.si),
    })
}
