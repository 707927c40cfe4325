//! A slow bus.

use super::slow_path::{self, Slow};
use super::stated_limit::StatedLimit;
use super::{Context, Findings, Reader, addressed, limits};
use crate::diag::Diagnostic;
use crate::figures::LineKind;
use crate::model::{Address, Bus, Charging, Head, Owner, ValueName};
use crate::units::{Farad, Ohm};

/// A bus; `None` after an error that leaves it without a use.
pub(crate) fn lower(
    reader: &Reader<'_, '_, '_>,
    head: &Head,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<Bus> {
    let entries = reader.entries;
    let errors = &mut findings.errors;
    let nodes = reader.count("nodes", errors);
    let rate = reader.number("rate", errors).map(|v| v.si);
    let charging = charging(reader, errors);
    let mut farad = |word: &str| reader.number(word, errors).map(|v| Farad(v.si));
    let (wiring, inputs) = (farad("wiring"), farad("inputs"));
    for of in [ValueName::PullUp, ValueName::Source, ValueName::Wiring, ValueName::Inputs] {
        // Its errors are said above.
        let value = reader.number(of.word(), &mut Vec::new());
        let address = Address { owner: Owner::Line, value: of };
        findings.values.extend(value.map(|value| addressed::of_row(address, value, None, errors)));
    }
    if !entries.may_hold("wiring") && !entries.may_hold("inputs") {
        findings.default_used("default-capacitance", head.span, "neither wiring nor inputs are stated: 0 F of both");
    }
    let limits = limits::lower_own(entries, LineKind::Bus, StatedLimit::of_bus, context, findings);
    if limits.is_none() {
        findings.warn(
            "no-limits",
            head.span,
            format!("bus \"{}\" states no limits: nothing bounds its capacitance", head.name),
        );
    }
    let Slow { part, fitted, path } = slow_path::lower(reader, LineKind::Bus, head, context, findings);
    Some(Bus {
        rate,
        charging,
        wiring: wiring.unwrap_or_default(),
        inputs: inputs.unwrap_or_default(),
        nodes: nodes?,
        fitted,
        part,
        limits: limits.unwrap_or_default(),
        path,
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
