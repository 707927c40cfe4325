//! Traces from their geometry.

use super::stated::{Places, error};
use super::{Findings, Surroundings, laminate};
use crate::diag::{Diagnostic, Span};
use crate::model::{LineMake, Medium, StatedLength, StatedLine, TraceGeometry};
use crate::resolve::Flaw;
use crate::sheet::values::Values;
use crate::units::Metre;

/// The words that say a trace is given by its geometry.
const KINDS: [&str; 2] = ["microstrip", "stripline"];
/// The words of the geometry itself.
const WORDS: [&str; 4] = ["width", "height", "gap", "on"];

/// Whether a trace is given by its geometry.
pub(crate) fn is_stated(values: &Values<'_>) -> bool {
    KINDS.iter().any(|word| values.word(word).is_some())
}

/// Refuses words of a geometry in a trace that is not given by one.
pub(crate) fn refuse_strays(values: &Values<'_>, findings: &mut Findings) -> Option<()> {
    let Some(stray) = WORDS.iter().find_map(|word| values.word(word)) else {
        return Some(());
    };
    findings.errors.push(
        Diagnostic::error(
            "extra-argument",
            stray.span,
            format!("`{}` belongs to a trace from its geometry", stray.text),
        )
        .help("write `trace 32 mm microstrip width … height … on \"laminate\"`"),
    );
    None
}

/// What is stated of a trace from its geometry; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<StatedLine> {
    check_alternatives(values, findings)?;
    let length = StatedLength::Length(required(values, "length", span, findings)?);
    let width = required(values, "width", span, findings)?;
    let height = required(values, "height", span, findings)?;
    let gap = values.number("gap").map(|v| Metre(v.si));
    if gap.is_some() && !surroundings.differential {
        // Told before a laminate that is not there.
        findings.errors.push(error(&Flaw::GapOfSingleLine, &Places { values, span, named: None }));
        return None;
    }
    let shape = TraceGeometry { width, height, gap, laminate: laminate::named(values, span, surroundings, findings)? };
    let is_stripline = values.word("stripline").is_some();
    let make = if is_stripline { LineMake::Stripline(shape) } else { LineMake::Microstrip(shape) };
    Some(StatedLine { medium: Medium::Trace, length, make })
}

fn required(values: &Values<'_>, word: &str, span: Span, findings: &mut Findings) -> Option<Metre> {
    let value = values.number(word).map(|v| Metre(v.si));
    if value.is_none() {
        findings.errors.push(
            Diagnostic::error("missing-argument", span, format!("a trace from its geometry needs its {word}"))
                .help("e.g. `trace 32 mm microstrip width 0.12 mm height 0.1 mm gap 0.15 mm on \"laminate\"`"),
        );
    }
    value
}

/// What follows from the geometry may not be stated beside it, and there is one geometry.
fn check_alternatives(values: &Values<'_>, findings: &mut Findings) -> Option<()> {
    let [first, second] = KINDS.map(|word| values.word(word));
    if let (Some(first), Some(second)) = (first, second) {
        findings.errors.push(
            Diagnostic::error("two-alternatives", second.span, "a trace is a microstrip or a stripline")
                .also(first.span, "the other one")
                .help("delete one of them"),
        );
        return None;
    }
    let numbers = ["impedance", "delay", "permittivity", "loss_tangent"].iter().find_map(|name| values.number(name));
    let stated = numbers.map(|v| v.span).or(values.losses.first().map(|l| l.loss.span));
    if let Some(stated) = stated {
        let kind = first.or(second).map_or(stated, |word| word.span);
        findings.errors.push(
            Diagnostic::error(
                "two-alternatives",
                stated,
                "this follows from the trace's geometry and is stated beside it",
            )
            .also(kind, "the geometry")
            .help("delete it, or the geometry; a length is stated as a length"),
        );
        return None;
    }
    Some(())
}
