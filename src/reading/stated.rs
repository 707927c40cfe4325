//! From what a line of the sheet states to the element: remarks and flaws at their places.

use super::{Findings, Surroundings};
use crate::diag::{Diagnostic, Span};
use crate::model::{Element, LineMake, Stated, ViaMake};
use crate::resolve::{Flaw, Place, element};
use crate::sheet::values::Values;

/// The element that is stated, with what is stated of it; `None` after an error.
pub(crate) fn made(
    stated: Stated,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<(Stated, Element)> {
    let place = |place| found(place, values, named(&stated)).unwrap_or(span);
    match element(&stated, &surroundings.electrical()) {
        Ok(made) => {
            let made = made?;
            for remark in &made.remarks {
                findings.remark(remark, place(remark.place()));
            }
            Some((stated, made.value))
        }
        Err(flaw) => {
            findings.errors.push(error(&flaw, place));
            None
        }
    }
}

/// Where the laminate or part that an element names is described.
fn named(stated: &Stated) -> Option<Span> {
    match stated {
        Stated::Line(line) => match &line.make {
            LineMake::Microstrip(shape) | LineMake::Stripline(shape) => Some(shape.laminate.span),
            LineMake::Impedance(_) => None,
        },
        Stated::Via(via) => match &via.make {
            ViaMake::Geometry { laminate, .. } => Some(laminate.span),
            ViaMake::Lumped { .. } => None,
        },
        Stated::Protector(protector) => protector.part.as_ref().map(|part| part.span),
        Stated::Guard(guard) => Some(guard.part.span),
        Stated::AsIs => None,
    }
}

/// Where a value stands.
fn found(place: Place, values: &Values<'_>, named: Option<Span>) -> Option<Span> {
    match place {
        Place::Loss(index) => values.losses.get(index).map(|l| l.loss.span),
        Place::LastLoss => values.losses.last().map(|l| l.loss.span),
        Place::Named => named,
        _ => {
            let name = place.name()?;
            values.number(name).map(|v| v.span).or_else(|| values.text(name).map(|text| text.span))
        }
    }
}

/// A flaw at its place, with its cure.
pub(crate) fn error(flaw: &Flaw, place: impl Fn(Place) -> Span) -> Diagnostic {
    let error = Diagnostic::error(flaw.code(), place(flaw.place()), flaw.to_string());
    let error = match flaw {
        Flaw::TangentBesideTwoLosses => error.also(place(Place::LastLoss), "the second loss point"),
        Flaw::Laminate(_) => error.also(place(Place::Named), "the laminate"),
        Flaw::AcrossOnSingleLine | Flaw::AboveRails { .. } => error.also(place(Place::Named), "the part"),
        _ => error,
    };
    error.help(flaw.cure())
}
