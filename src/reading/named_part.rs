//! Parts by their names.

use std::sync::Arc;

use super::{Context, Findings, name_line, part, unknown_name};
use crate::model::{Part, VoltageRange};
use crate::sheet::ast::Text;
use crate::sheet::entries::Entries;

/// The part a line names, where its rails reach as high as the line.
pub(crate) fn named_part<'a>(
    entries: &Entries<'_, 'a>,
    line_voltage: Option<VoltageRange>,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<(Arc<Part>, Text<'a>)> {
    let name = name_line(entries.line("part")?, &mut findings.errors)?;
    let part = find(name, context, findings)?;
    part::within_rails(&part, name, line_voltage, findings)?;
    Some((part, name))
}

/// The part of this name; `None` after an error.
pub(crate) fn find(name: Text<'_>, context: &Context<'_, '_>, findings: &mut Findings) -> Option<Arc<Part>> {
    if let Some(part) = context.parts.get(name.text) {
        return Some(Arc::clone(part));
    }
    if !context.is_excused("part", name.text) {
        let places = context.parts.iter().map(|(name, part)| (*name, part.span));
        findings.errors.push(unknown_name("unknown-part", "part", name, places));
    }
    None
}
