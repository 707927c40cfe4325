//! The blocks and the title of a sheet, its includes in their places.

use super::name_line;
use crate::diag::{Diagnostic, Span};
use crate::model::Distribution;
use crate::sheet::ast::{Block, Item, Row, Sheet};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, TOP};

/// The blocks of a file, with those of the files it includes in the place of the include line.
pub(super) fn flatten<'s, 'a>(
    root: &'s Sheet<'a>,
    sheets: &'s [Sheet<'a>],
    includes: &[(Span, u32)],
    blocks: &mut Vec<&'s Block<'a>>,
    errors: &mut Vec<Diagnostic>,
) {
    let mut stack = vec![Entries::of(&TOP, &root.items, errors).known.into_iter()];
    while let Some(entries) = stack.last_mut() {
        let Some(entry) = entries.next() else {
            stack.pop();
            continue;
        };
        match entry.item {
            Item::Block(block) => blocks.push(block),
            Item::Row(line) if line.word.text == "include" => {
                let mut arguments = Arguments::new(line, errors);
                let Some(path) = arguments.name("include") else {
                    continue;
                };
                arguments.end();
                let file = includes.iter().find(|(span, _)| *span == path.span).map(|(_, file)| *file);
                if let Some(sheet) = file.and_then(|file| sheets.get(file as usize)) {
                    stack.push(Entries::of(&TOP, &sheet.items, errors).known.into_iter());
                }
            }
            Item::Row(_) => {}
        }
    }
}

/// A row of the top level of a file.
fn row<'s, 'a>(root: &'s Sheet<'a>, word: &str) -> Option<&'s Row<'a>> {
    root.items.iter().find_map(|item| match item {
        Item::Row(row) if row.word.text == word => Some(row),
        _ => None,
    })
}

pub(super) fn title(root: &Sheet<'_>, errors: &mut Vec<Diagnostic>) -> Option<String> {
    name_line(row(root, "title")?, errors).map(|text| text.text.to_owned())
}

/// How values lie between their bounds, where the file says so.
pub(super) fn distribution(root: &Sheet<'_>, errors: &mut Vec<Diagnostic>) -> Option<Distribution> {
    let row = row(root, "tolerances")?;
    let Form::Arguments { slots, named } = TOP.line("tolerances")?.form else {
        return None;
    };
    let values = Arguments::new(row, errors).values(slots, named)?;
    let error = match values.words() {
        [] => Diagnostic::error("missing-argument", row.word.span, "`tolerances` needs its distribution"),
        [one] if one.text == Distribution::Normal.word() => return Some(Distribution::Normal),
        [_] => return Some(Distribution::Uniform),
        [first, second, ..] => {
            Diagnostic::error("two-alternatives", second.span, "values lie in one way between their bounds")
                .also(first.span, "the other one")
        }
    };
    errors.push(error.help("write `tolerances uniform` or `tolerances normal`"));
    None
}
