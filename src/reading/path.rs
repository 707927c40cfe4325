//! The elements of a path, turned to run from the outside in.

use super::addressed::of_element;
use super::chip::chip;
use super::ends::{ctle, feedback, taps};
use super::{Findings, Surroundings, antenna, corners, protector, stated, transmission_line, via};
use crate::diag::{Diagnostic, Span};
use crate::figures::LineKind;
use crate::model::{Driver, Element, Immittance, Path, PathElement, PathWords, Pin, Radio, Receiver, Stated};
use crate::resolve::settle_stubs;
use crate::sheet::ast::{Block, Item, Word};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, PATH};
use crate::sheet::values::Values;
use crate::units::{Farad, Henry, Ohm, Second, Volt};

/// A path; `None` where it cannot be computed.
pub(crate) fn lower(
    block: &Block<'_>,
    name: &str,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Path> {
    let outward = header(block, findings);
    let entries = Entries::of(&PATH, &block.items, &mut findings.errors);
    let mut elements = Vec::with_capacity(entries.known.len());
    let mut complete = entries.is_whole();
    let kind = surroundings.kind;
    let mut neck = None;
    for (index, entry) in entries.known.iter().enumerate() {
        let (Item::Row(line), Form::Arguments { slots, named }) = (entry.item, entry.row.form) else {
            continue;
        };
        if PathWords::of(kind).foreign.contains(&entry.row.word) {
            findings.errors.push(misplaced(line.word, kind));
            complete = false;
            continue;
        }
        let values = Arguments::new(line, &mut findings.errors).values(slots, named);
        if entry.row.word == "protector" {
            neck = values.as_ref().and_then(neck_span);
        }
        let element = values
            .and_then(|values| Some((element(entry.row.word, &values, line.span, surroundings, findings)?, values)));
        match element {
            Some(((stated, element), values)) => {
                let place = PathElement { element, stated, number: index + 1, span: line.span };
                if surroundings.context.addresses {
                    let own = of_element(place.number, entry.row.word, &values, line.span, &mut findings.errors);
                    corners::check(&place, &own, surroundings, findings);
                    findings.values.extend(own);
                }
                elements.push(place);
            }
            None => complete = false,
        }
    }
    let ends = Ends { kind, name, span: block.span, outward };
    check_order(&entries, &ends, &mut findings.errors);
    if !complete || !findings.errors.is_empty() {
        return None;
    }
    if outward {
        elements.reverse();
    }
    let mut path = Path { elements };
    for (index, remark) in settle_stubs(&mut path) {
        let span = path.elements.get(index).map_or(block.span, |place| place.span);
        findings.remark(&remark, span);
    }
    if let Some(fault) = path.neck_fault() {
        let mut error = Diagnostic::error(fault.code, neck.unwrap_or(block.span), fault.message).help(fault.help);
        if let Some(beside) = fault.beside.and_then(|index| path.elements.get(index)) {
            error = error.also(beside.span, "what is there");
        }
        findings.errors.push(error);
        return None;
    }
    findings.errors.extend(corners::check_neck(&path, &findings.values, surroundings));
    Some(path)
}

/// The word `neck` with its values.
fn neck_span(values: &Values<'_>) -> Option<Span> {
    let [impedance, length] = ["neck.impedance", "neck.length"].map(|name| values.number(name).map(|value| value.span));
    Some(values.word("neck")?.span.to(impedance.max(length)?))
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

fn misplaced(word: Word<'_>, kind: LineKind) -> Diagnostic {
    let message = format!("`{}` does not belong in the path of a {}", word.text, kind.word());
    Diagnostic::error("misplaced-word", word.span, message).help(match kind {
        LineKind::Feed => "the path of a feed begins with `antenna` and ends with `radio`",
        LineKind::Lane if word.text == "pin" => "the inner end of a lane is its `driver` or its `receiver`",
        LineKind::Lane => "the path of a lane has a `driver` and a `receiver` at its ends; antennas belong to a `feed`",
        LineKind::Bus | LineKind::Rail if word.text == "cable" => {
            "the path of a bus or a rail begins at its connector: that is what is struck"
        }
        LineKind::Bus | LineKind::Rail => "the path of a bus or a rail has a `pin` as its inner end, and no other end",
    })
}

/// Which path is checked.
struct Ends<'n> {
    kind: LineKind,
    name: &'n str,
    span: Span,
    outward: bool,
}

/// The two ends in their place, one protector between, at most one plane.
fn check_order(entries: &Entries<'_, '_>, path: &Ends<'_>, errors: &mut Vec<Diagnostic>) {
    let words: Vec<(&str, Span)> = entries.known.iter().map(|e| (e.row.word, e.item.word().span)).collect();
    let own = PathWords::of(path.kind);
    let strangers = words.iter().any(|(word, _)| *word != "cable" && own.foreign.contains(word));
    let ends = own.ends.iter().map(|end| (*end, "path-ends"));
    for (word, code) in ends.chain([("protector", "two-protectors"), ("plane", "two-planes")]) {
        let is_end = code == "path-ends";
        let mut places = words.iter().filter(|(w, _)| *w == word).map(|(_, span)| *span);
        let Some(first) = places.next() else {
            // An end of the wrong kind is reported already.
            if word != "plane" && !entries.may_hold(word) && !(is_end && strangers) {
                let code = if is_end { code } else { "no-protector" };
                let message = format!("the path of {} \"{}\" has no {word}", path.kind.word(), path.name);
                let help = match word {
                    "protector" => "add `protector pad 0.06 pF` where the part sits",
                    "driver" => "a path has a driver at one end, e.g. `driver 90 ohm pad 0.3 pF`",
                    "antenna" => "a feed begins with its antenna, e.g. `antenna parallel 1575.42 MHz 50 ohm q 12`",
                    "pin" => "the path of a bus or a rail ends with its pin, e.g. `pin pad 2 pF`",
                    "radio" => "a feed ends with its radio, e.g. `radio 50 ohm`",
                    _ => "a path has a receiver at one end, e.g. `receiver 90 ohm pad 0.3 pF`",
                };
                errors.push(Diagnostic::error(code, path.span, message).help(help));
            }
            continue;
        };
        let name = if word == "plane" { "port plane" } else { word };
        let mut several = false;
        for second in places {
            several = true;
            errors.push(
                Diagnostic::error(code, second, format!("a path has one {name}"))
                    .also(first, "the first one")
                    .help("delete one of them"),
            );
        }
        let position = words.iter().position(|(w, _)| *w == word).unwrap_or(0);
        let (begins, ends) = (position == 0, position + 1 == words.len());
        let at_its_end = |is_outer: bool| if is_outer == path.outward { ends } else { begins };
        let (in_place, help) = match path.kind {
            LineKind::Lane => {
                (begins || ends, "driver and receiver are the first and the last line of a path, either way round")
            }
            LineKind::Feed => (
                at_its_end(word == "antenna"),
                "`path` goes from the antenna to the radio, `path outward` from the radio out",
            ),
            LineKind::Bus | LineKind::Rail => {
                (at_its_end(false), "`path` goes from the connector to the pin, `path outward` from the pin out")
            }
        };
        if is_end && !in_place && !several {
            let message = if begins || ends {
                format!("the {word} stands at the wrong end")
            } else {
                format!("the {word} stands between other elements")
            };
            errors.push(Diagnostic::error("path-ends", first, message).help(help));
            if begins || ends {
                // The other end is then wrong by the same cause.
                break;
            }
        }
    }
}

/// An element, with what is stated of it; `None` after an error.
fn element(
    word: &'static str,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<(Stated, Element)> {
    let stated = match word {
        "cable" | "trace" => Stated::Line(transmission_line::lower(word, values, span, surroundings, findings)?),
        "protector" => Stated::Protector(protector::lower(values, surroundings, findings)?),
        "guard" => Stated::Guard(protector::guard(values, span, surroundings, findings)?),
        "via" => Stated::Via(via::lower(values, span, surroundings, findings)?),
        _ => return Some((Stated::AsIs, as_stated(word, values, span, surroundings, findings)?)),
    };
    stated::made(stated, values, span, surroundings, findings)
}

/// An element whose values are the stated ones.
fn as_stated(
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
            chip: chip(values, findings)?,
        }),
        "receiver" => {
            let (dfe, dfe_limit) = feedback(values, findings)?;
            Element::Receiver(Receiver {
                impedance,
                pad,
                ctle: ctle(values, findings)?,
                dfe,
                dfe_limit,
                needs: values.number("needs").map(|v| Volt(v.si)),
                chip: chip(values, findings)?,
            })
        }
        "antenna" => Element::Antenna(antenna::lower(values, span, surroundings, findings)?),
        "pin" => Element::Pin(Pin { pad, chip: chip(values, findings)? }),
        "radio" => Element::Radio(Radio { impedance: impedance?, pad, chip: chip(values, findings)? }),
        "connector" => Element::Connector { capacitance: capacitance?, inductance },
        "series" => Element::Series(immittance(values)?),
        "shunt" => Element::Shunt(immittance(values)?),
        _ => Element::Plane,
    })
}

fn immittance(values: &Values<'_>) -> Option<Immittance> {
    let resistance = values.number("resistance").map(|v| Immittance::Resistance(Ohm(v.si)));
    let inductance = values.number("inductance").map(|v| Immittance::Inductance(Henry(v.si)));
    let capacitance = values.number("capacitance").map(|v| Immittance::Capacitance(Farad(v.si)));
    resistance.or(inductance).or(capacitance)
}
