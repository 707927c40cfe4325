//! The items of a block held against its schema.

use super::MAX_ERRORS;
use super::ast::{Block, Item, Row};
use super::schema::{BLOCKS, BlockSchema, Form, RowSchema};
use super::trade::meant;
use crate::diag::{Diagnostic, Span};
use crate::figures::limited_word;

/// An item with its row.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'s, 'a> {
    /// The row.
    pub row: &'static RowSchema,
    /// The item.
    pub item: &'s Item<'a>,
}

/// The known items of a block, and which words its unknown ones may have meant.
#[derive(Debug, Default)]
pub struct Entries<'s, 'a> {
    /// Known items, each of the right form.
    pub known: Vec<Entry<'s, 'a>>,
    meant: Vec<&'static str>,
    unreadable: bool,
}

impl<'s, 'a> Entries<'s, 'a> {
    /// Sorts `items` by `schema`; unknown, misplaced, malformed and doubled ones are pushed to `errors`.
    pub fn of(schema: &BlockSchema, items: &'s [Item<'a>], errors: &mut Vec<Diagnostic>) -> Entries<'s, 'a> {
        let mut entries = Entries::default();
        // The lines that may not stand twice; kept apart, so that thousands of others are not searched for each line.
        let mut once: Vec<Entry<'s, 'a>> = Vec::new();
        for item in items {
            if errors.len() >= MAX_ERRORS {
                // What follows may hold anything.
                entries.unreadable = true;
                break;
            }
            let word = item.word();
            if word.text.is_empty() {
                entries.unreadable = true;
                continue;
            }
            let Some(row) = schema.line(word.text) else {
                if matches!(item, Item::Block(block) if block.broken) {
                    entries.unreadable = true;
                    continue;
                }
                let (meant, help) = meant(word.text, schema.words()).unzip();
                entries.meant.extend(meant);
                errors.push(unknown(schema, item, help));
                continue;
            };
            if let Some(error) = wrong_form(row, item) {
                entries.meant.push(row.word);
                errors.push(error);
                continue;
            }
            if let Some(earlier) = once.iter().find(|earlier| earlier.row.word == row.word) {
                let message = format!("`{}` is given twice in this {}", row.word, schema.name);
                errors.push(
                    Diagnostic::error("duplicate-line", word.span, message)
                        .also(earlier.item.word().span, "given here first")
                        .help("delete one of them"),
                );
                continue;
            }
            let entry = Entry { row, item };
            entries.known.push(entry);
            if !row.repeats {
                once.push(entry);
            }
        }
        entries
    }

    /// The line of `word`.
    pub fn line(&self, word: &str) -> Option<&'s Row<'a>> {
        self.lines(word).next()
    }

    /// All lines of `word`.
    pub fn lines(&self, word: &str) -> impl Iterator<Item = &'s Row<'a>> {
        self.known.iter().filter(move |e| e.row.word == word).filter_map(|e| match e.item {
            Item::Row(line) => Some(line),
            Item::Block(_) => None,
        })
    }

    /// The block of `word`.
    pub fn block(&self, word: &str) -> Option<&'s Block<'a>> {
        self.known.iter().filter(|e| e.row.word == word).find_map(|e| match e.item {
            Item::Block(block) => Some(block),
            Item::Row(_) => None,
        })
    }

    /// Whether `word` is there, or an unknown word may have meant it: then its absence is no error of its own.
    pub fn may_hold(&self, word: &str) -> bool {
        self.unreadable || self.meant.contains(&word) || self.known.iter().any(|e| e.row.word == word)
    }

    /// Whether every item of the block could be read. Where it is not, its errors are those of the reader of the file, and
    /// what the block is missing may have stood there: no value is made of such a block.
    pub fn is_whole(&self) -> bool {
        !self.unreadable && self.known.iter().all(|entry| entry.item.is_whole())
    }

    /// Reports a missing line.
    pub fn require(&self, word: &str, block: Span, what: &str, help: &str, errors: &mut Vec<Diagnostic>) {
        if !self.may_hold(word) {
            errors.push(Diagnostic::error("missing-line", block, format!("{what} has no `{word}`")).help(help));
        }
    }
}

fn wrong_form(row: &RowSchema, item: &Item<'_>) -> Option<Diagnostic> {
    let word = row.word;
    match (row.form, item) {
        (Form::Block, Item::Row(line)) if !line.broken => Some(
            Diagnostic::error("expected-block", line.span, format!("`{word}` is a block, but its `{{` is missing"))
                .help(format!("write `{word} … {{` and close it with `}}`")),
        ),
        (Form::Block, Item::Block(_)) => None,
        (_, Item::Block(block)) => Some(
            Diagnostic::error("expected-line", block.span, format!("`{word}` is a line and holds no block here"))
                .help("delete the braces"),
        ),
        _ => None,
    }
}

fn unknown(schema: &BlockSchema, item: &Item<'_>, meant: Option<String>) -> Diagnostic {
    let word = item.word();
    let home = BLOCKS.iter().find(|block| block.line(word.text).is_some());
    let is_limit = limited_word(word.text).is_some();
    if let Some(home) = home {
        let message = format!("`{}` does not belong in a {}", word.text, schema.name);
        return Diagnostic::error("misplaced-word", word.span, message)
            .help(format!("it belongs in a {}; is a `}}` missing or too many?", home.name));
    }
    if is_limit {
        let message = format!("`{}` does not stand alone in a {}", word.text, schema.name);
        return Diagnostic::error("misplaced-word", word.span, message).help(format!("write `limit {} …`", word.text));
    }
    let error =
        Diagnostic::error("unknown-word", word.span, format!("unknown word `{}` in a {}", word.text, schema.name));
    match meant {
        Some(help) => error.help(help),
        None => error.help(format!("a {} holds {}", schema.name, schema.words().collect::<Vec<_>>().join(", "))),
    }
}
