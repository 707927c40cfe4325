//! Slow buses and power rails.

use std::sync::Arc;

use super::asks::Reader;
use super::limits::StatedLimit;
use super::{Context, Findings, limits, name_line, part, protector};
use crate::diag::Diagnostic;
use crate::figures::LineKind;
use crate::model::{Bounds, Bus, Charging, Part, Rail, VoltageRange};
use crate::sheet::ast::{Block, Text};
use crate::sheet::entries::Entries;
use crate::sheet::schema::{BUS, RAIL};
use crate::units::{Ampere, Farad, Ohm};

/// A bus, and the errors found; the bus is there where it can be computed.
pub(crate) fn bus(block: &Block<'_>, name: Text<'_>, context: &Context<'_, '_>) -> (Option<Bus>, Vec<Diagnostic>) {
    let mut findings = Findings::default();
    let bus = assemble_bus(block, name, context, &mut findings);
    (bus.filter(|_| findings.errors.is_empty()), findings.errors)
}

fn assemble_bus(block: &Block<'_>, name: Text<'_>, context: &Context<'_, '_>, findings: &mut Findings) -> Option<Bus> {
    let entries = Entries::of(&BUS, &block.items, &mut findings.errors);
    let reader = Reader { schema: &BUS, entries: &entries };
    let errors = &mut findings.errors;
    let (count, nodes) = (reader.count("count", errors), reader.count("nodes", errors));
    let charging = charging(&reader, errors);
    let line_voltage = reader.line_voltage(errors);
    let mut farad = |word: &str| reader.number(word, errors).map(|v| Farad(v.si));
    let (wiring, inputs) = (farad("wiring"), farad("inputs"));
    if !entries.may_hold("wiring") && !entries.may_hold("inputs") {
        findings.default_used("default-capacitance", name.span, "neither wiring nor inputs are stated: 0 F of both");
    }
    let errors = &mut findings.errors;
    let limits = limits::lower_own(&entries, LineKind::Bus, context, errors);
    let limits = limits.map(|stated| stated.into_iter().filter_map(StatedLimit::of_bus).collect::<Vec<_>>());
    for limit in limits.iter().flatten() {
        let charged = limit.of.needs_resistance();
        let stated = charging.is_some() || entries.may_hold("pull_up") || entries.may_hold("source");
        if charged && !stated {
            let message = format!("`{}` needs the resistance that the bus charges through", limit.of.figure().word());
            errors.push(
                Diagnostic::error("no-resistance", limit.span.unwrap_or(name.span), message)
                    .help("add e.g. `pull_up 2.2 kohm`, or `source 100 ohm`"),
            );
        }
    }
    if limits.is_none() {
        findings.warn(
            "no-limits",
            name.span,
            format!("bus \"{}\" states no limits: nothing bounds its capacitance", name.text),
        );
    }
    let part = named_part(&entries, line_voltage, context, findings);
    let fitted = part.as_ref().and_then(|(part, name)| {
        let on_line = part::on_line(part, *name, false, line_voltage, findings)?;
        Some(on_line.capacitance)
    });
    let errors = &mut findings.errors;
    Some(Bus {
        name: name.text.to_owned(),
        span: name.span,
        port: reader.name("port", errors),
        count: count?,
        rate: reader.number("rate", errors).map(|v| v.si),
        charging,
        line_voltage,
        wiring: wiring.unwrap_or_default(),
        inputs: inputs.unwrap_or_default(),
        nodes: nodes?,
        fitted,
        part: part.map(|(part, _)| part),
        asks: reader.asks(errors),
        limits: limits.unwrap_or_default(),
        defaults: std::mem::take(&mut findings.defaults),
        warnings: std::mem::take(&mut findings.warnings),
    })
}

fn charging(reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) -> Option<Charging> {
    let pull_up = reader.number("pull_up", errors);
    let source = reader.number("source", errors);
    match (pull_up, source) {
        (Some(pull_up), Some(source)) => {
            errors.push(
                Diagnostic::error("two-alternatives", source.span, "a bus charges through one resistance")
                    .also(pull_up.span, "the other one")
                    .help("keep one of `pull_up` and `source`; state the one that charges the line more slowly"),
            );
            None
        }
        (Some(pull_up), None) => Some(Charging::PullUp(Ohm(pull_up.si))),
        (None, source) => source.map(|r| Charging::Source(Ohm(r.si))),
    }
}

/// The part a line names, where its rails reach as high as the line.
fn named_part<'a>(
    entries: &Entries<'_, 'a>,
    line_voltage: Option<VoltageRange>,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<(Arc<Part>, Text<'a>)> {
    let name = name_line(entries.line("part")?, &mut findings.errors)?;
    let part = protector::find(name, context, findings)?;
    part::within_rails(&part, name, line_voltage, findings)?;
    Some((part, name))
}

/// A rail, and the errors found.
pub(crate) fn rail(block: &Block<'_>, name: Text<'_>, context: &Context<'_, '_>) -> (Option<Rail>, Vec<Diagnostic>) {
    let mut findings = Findings::default();
    let rail = assemble_rail(block, name, context, &mut findings);
    (rail.filter(|_| findings.errors.is_empty()), findings.errors)
}

fn assemble_rail(
    block: &Block<'_>,
    name: Text<'_>,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<Rail> {
    let entries = Entries::of(&RAIL, &block.items, &mut findings.errors);
    let reader = Reader { schema: &RAIL, entries: &entries };
    let line_voltage = reader.line_voltage(&mut findings.errors);
    if !entries.may_hold("line_voltage") {
        findings.warn(
            "no-line-voltage",
            name.span,
            format!("rail \"{}\" states no line_voltage: the stand-off of its part is not checked", name.text),
        );
    }
    let part = named_part(&entries, line_voltage, context, findings);
    let errors = &mut findings.errors;
    Some(Rail {
        name: name.text.to_owned(),
        span: name.span,
        port: reader.name("port", errors),
        count: reader.count("count", errors)?,
        line_voltage,
        current: reader.number("current", errors).map(|v| Ampere(v.si)),
        part: part.map(|(part, _)| part),
        asks: reader.asks(errors),
        defaults: std::mem::take(&mut findings.defaults),
        warnings: std::mem::take(&mut findings.warnings),
    })
}
