//! A line of any kind from its block.

use super::{Context, Findings, Reader, bus, feed, head, lane, rail};
use crate::diag::{Diagnostic, Span};
use crate::figures::LineKind;
use crate::model::{Flaw, Head, Kind, Line, Path, Place};
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
    let Findings { mut errors, defaults, warnings } = findings;
    let head = Head { defaults, warnings, ..head };
    let Some(kind) = kind.filter(|_| errors.is_empty()) else {
        return (None, errors);
    };
    let spans = Spans::of(&head, &kind);
    match Line::new(head, kind) {
        Ok(line) => (Some(line), errors),
        Err(flaws) => {
            // That a block has no name is said where it is read.
            let flaws = flaws.list.into_iter().filter(|flaw| flaw.code != "missing-name");
            errors.extend(flaws.map(|flaw| spans.error(flaw, &entries)));
            (None, errors)
        }
    }
}

/// Where a sheet states a line, its limits and the elements of its path.
struct Spans {
    line: Span,
    limits: Vec<Option<Span>>,
    elements: Vec<Span>,
}

impl Spans {
    fn of(head: &Head, kind: &Kind) -> Spans {
        let elements = |path: &Path| path.elements.iter().map(|element| element.span).collect();
        let (limits, elements) = match kind {
            Kind::Lane(lane) => (lane.limits.iter().map(|limit| limit.span).collect(), elements(&lane.path)),
            Kind::Feed(feed) => (feed.limits.iter().map(|limit| limit.span).collect(), elements(&feed.path)),
            Kind::Bus(bus) => {
                (bus.limits.iter().map(|limit| limit.span).collect(), bus.path.as_ref().map_or(Vec::new(), elements))
            }
            Kind::Rail(rail) => (Vec::new(), rail.path.as_ref().map_or(Vec::new(), elements)),
        };
        Spans { line: head.span, limits, elements }
    }

    fn error(&self, flaw: Flaw, entries: &Entries<'_, '_>) -> Diagnostic {
        let span = match flaw.at {
            Place::Field(word) => entries.line(word).map(|row| row.span),
            Place::Limit(index) => self.limits.get(index).copied().flatten(),
            Place::Element(index) | Place::Value(index, _) => self.elements.get(index).copied(),
            _ => None,
        };
        let help = flaw.help;
        Diagnostic { help, ..Diagnostic::error(flaw.code, span.unwrap_or(self.line), flaw.message) }
    }
}
