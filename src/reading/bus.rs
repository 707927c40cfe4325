//! A slow bus.

use super::slow_path::{self, Slow};
use super::stated_limit::StatedLimit;
use super::{Context, Findings, Reader, addressed, limits};
use crate::diag::Diagnostic;
use crate::figures::LineKind;
use crate::model::{Address, Bus, Charging, Head, Owner, ValueName};
use crate::sheet::values::Value;
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
    let mut value = |of: ValueName| {
        let value = reader.number(of.word(), errors)?;
        let address = Address { owner: Owner::Line, value: of };
        findings.values.push(addressed::of_row(address, value, None, errors));
        Some(value)
    };
    let charges = [ValueName::PullUp, ValueName::Source].map(&mut value);
    let [wiring, inputs] =
        [ValueName::Wiring, ValueName::Inputs].map(|of| value(of).map_or(Farad::ZERO, |v| Farad(v.si)));
    let charging = charging(charges, errors);
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
    Some(Bus { rate, charging, wiring, inputs, nodes: nodes?, fitted, part, limits: limits.unwrap_or_default(), path })
}

fn charging(through: [Option<Value>; 2], errors: &mut Vec<Diagnostic>) -> Option<Charging> {
    match through {
        [Some(pull_up), Some(source)] => {
            errors.push(
                Diagnostic::error("two-alternatives", source.span, "a bus charges through one resistance")
                    .also(pull_up.span, "the other one")
                    .help("keep one of `pull_up` and `source`; state the one that charges the line more slowly"),
            );
            None
        }
        [Some(pull_up), None] => Some(Charging::PullUp(Ohm(pull_up.si))),
        [None, source] => source.map(|r| Charging::Source(Ohm(r.si))),
    }
}
