//! The lines that every kind of line may hold: what it meets, what it asks for, how many there are.

use super::name_line;
use crate::diag::{Diagnostic, Span};
use crate::figures::{Range, SIGNED_VOLTAGE, TEMPERATURE};
use crate::model::{Asks, TemperatureRange, VoltageRange};
use crate::sheet::ast::Line;
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{BlockSchema, Form};
use crate::sheet::values::{Value, Values};
use crate::units::{Ampere, Volt};

/// The lines of a block that are of leading quantities and words, by their rows.
pub(crate) struct Reader<'r, 's, 'a> {
    pub(crate) schema: &'static BlockSchema,
    pub(crate) entries: &'r Entries<'s, 'a>,
}

impl<'a> Reader<'_, '_, 'a> {
    /// The values of a line.
    pub(crate) fn values(&self, line: &Line<'a>, errors: &mut Vec<Diagnostic>) -> Option<Values<'a>> {
        let Form::Arguments { slots, named } = self.schema.line(line.word.text)?.form else {
            return None;
        };
        Arguments::new(line, errors).values(slots, named)
    }

    /// The values of the line of `word`, where it is there.
    pub(crate) fn line(&self, word: &str, errors: &mut Vec<Diagnostic>) -> Option<Values<'a>> {
        self.values(self.entries.line(word)?, errors)
    }

    /// The only number of the line of `word`.
    pub(crate) fn number(&self, word: &str, errors: &mut Vec<Diagnostic>) -> Option<Value> {
        self.line(word, errors)?.first_number()
    }

    /// A whole number; `None` where it is not stated or after an error.
    pub(crate) fn whole(&self, word: &str, errors: &mut Vec<Diagnostic>) -> Option<u32> {
        let value = self.number(word, errors)?;
        whole(value, word, errors)
    }

    /// A count, 1 where none is stated; `None` after an error.
    pub(crate) fn count(&self, word: &str, errors: &mut Vec<Diagnostic>) -> Option<u32> {
        if self.entries.line(word).is_none() {
            return Some(1);
        }
        self.whole(word, errors)
    }

    /// A name in quotes.
    pub(crate) fn name(&self, word: &str, errors: &mut Vec<Diagnostic>) -> Option<String> {
        let text = name_line(self.entries.line(word)?, errors)?;
        Some(text.text.to_owned())
    }

    /// `V [to V]`, low to high.
    pub(crate) fn line_voltage(&self, errors: &mut Vec<Diagnostic>) -> Option<VoltageRange> {
        let (low, high) = range(self.entries.line("line_voltage")?, SIGNED_VOLTAGE, errors)?;
        Some(VoltageRange { low: Volt(low), high: Volt(high) })
    }

    /// `T [to T]`, low to high.
    pub(crate) fn temperature(&self, errors: &mut Vec<Diagnostic>) -> Option<TemperatureRange> {
        let (low, high) = range(self.entries.line("temperature")?, TEMPERATURE, errors)?;
        Some(TemperatureRange { low, high })
    }

    /// What the line meets and asks for.
    pub(crate) fn asks(&self, errors: &mut Vec<Diagnostic>) -> Asks {
        let mut asks = Asks::default();
        self.exposure(&mut asks, errors);
        self.needs(&mut asks, errors);
        asks.withstands = self.number("withstands", errors).map(|v| Volt(v.si));
        asks.temperature = self.temperature(errors);
        asks
    }

    fn exposure(&self, asks: &mut Asks, errors: &mut Vec<Diagnostic>) {
        let mut seen = Seen::default();
        for line in self.entries.lines("exposure") {
            let Some(values) = self.values(line, errors) else {
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
                    "contact" => asks.contact = Some(Volt(value.si)),
                    "air" => asks.air = Some(Volt(value.si)),
                    _ => asks.surge = Some(Ampere(value.si)),
                }
            }
        }
    }

    fn needs(&self, asks: &mut Asks, errors: &mut Vec<Diagnostic>) {
        let needs = &mut asks.needs;
        let mut seen = Seen::default();
        for line in self.entries.lines("needs") {
            let Some(values) = self.values(line, errors) else {
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

fn nothing(line: &Line<'_>, what: &str, example: &str) -> Diagnostic {
    let message = format!("expected {what} after `{}`", line.word.text);
    Diagnostic::error("missing-argument", line.word.span, message).help(format!("e.g. `{example}`"))
}

fn whole(value: Value, word: &str, errors: &mut Vec<Diagnostic>) -> Option<u32> {
    if value.si.fract() != 0.0 {
        errors.push(
            Diagnostic::error("out-of-range", value.span, format!("`{word}` is a whole number"))
                .help("write it without decimals"),
        );
        return None;
    }
    Some(value.si as u32)
}

/// `Q [to Q]`, low to high.
pub(crate) fn range(line: &Line<'_>, kind: Range, errors: &mut Vec<Diagnostic>) -> Option<(f64, f64)> {
    let mut arguments = Arguments::new(line, errors);
    let (low, _) = arguments.quantity(&[kind], line.word.text)?;
    let mut high = low;
    if arguments.take_word("to").is_some() {
        high = arguments.quantity(&[kind], "to")?.0;
    }
    arguments.end();
    if high.si < low.si {
        arguments.errors.push(
            Diagnostic::error("range-order", high.span, "a range goes from low to high")
                .also(low.span, "the low end")
                .help("exchange the two"),
        );
        return None;
    }
    Some((low.si, high.si))
}
