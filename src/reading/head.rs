//! The head of a line of any kind: name, port, count, voltage, what it meets and asks for.

use super::Reader;
use super::reader::whole;
use crate::diag::{Diagnostic, Span};
use crate::model::{Demands, Head};
use crate::sheet::ast::{Row, Text};
use crate::units::{Ampere, Ohm, Volt};

/// The head, as yet without defaults and warnings. A count with an error is 1: the line is refused anyway.
pub(crate) fn lower(reader: &Reader<'_, '_, '_>, name: Text<'_>, errors: &mut Vec<Diagnostic>) -> Head {
    Head {
        name: name.text.to_owned(),
        span: name.span,
        count: reader.count("count", errors).unwrap_or(1),
        voltage: reader.voltages("line_voltage", errors),
        pair_voltage: reader.voltages("pair_voltage", errors),
        port: reader.name("port", errors),
        demands: demands(reader, errors),
        defaults: Vec::new(),
        warnings: Vec::new(),
        ..Head::new(String::new())
    }
}

/// What the line meets and asks for.
fn demands(reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) -> Demands {
    let mut demands = Demands::default();
    exposure(reader, &mut demands, errors);
    needs(reader, &mut demands, errors);
    if let Some(values) = reader.line("withstands", errors) {
        demands.withstands = values.number("voltage").map(|v| Volt(v.si));
        demands.withstands_peak = values.number("peak").map(|v| Volt(v.si));
        demands.withstands_surge = values.number("surge").map(|v| Volt(v.si));
    }
    demands.temperature = reader.temperature(errors);
    demands
}

fn exposure(reader: &Reader<'_, '_, '_>, demands: &mut Demands, errors: &mut Vec<Diagnostic>) {
    let mut seen = Seen::default();
    for line in reader.entries.lines("exposure") {
        let Some(values) = reader.values(line, errors) else {
            continue;
        };
        if values.words().is_empty() {
            errors.push(nothing(line, "`contact`, `air` or `surge`", "exposure contact 8 kV"));
        }
        for word in values.words() {
            if !seen.first(word.text, word.span, errors) {
                continue;
            }
            let Some(value) = values.number(word.text) else {
                continue;
            };
            match word.text {
                "contact" => demands.contact = Some(Volt(value.si)),
                "air" => demands.air = Some(Volt(value.si)),
                _ => {
                    demands.surge = Some(Ampere(value.si));
                    demands.surge_through = values.number("through").map(|v| Ohm(v.si));
                }
            }
        }
    }
}

fn needs(reader: &Reader<'_, '_, '_>, demands: &mut Demands, errors: &mut Vec<Diagnostic>) {
    let needs = &mut demands.needs;
    let mut seen = Seen::default();
    for line in reader.entries.lines("needs") {
        let Some(values) = reader.values(line, errors) else {
            continue;
        };
        if values.words().is_empty() {
            errors.push(nothing(line, "what is needed", "needs qualified \"vehicle\""));
        }
        for word in values.words() {
            let text = values.text(word.text).map(|text| text.text.to_owned());
            if word.text == "qualified" {
                needs.qualified.extend(text);
                continue;
            }
            if !seen.first(word.text, word.span, errors) {
                continue;
            }
            let number = values.number(word.text);
            match word.text {
                "package" => needs.package = text,
                "channels" => needs.channels = number.and_then(|v| whole(v, "channels", errors)),
                "leakage" => needs.leakage = number.map(|v| Ampere(v.si)),
                _ => needs.bidirectional = true,
            }
        }
    }
}

/// Words that stand once in a block, though their lines repeat.
#[derive(Default)]
struct Seen<'a>(Vec<(&'a str, Span)>);

impl<'a> Seen<'a> {
    fn first(&mut self, word: &'a str, span: Span, errors: &mut Vec<Diagnostic>) -> bool {
        if let Some((_, earlier)) = self.0.iter().find(|(w, _)| *w == word) {
            errors.push(
                Diagnostic::error("duplicate-line", span, format!("`{word}` is given twice in this block"))
                    .also(*earlier, "given here first")
                    .help("delete one of them"),
            );
            return false;
        }
        self.0.push((word, span));
        true
    }
}

fn nothing(line: &Row<'_>, what: &str, example: &str) -> Diagnostic {
    let message = format!("expected {what} after `{}`", line.word.text);
    Diagnostic::error("missing-argument", line.word.span, message).help(format!("e.g. `{example}`"))
}
