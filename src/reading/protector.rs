//! The protector, and the part it names.

use std::sync::Arc;

use super::named_part::find;
use super::{Findings, Surroundings, part};
use crate::diag::{Diagnostic, Span};
use crate::model::{Element, Medium, Part, Path, Protector};
use crate::resolve::DEFAULT_PERMITTIVITY;
use crate::sheet::ast::Text;
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Metre, Ohm};

/// The protector; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Protector> {
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
    let mut protector = Protector {
        fitted: stated.map(|v| Farad(v.si)),
        part: None,
        pad: Farad(values.or_zero("pad")),
        part_inductance: Henry(0.0),
        part_resistance: Ohm(0.0),
        inductance: Henry(values.or_zero("inductance")),
        across: false,
        resistance: Ohm(values.or_zero("resistance")),
        stub: Metre(values.or_zero("stub")),
        stub_permittivity: DEFAULT_PERMITTIVITY,
        mismatch: None,
        spread: values.number("spread").map(|v| v.si),
    };
    if let Some(name) = name {
        let part = find(name, surroundings.context, findings)?;
        fit(&mut protector, &part, name, span, surroundings, findings)?;
    }
    Some(protector)
}

/// Puts the part at its worst case in the protector's place.
fn fit(
    protector: &mut Protector,
    part: &Arc<Part>,
    name: Text<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<()> {
    let (differential, line_voltage) = (surroundings.differential, surroundings.line_voltage);
    let on_line = part::on_line(part, name, differential, line_voltage, findings)?;
    part::within_rails(part, name, line_voltage, findings)?;
    protector.fit_part(part, &on_line);
    if on_line.across && protector.inductance.0 > 0.0 {
        findings.warn(
            "across-ground-inductance",
            span,
            "the part hangs across the pair: the ground-via inductance is not in its way and is left out",
        );
    }
    Some(())
}

/// Gives the protector's stub the permittivity of the nearest trace outward, else inward, else 4.0.
pub(crate) fn settle_stub(path: &mut Path, findings: &mut Findings) {
    let at = path.protector_index();
    let trace = |element: &Element| match element {
        Element::Line(line) if line.medium == Medium::Trace => Some(line.permittivity),
        _ => None,
    };
    let outward = path.elements[..at].iter().rev().find_map(|e| trace(&e.element));
    let nearest = outward.or_else(|| path.elements[at..].iter().find_map(|e| trace(&e.element)));
    let span = path.elements[at].span;
    if let Element::Protector(protector) = &mut path.elements[at].element {
        protector.stub_permittivity = nearest.unwrap_or(DEFAULT_PERMITTIVITY);
        if protector.stub.0 > 0.0 && nearest.is_none() {
            findings.default_used(
                "default-permittivity",
                span,
                format!("no trace in the path to take the stub's permittivity from: {DEFAULT_PERMITTIVITY:.1}"),
            );
        }
    }
}
