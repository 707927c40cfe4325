//! A line of any kind from its block.

use super::{Context, Findings, Reader, bus, feed, head, lane, rail};
use crate::diag::{Diagnostic, Span};
use crate::figures::{LENGTH, LineKind, Range};
use crate::model::{Address, AddressedValue, Flaw, Head, Kind, Line, Owner, Path, Place, Stated, ValueName};
use crate::resolve::{least_place, place_at_protector};
use crate::sheet::ast::{Block, Text};
use crate::sheet::entries::Entries;
use crate::sheet::schema::{BUS, FEED, LANE, RAIL};
use crate::units::Hertz;

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
    let Some(kind) = kind.filter(|_| findings.errors.is_empty()) else {
        return (None, findings.errors);
    };
    let head = if context.addresses { with_values(head, &kind, context, &mut findings) } else { head };
    let Findings { mut errors, defaults, warnings, .. } = findings;
    let head = Head { defaults, warnings, ..head };
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

/// The head with the values of the line, and of the parts and laminates of its path, in the order of the sheet.
fn with_values(head: Head, kind: &Kind, context: &Context<'_, '_>, findings: &mut Findings) -> Head {
    let (path, own) = match kind {
        Kind::Lane(lane) => (Some(&lane.path), None),
        Kind::Feed(feed) => (Some(&feed.path), None),
        Kind::Bus(bus) => (bus.path.as_ref(), bus.part.as_ref()),
        Kind::Rail(rail) => (rail.path.as_ref(), rail.part.as_ref()),
    };
    let mut values = std::mem::take(&mut findings.values);
    if let (Some(path), LineKind::Lane | LineKind::Feed) = (path, kind.line_kind()) {
        values.extend(place(path));
    }
    let stated = || path.into_iter().flat_map(|path| path.elements.iter().map(|place| &place.stated));
    let parts = own.into_iter().chain(stated().filter_map(Stated::part)).map(|part| ("part", part.name.as_str()));
    let laminates = stated().filter_map(Stated::laminate).map(|laminate| ("laminate", laminate.name.as_str()));
    let mut groups = vec![(head.span, values)];
    for name in parts.chain(laminates) {
        let Some((span, values)) = context.values.get(&name) else { continue };
        if groups.iter().all(|(known, _)| known != span) {
            groups.push((*span, values.clone()));
        }
    }
    groups.sort_by_key(|(span, _)| *span);
    let values = groups.into_iter().flat_map(|(_, values)| values).collect();
    let resolved_at = context.nyquist.get(head.name.as_str()).copied().map(Hertz);
    let head = Head { values, resolved_at, distribution: context.distribution.unwrap_or_default(), ..head };
    if head.has_tolerance() && context.distribution.is_none() {
        let text = "no distribution of the tolerances stated: uniform between their bounds";
        findings.default_used("default-tolerances", head.span, text);
    }
    head
}

/// Where along its two traces the protector stands.
fn place(path: &Path) -> Option<AddressedValue> {
    let (outer, sum) = place_at_protector(path)?;
    let least = least_place(path);
    Some(AddressedValue {
        address: Address { owner: Owner::Line, value: ValueName::Place },
        nominal: Some(outer.0),
        range: Range { low: least.0, high: (sum - least).0, ..LENGTH },
        tolerance: None,
        span: path.elements.get(path.protector_index())?.span,
    })
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
