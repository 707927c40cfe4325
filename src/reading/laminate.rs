//! Laminates, and the one an element names.

use std::sync::Arc;

use super::{Findings, Reader, Surroundings, unknown_name};
use crate::diag::{Diagnostic, Span};
use crate::figures::FREQUENCY;
use crate::model::{Laminate, Roughness};
use crate::sheet::ast::{Block, Row, Text};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, LAMINATE};
use crate::sheet::values::Values;
use crate::units::{Hertz, Metre};

/// A laminate; `None` after an error.
pub(crate) fn lower(block: &Block<'_>, name: Text<'_>, errors: &mut Vec<Diagnostic>) -> Option<Arc<Laminate>> {
    let before = errors.len();
    let entries = Entries::of(&LAMINATE, &block.items, errors);
    entries.require("permittivity", name.span, "this laminate", "add e.g. `permittivity 4.2 at 1 GHz`", errors);
    let permittivity = value_at(&entries, "permittivity", errors);
    let loss_tangent = value_at(&entries, "loss_tangent", errors);
    let number = |word: &str, slot: &str, errors: &mut Vec<Diagnostic>| {
        let reader = Reader { schema: &LAMINATE, entries: &entries };
        reader.line(word, errors).and_then(|values| values.number(slot)).map(|v| v.si)
    };
    let copper = number("copper", "thickness", errors).map(Metre);
    let resistivity = number("resistivity", "resistivity", errors);
    let rms = number("roughness", "height", errors);
    let balls = entries.line("snowballs").and_then(|line| snowballs(line, errors));
    if let (Some(rough), Some(ball)) = (entries.line("roughness"), entries.line("snowballs")) {
        errors.push(
            Diagnostic::error("two-alternatives", ball.word.span, "a laminate has one model of its roughness")
                .also(rough.word.span, "the other one")
                .help("keep `roughness` or `snowballs`"),
        );
    }
    if errors.len() > before || !entries.is_whole() {
        return None;
    }
    let rough = rms.filter(|rms| *rms > 0.0).map(|rms| Roughness::Hammerstad { rms: Metre(rms) });
    let (permittivity, at) = permittivity?;
    let plain = Laminate::new(permittivity, at);
    Some(Arc::new(Laminate {
        name: name.text.to_owned(),
        span: name.span,
        loss_tangent: loss_tangent.unwrap_or(plain.loss_tangent),
        copper: copper.unwrap_or(plain.copper),
        resistivity: resistivity.unwrap_or(plain.resistivity),
        roughness: balls.or(rough).unwrap_or(plain.roughness),
        ..plain
    }))
}

/// A number, and the frequency it is known at where one is stated.
fn value_at(entries: &Entries<'_, '_>, word: &str, errors: &mut Vec<Diagnostic>) -> Option<(f64, Option<Hertz>)> {
    let line = entries.line(word)?;
    let Form::ValueAt(kind) = LAMINATE.line(word)?.form else {
        return None;
    };
    let mut arguments = Arguments::new(line, errors);
    let (value, _) = arguments.quantity(&[kind], word)?;
    let at = match arguments.take_word("at") {
        Some(_) => Some(Hertz(arguments.quantity(&[FREQUENCY], "at")?.0.si)),
        None => None,
    };
    arguments.end();
    Some((value.si, at))
}

/// `snowballs N radius r area A`.
fn snowballs(line: &Row<'_>, errors: &mut Vec<Diagnostic>) -> Option<Roughness> {
    let Form::Arguments { slots, named } = LAMINATE.line("snowballs")?.form else {
        return None;
    };
    let values = Arguments::new(line, errors).values(slots, named)?;
    let (Some(radius), Some(area)) = (values.number("radius"), values.number("area")) else {
        errors.push(
            Diagnostic::error(
                "missing-argument",
                line.word.span,
                "`snowballs` needs the `radius` of a ball and the `area` of the tile",
            )
            .help("e.g. `snowballs 79 radius 0.8 um area 88.36 um2`"),
        );
        return None;
    };
    let count = values.number("count")?.si;
    Some(Roughness::Huray { count, radius: Metre(radius.si), area: area.si })
}

/// The laminate an element names; `None` after an error.
pub(crate) fn named(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Arc<Laminate>> {
    let Some(name) = values.text("on") else {
        findings.errors.push(
            Diagnostic::error("missing-argument", span, "a geometry needs its laminate")
                .help("add `on \"name\"`, and a block `laminate \"name\" { … }`"),
        );
        return None;
    };
    let context = surroundings.context;
    if let Some(laminate) = context.laminates.get(name.text) {
        return Some(Arc::clone(laminate));
    }
    if !context.is_excused("laminate", name.text) {
        let places = context.laminates.iter().map(|(name, laminate)| (*name, laminate.span));
        findings.errors.push(unknown_name("unknown-laminate", "laminate", name, places));
    }
    None
}
