//! From what a line of the sheet states to the element: remarks and flaws at their places.

use super::{Findings, Surroundings};
use crate::diag::{Diagnostic, Span};
use crate::model::{Element, LineMake, Stated, ViaMake};
use crate::resolve::{Flaw, LineFault, Place, element};
use crate::sheet::values::Values;

/// The element that is stated, with what is stated of it; `None` after an error.
pub(crate) fn made(
    stated: Stated,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<(Stated, Element)> {
    match element(&stated, &surroundings.electrical()) {
        Ok(made) => {
            let made = made?;
            for remark in &made.remarks {
                findings.remark(remark, span);
            }
            Some((stated, made.value))
        }
        Err(flaw) => {
            findings.errors.push(error(&flaw, &Places { values, span, named: named(&stated) }));
            None
        }
    }
}

/// Where the laminate that an element names is described.
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
        Stated::AsIs => None,
    }
}

/// Where the values of an element stand.
pub(crate) struct Places<'v, 'a> {
    pub(crate) values: &'v Values<'a>,
    /// The element.
    pub(crate) span: Span,
    /// What it names, where that is described.
    pub(crate) named: Option<Span>,
}

impl Places<'_, '_> {
    fn of(&self, place: Place) -> Span {
        let number = |name: &str| self.values.number(name).map(|v| v.span);
        let found = match place {
            Place::Element => None,
            Place::Loss(index) => self.values.losses.get(index).map(|l| l.loss.span),
            Place::LastLoss => self.values.losses.last().map(|l| l.loss.span),
            Place::LossTangent => number("loss_tangent"),
            Place::Gap => number("gap"),
            Place::Height => number("height"),
            Place::Pad => number("pad"),
            Place::Antipad => number("antipad"),
            Place::Laminate => self.values.text("on").map(|name| name.span),
        };
        found.unwrap_or(self.span)
    }
}

/// A flaw at its place, with its cure.
pub(crate) fn error(flaw: &Flaw, places: &Places<'_, '_>) -> Diagnostic {
    let error = Diagnostic::error(flaw.code(), places.of(flaw.place()), flaw.to_string());
    let error = match flaw {
        Flaw::TangentBesideTwoLosses => error.also(places.of(Place::Loss(1)), "the second loss point"),
        Flaw::Laminate(_) => error.also(places.named.unwrap_or(places.span), "the laminate"),
        _ => error,
    };
    error.help(cure(flaw))
}

fn cure(flaw: &Flaw) -> &'static str {
    match flaw {
        Flaw::LossWithoutLength(_) => "state its length, or the loss per length",
        Flaw::LossOutOfRange(_) => "check the loss per length and the length",
        Flaw::TangentBesideTwoLosses => "keep one or the other: two points give the loss tangent themselves",
        Flaw::Losses(fault, _) => match fault {
            LineFault::BelowDielectric { .. } => "state a larger loss or a smaller loss tangent",
            LineFault::SecondOutOfRange { .. } => {
                "between a loss that grows as the square root of the frequency and one that grows as the frequency"
            }
            LineFault::SameFrequency(_) => "state them at two frequencies",
            LineFault::TangentBesideTwoPoints | LineFault::TooManyPoints(_) => {
                "state one loss and a loss tangent, or two losses"
            }
        },
        Flaw::LossTooHigh => {
            "the conductor's internal inductance alone would exceed the line's; check the loss and its frequency"
        }
        Flaw::GapOfSingleLine => "delete the `gap`, or write `reference … differential`",
        Flaw::Laminate(_) => "check its permittivity and its loss tangent",
        Flaw::CopperAbovePlanes(_) => "the `height` of a stripline is from plane to plane",
        Flaw::Via(_) => "diameters rise from `drill` to `pad` to `antipad`",
    }
}
