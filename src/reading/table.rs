//! A table of measured reflection.

use super::Reader;
use crate::diag::{Diagnostic, Span};
use crate::model::ReflectionTable;
use crate::sheet::ast::{Block, Text};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, TABLE};
use crate::units::{Hertz, Ohm};

/// The table; `None` after an error.
pub(crate) fn lower(block: &Block<'_>, name: Text<'_>, errors: &mut Vec<Diagnostic>) -> Option<ReflectionTable> {
    let before = errors.len();
    let entries = Entries::of(&TABLE, &block.items, errors);
    let whole = |errors: &[Diagnostic]| errors.len() == before && entries.is_whole();
    let what = format!("table \"{}\"", name.text);
    entries.require("reference", name.span, &what, "add e.g. `reference 50 ohm`", errors);
    let example = "add its points, e.g. `point 1559 MHz 0.32 -141 deg`";
    entries.require("point", name.span, &what, example, errors);
    let reader = Reader { schema: &TABLE, entries: &entries };
    let reference = reader.line("reference", errors);
    let Form::Arguments { slots, named } = TABLE.line("point")?.form else {
        return None;
    };
    let mut points: Vec<(Hertz, f64, f64)> = Vec::new();
    let mut earlier: Option<(f64, Span)> = None;
    for line in entries.lines("point") {
        let Some(values) = Arguments::new(line, errors).values(slots, named) else {
            continue;
        };
        let frequency = values.number("frequency")?;
        if let Some((_, span)) = earlier.filter(|(before, _)| frequency.si <= *before) {
            errors.push(
                Diagnostic::error("table-order", frequency.span, "the points of a table rise in frequency")
                    .also(span, "the point before it")
                    .help("sort the points by frequency, one at each"),
            );
        }
        earlier = Some((frequency.si, frequency.span));
        points.push((Hertz(frequency.si), values.number("magnitude")?.si, values.number("angle")?.si));
    }
    if let ([_], true, Some((_, span))) = (&points[..], whole(errors), earlier) {
        errors.push(
            Diagnostic::error("table-order", span, "a table has at least two points, to go straight between them")
                .help(example),
        );
    }
    let reference = Ohm(reference?.number("impedance")?.si);
    whole(errors).then(|| ReflectionTable::new(name.text.to_owned(), name.span, reference, points))
}
