//! A power rail.

use super::slow_path::{self, Slow};
use super::{Context, Findings, Reader};
use crate::figures::LineKind;
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
    let Slow { part, path, .. } = slow_path::lower(reader, LineKind::Rail, head, context, findings);
    let current = reader.number("current", &mut findings.errors).map(|v| Ampere(v.si));
    Rail { current, part, path }
}
