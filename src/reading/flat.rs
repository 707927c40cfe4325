//! The blocks and the title of a sheet, its includes in their places.

use super::name_line;
use crate::diag::{Diagnostic, Span};
use crate::sheet::ast::{Block, Item, Sheet};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::TOP;

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

pub(super) fn title(root: &Sheet<'_>, errors: &mut Vec<Diagnostic>) -> Option<String> {
    let line = root.items.iter().find_map(|item| match item {
        Item::Row(line) if line.word.text == "title" => Some(line),
        _ => None,
    })?;
    name_line(line, errors).map(|text| text.text.to_owned())
}
