//! The elements of a path, turned to run from the outside in.

use super::ends::{ctle, feedback, taps};
use super::{Context, Findings, line, protector, via};
use crate::diag::{Diagnostic, Span};
use crate::model::{Driver, Element, Immittance, Path, PathElement, Receiver, VoltageRange};
use crate::sheet::ast::{Block, Item, Text};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, PATH};
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Ohm, Second, Volt};

/// What an element needs to know of its lane.
pub(super) struct Surroundings<'c, 's, 'a> {
    pub(super) context: &'c Context<'s, 'a>,
    pub(super) nyquist: f64,
    pub(super) differential: bool,
    pub(super) line_voltage: Option<VoltageRange>,
}

/// Permittivity where none is stated.
pub(super) const DEFAULT_PERMITTIVITY: f64 = 4.0;

/// A path; `None` where it cannot be computed.
pub(super) fn lower(
    block: &Block<'_>,
    lane: Text<'_>,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Path> {
    let outward = header(block, findings);
    let entries = Entries::of(&PATH, &block.items, &mut findings.errors);
    let mut elements = Vec::with_capacity(entries.known.len());
    let mut complete = true;
    for (index, entry) in entries.known.iter().enumerate() {
        let (Item::Line(line), Form::Arguments { slots, named }) = (entry.item, entry.row.form) else {
            continue;
        };
        let values = Arguments::new(line, &mut findings.errors).values(slots, named);
        let element = values.and_then(|values| element(entry.row.word, &values, line.span, surroundings, findings));
        match element {
            Some(element) => elements.push(PathElement {
                element,
                number: index + 1,
                span: line.span,
            }),
            None => complete = false,
        }
    }
    check_order(&entries, block, lane, &mut findings.errors);
    if !complete || !findings.errors.is_empty() {
        return None;
    }
    if outward {
        elements.reverse();
    }
    let mut path = Path { elements };
    protector::settle_stub(&mut path, findings);
    Some(path)
}

/// Whether the path is listed from the chip out.
fn header(block: &Block<'_>, findings: &mut Findings) -> bool {
    if let Some(name) = block.name.filter(|_| !block.broken) {
        findings.errors.push(
            Diagnostic::error("block-header", name.span, "a path has no name")
                .help("write `path {` or `path outward {`"),
        );
    }
    match block.tag {
        Some(tag) if tag.text == "outward" => true,
        Some(tag) => {
            let message = format!("unknown word `{}` after `path`", tag.text);
            findings
                .errors
                .push(Diagnostic::error("block-header", tag.span, message).help("write `path {` or `path outward {`"));
            false
        }
        None => false,
    }
}

/// Driver and receiver at the ends, one protector between, at most one plane.
fn check_order(entries: &Entries<'_, '_>, block: &Block<'_>, lane: Text<'_>, errors: &mut Vec<Diagnostic>) {
    let words: Vec<(&str, Span)> = entries.known.iter().map(|e| (e.row.word, e.item.word().span)).collect();
    for (word, code, message) in [
        ("driver", "path-ends", "a path has one driver"),
        ("receiver", "path-ends", "a path has one receiver"),
        ("protector", "two-protectors", "a path has one protector"),
        ("plane", "two-planes", "a path has one port plane"),
    ] {
        let mut places = words.iter().filter(|(w, _)| *w == word).map(|(_, span)| *span);
        let Some(first) = places.next() else {
            if word != "plane" && !entries.may_hold(word) {
                let code = if word == "protector" { "no-protector" } else { code };
                let message = format!("the path of lane \"{}\" has no {word}", lane.text);
                let help = match word {
                    "protector" => "add `protector pad 0.06 pF` where the part sits",
                    "driver" => "a path has a driver at one end, e.g. `driver 90 ohm pad 0.3 pF`",
                    _ => "a path has a receiver at one end, e.g. `receiver 90 ohm pad 0.3 pF`",
                };
                errors.push(Diagnostic::error(code, block.span, message).help(help));
            }
            continue;
        };
        for second in places {
            errors.push(
                Diagnostic::error(code, second, message)
                    .also(first, "the first one")
                    .help("delete one of them"),
            );
        }
        let position = words.iter().position(|(w, _)| *w == word).unwrap_or(0);
        let at_end = position == 0 || position + 1 == words.len();
        if matches!(word, "driver" | "receiver") && !at_end {
            errors.push(
                Diagnostic::error("path-ends", first, format!("the {word} stands between other elements"))
                    .help("driver and receiver are the first and the last line of a path, either way round"),
            );
        }
    }
}

fn element(
    word: &'static str,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Element> {
    let pad = Farad(values.or_zero("pad"));
    let impedance = values.number("impedance").map(|v| Ohm(v.si));
    let capacitance = values.number("capacitance").map(|v| Farad(v.si));
    let inductance = values.number("inductance").map(|v| Henry(v.si));
    Some(match word {
        "driver" => Element::Driver(Driver {
            impedance: impedance?,
            pad,
            rise: values.number("rise").map(|v| Second(v.si)),
            swing: values.number("swing").map(|v| Volt(v.si)),
            taps: taps(values, findings)?,
        }),
        "receiver" => Element::Receiver(Receiver {
            impedance,
            pad,
            ctle: ctle(values, findings)?,
            dfe: feedback(values, findings)?,
            needs: values.number("needs").map(|v| Volt(v.si)),
        }),
        "cable" | "trace" => Element::Line(line::lower(word, values, span, surroundings, findings)?),
        "connector" => Element::Connector {
            capacitance: capacitance?,
            inductance,
        },
        "via" => Element::Via(via::lower(values, span, surroundings, findings)?),
        "series" => Element::Series(immittance(values)?),
        "shunt" => Element::Shunt(immittance(values)?),
        "plane" => Element::Plane,
        _ => Element::Protector(protector::lower(values, span, surroundings, findings)?),
    })
}

fn immittance(values: &Values<'_>) -> Option<Immittance> {
    let resistance = values.number("resistance").map(|v| Immittance::Resistance(Ohm(v.si)));
    let inductance = values.number("inductance").map(|v| Immittance::Inductance(Henry(v.si)));
    let capacitance = values
        .number("capacitance")
        .map(|v| Immittance::Capacitance(Farad(v.si)));
    resistance.or(inductance).or(capacitance)
}
