//! Laminates, and the one an element names.

use std::sync::Arc;

use super::{Findings, Reader, Surroundings, addressed, unknown_name};
use crate::diag::{Diagnostic, Span};
use crate::figures::FREQUENCY;
use crate::model::{Address, AddressedValue, Laminate, Owner, Roughness, ValueName};
use crate::sheet::ast::{Block, Row, Text};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, LAMINATE, TOGETHER};
use crate::sheet::values::{Value, Values};
use crate::units::{Hertz, Metre};

/// A laminate with the values that have an address; `None` after an error.
pub(crate) fn lower(
    block: &Block<'_>,
    name: Text<'_>,
    errors: &mut Vec<Diagnostic>,
) -> Option<(Arc<Laminate>, Vec<AddressedValue>)> {
    let before = errors.len();
    let entries = Entries::of(&LAMINATE, &block.items, errors);
    entries.require("permittivity", name.span, "this laminate", "add e.g. `permittivity 4.2 at 1 GHz`", errors);
    let mut stated = Vec::new();
    let address = |value: ValueName| Address { owner: Owner::Laminate(name.text.to_owned()), value };
    let mut at = |of: ValueName, errors: &mut Vec<Diagnostic>| {
        let (value, at, together) = value_at(&entries, of.word(), errors)?;
        stated.push(addressed::of_row(address(of), value, together, errors));
        Some((value.si, at))
    };
    let permittivity = at(ValueName::Permittivity, errors);
    let loss_tangent = at(ValueName::LossTangent, errors);
    let reader = Reader { schema: &LAMINATE, entries: &entries };
    let mut number = |of: ValueName, errors: &mut Vec<Diagnostic>| {
        let values = reader.line(of.word(), errors)?;
        let value = values.first_number()?;
        stated.push(addressed::of_row(address(of), value, values.text(TOGETHER), errors));
        Some(value.si)
    };
    let copper = number(ValueName::Copper, errors).map(Metre);
    let resistivity = number(ValueName::Resistivity, errors);
    let rms = number(ValueName::Roughness, errors);
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
    let varies = stated.iter().any(|value| value.address.value == ValueName::Roughness && value.tolerance.is_some());
    let rough = rms.filter(|rms| *rms > 0.0 || varies).map(|rms| Roughness::Hammerstad { rms: Metre(rms) });
    let (permittivity, at) = permittivity?;
    let plain = Laminate::new(permittivity, at);
    let laminate = Laminate {
        name: name.text.to_owned(),
        span: name.span,
        loss_tangent: loss_tangent.unwrap_or(plain.loss_tangent),
        copper: copper.unwrap_or(plain.copper),
        resistivity: resistivity.unwrap_or(plain.resistivity),
        roughness: balls.or(rough).unwrap_or(plain.roughness),
        ..plain
    };
    Some((Arc::new(laminate), stated))
}

/// A number, the frequency it is known at where one is stated, and the group it deviates in.
fn value_at<'a>(
    entries: &Entries<'_, 'a>,
    word: &str,
    errors: &mut Vec<Diagnostic>,
) -> Option<(Value, Option<Hertz>, Option<Text<'a>>)> {
    let line = entries.line(word)?;
    let Form::ValueAt(kind) = LAMINATE.line(word)?.form else {
        return None;
    };
    let mut arguments = Arguments::new(line, errors);
    let (value, _) = arguments.quantity_that(&[kind], word, true)?;
    let at = match arguments.take_word("at") {
        Some(_) => Some(Hertz(arguments.quantity(&[FREQUENCY], "at")?.0.si)),
        None => None,
    };
    let together = match arguments.take_word(TOGETHER) {
        Some(_) => Some(arguments.name(TOGETHER)?),
        None => None,
    };
    arguments.end();
    Some((value, at, together))
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
