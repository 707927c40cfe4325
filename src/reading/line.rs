//! A line of any kind from its block.

use super::{Context, Findings, Reader, bus, feed, head, lane, rail};
use crate::diag::Diagnostic;
use crate::figures::LineKind;
use crate::model::{Head, Kind, Line};
use crate::sheet::ast::{Block, Text};
use crate::sheet::entries::Entries;
use crate::sheet::schema::{BUS, FEED, LANE, RAIL};

/// A line, and the errors found; the line is there where it can be computed.
pub(crate) fn lower(
    kind: LineKind,
    block: &Block<'_>,
    name: Text<'_>,
    context: &Context<'_, '_>,
) -> (Option<Line>, Vec<Diagnostic>) {
    let schema = match kind {
        LineKind::Lane => &LANE,
        LineKind::Feed => &FEED,
        LineKind::Bus => &BUS,
        LineKind::Rail => &RAIL,
    };
    let mut findings = Findings::default();
    let entries = Entries::of(schema, &block.items, &mut findings.errors);
    let reader = Reader { schema, entries: &entries };
    let head = head::lower(&reader, name, &mut findings.errors);
    let kind = match kind {
        LineKind::Lane => lane::lower(&reader, &head, context, &mut findings).map(Kind::Lane),
        LineKind::Feed => feed::lower(&reader, &head, context, &mut findings).map(Kind::Feed),
        LineKind::Bus => bus::lower(&reader, &head, context, &mut findings).map(Kind::Bus),
        LineKind::Rail => Some(Kind::Rail(rail::lower(&reader, &head, context, &mut findings))),
    };
    let Findings { errors, defaults, warnings } = findings;
    let head = Head { defaults, warnings, ..head };
    (kind.filter(|_| errors.is_empty()).map(|kind| Line { head, kind }), errors)
}
