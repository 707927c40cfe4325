//! Lines that lanes and feeds have in common.

use crate::diag::Diagnostic;
use crate::model::VoltageRange;
use crate::sheet::ast::Line;
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{BlockSchema, Form, Kind, SIGNED_VOLTAGE};
use crate::sheet::values::Values;
use crate::units::Volt;

use super::name_line;

/// What the line of `word` states; `None` where there is none, or after an error.
pub(super) fn stated<'a>(
    entries: &Entries<'_, 'a>,
    schema: &BlockSchema,
    word: &str,
    errors: &mut Vec<Diagnostic>,
) -> Option<Values<'a>> {
    let line = entries.line(word)?;
    let Form::Arguments { slots, named } = schema.line(word)?.form else {
        return None;
    };
    Arguments::new(line, errors).values(slots, named)
}

/// The count, 1 where none is stated; `None` after an error.
pub(super) fn count(entries: &Entries<'_, '_>, schema: &BlockSchema, errors: &mut Vec<Diagnostic>) -> Option<u32> {
    if entries.line("count").is_none() {
        return Some(1);
    }
    let count = stated(entries, schema, "count", errors)?.number("count")?;
    if count.si.fract() != 0.0 {
        errors.push(
            Diagnostic::error("out-of-range", count.span, "a count is a whole number").help("`count` takes 1 to 4096"),
        );
        return None;
    }
    Some(count.si as u32)
}

/// `Q [to Q]`, low to high, in SI.
pub(super) fn range(line: &Line<'_>, kind: Kind, errors: &mut Vec<Diagnostic>) -> Option<(f64, f64)> {
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

/// The range of `line_voltage`.
pub(super) fn line_voltage(entries: &Entries<'_, '_>, errors: &mut Vec<Diagnostic>) -> Option<VoltageRange> {
    let (low, high) = range(entries.line("line_voltage")?, SIGNED_VOLTAGE, errors)?;
    Some(VoltageRange {
        low: Volt(low),
        high: Volt(high),
    })
}

/// The connector the line belongs to.
pub(super) fn port(entries: &Entries<'_, '_>, errors: &mut Vec<Diagnostic>) -> Option<String> {
    name_line(entries.line("port")?, errors).map(|text| text.text.to_owned())
}
