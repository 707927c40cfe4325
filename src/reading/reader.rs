//! The lines of a block that are of leading quantities and words.

use super::name_line;
use crate::diag::Diagnostic;
use crate::figures::{Range, SIGNED_VOLTAGE, TEMPERATURE};
use crate::model::{TemperatureRange, VoltageRange};
use crate::sheet::ast::Row;
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{BlockSchema, Form};
use crate::sheet::values::{Value, Values};
use crate::units::Volt;

/// The lines of a block that are of leading quantities and words, by their rows.
pub(crate) struct Reader<'r, 's, 'a> {
    pub(crate) schema: &'static BlockSchema,
    pub(crate) entries: &'r Entries<'s, 'a>,
}

impl<'a> Reader<'_, '_, 'a> {
    /// The values of a line.
    pub(crate) fn values(&self, line: &Row<'a>, errors: &mut Vec<Diagnostic>) -> Option<Values<'a>> {
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
    pub(crate) fn voltages(&self, word: &str, errors: &mut Vec<Diagnostic>) -> Option<VoltageRange> {
        let (low, high) = range(self.entries.line(word)?, SIGNED_VOLTAGE, errors)?;
        Some(VoltageRange { low: Volt(low), high: Volt(high) })
    }

    /// `T [to T]`, low to high.
    pub(crate) fn temperature(&self, errors: &mut Vec<Diagnostic>) -> Option<TemperatureRange> {
        let (low, high) = range(self.entries.line("temperature")?, TEMPERATURE, errors)?;
        Some(TemperatureRange { low, high })
    }
}

/// A whole number; `None` after an error.
pub(crate) fn whole(value: Value, word: &str, errors: &mut Vec<Diagnostic>) -> Option<u32> {
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
pub(crate) fn range(line: &Row<'_>, kind: Range, errors: &mut Vec<Diagnostic>) -> Option<(f64, f64)> {
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
