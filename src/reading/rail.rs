//! A power rail.

use super::named_part::named_part;
use super::{Context, Findings, Reader, part};
use crate::model::{Head, Rail};
use crate::units::Ampere;

/// A rail.
pub(crate) fn lower(
    reader: &Reader<'_, '_, '_>,
    head: &Head,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Rail {
    if !reader.entries.may_hold("line_voltage") {
        findings.warn(
            "no-line-voltage",
            head.span,
            format!("rail \"{}\" states no line_voltage: the stand-off of its part is not checked", head.name),
        );
    }
    let part = named_part(reader.entries, head.voltage, context, findings);
    let part = part.filter(|(part, name)| part::on_single_line(part, *name, findings).is_some());
    let current = reader.number("current", &mut findings.errors).map(|v| Ampere(v.si));
    Rail { current, part: part.map(|(part, _)| part), path: None }
}
