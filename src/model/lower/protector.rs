//! The protector, and the part it names.

use std::sync::Arc;

use super::path::{DEFAULT_PERMITTIVITY, Surroundings};
use super::{Findings, part, unknown_name};
use crate::diag::{Diagnostic, Span};
use crate::model::{CapacitanceRating, Element, LineKind, Part, Path, Polarity, Protector, worst_case};
use crate::sheet::ast::Text;
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Metre, Ohm};

/// The protector; `None` after an error.
pub(super) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Protector> {
    let stated = values.number("capacitance");
    let name = values.text("part");
    if let (Some(stated), Some(name)) = (stated, name) {
        findings.errors.push(
            Diagnostic::error(
                "two-alternatives",
                stated.span,
                "a protector states a capacitance or a part, not both",
            )
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
        resistance: Ohm(values.or_zero("resistance")),
        stub: Metre(values.or_zero("stub")),
        stub_permittivity: DEFAULT_PERMITTIVITY,
        mismatch: None,
        spread: values.number("spread").map(|v| v.si),
    };
    if let Some(name) = name {
        let part = find(name, surroundings, findings)?;
        fit(&mut protector, &part, name, span, surroundings, findings)?;
        protector.part = Some(part);
    }
    Some(protector)
}

fn find(name: Text<'_>, surroundings: &Surroundings<'_, '_, '_>, findings: &mut Findings) -> Option<Arc<Part>> {
    let context = surroundings.context;
    if let Some(part) = context.parts.get(name.text) {
        return Some(Arc::clone(part));
    }
    if !context.faulty.contains(&("part", name.text)) {
        let places = context.parts.iter().map(|(name, part)| (*name, part.span));
        findings.errors.push(unknown_name("unknown-part", "part", name, places));
    }
    None
}

/// Takes the part's worst case: the larger of the value to ground and twice the one across the pair.
fn fit(
    protector: &mut Protector,
    part: &Arc<Part>,
    name: Text<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<()> {
    part::remarks(part, findings);
    if part.to_ground.is_none() && !surroundings.differential {
        findings.errors.push(
            Diagnostic::error(
                "across-single-ended",
                name.span,
                "this part states its capacitance across a pair alone",
            )
            .also(part.span, "the part")
            .help("a single line needs a part with a capacitance to ground"),
        );
        return None;
    }
    if let (Some(Polarity::Rails(supply)), Some(range)) = (part.polarity, surroundings.line_voltage) {
        if range.high > supply {
            let message = format!(
                "the line goes to {}, above the rails of this part at {supply}",
                range.high
            );
            findings.errors.push(
                Diagnostic::error("above-rails", name.span, message)
                    .also(part.span, "the part")
                    .help("choose a part whose supply is at least the line's highest voltage"),
            );
            return None;
        }
    }
    let ground = part
        .to_ground
        .map(|rating| worst(part, &rating, name.span, surroundings, findings));
    let across = part.across.filter(|_| surroundings.differential);
    let across = across.map(|rating| 2.0 * worst(part, &rating, name.span, surroundings, findings));
    let is_across = across > ground;
    let scale = if is_across { 0.5 } else { 1.0 };
    protector.fitted = if is_across { across } else { ground }.map(Farad);
    protector.mismatch = part.mismatch;
    protector.part_inductance = Henry(part.inductance.0 * scale);
    protector.part_resistance = Ohm(part.resistance.0 * scale);
    if is_across && protector.inductance.0 > 0.0 {
        protector.inductance = Henry(0.0);
        findings.warn(
            "across-ground-inductance",
            span,
            "the part hangs across the pair: the ground-via inductance is not in its way and is left out",
        );
    }
    Some(())
}

/// Worst-case capacitance of one rating over the line's voltage, in farad.
fn worst(
    part: &Part,
    rating: &CapacitanceRating,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> f64 {
    let outcome = worst_case(rating, part.polarity, part.grading, surroundings.line_voltage);
    let part_name = &part.name;
    if rating.bias.is_some() && surroundings.line_voltage.is_none() {
        findings.warn(
            "no-line-voltage",
            span,
            format!(
                "the {} states no line_voltage: the capacitance of part \"{part_name}\" is taken as stated",
                surroundings.block
            ),
        );
    }
    if outcome.default_grading_used {
        findings.default_used(
            "default-grading",
            span,
            format!("part \"{part_name}\" states no grading: 0.7 V and 0.33, and only towards a larger capacitance"),
        );
    }
    if outcome.polarity_assumed {
        findings.warn(
            "polarity-assumed",
            span,
            format!("part \"{part_name}\" states no polarity: taken as unidirectional"),
        );
    }
    outcome.capacitance.0
}

/// Gives the protector's stub the permittivity of the nearest trace outward, else inward, else 4.0.
pub(super) fn settle_stub(path: &mut Path, findings: &mut Findings) {
    let at = path.protector_index();
    let trace = |element: &Element| match element {
        Element::Line(line) if line.kind == LineKind::Trace => Some(line.permittivity),
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
