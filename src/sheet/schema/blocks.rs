//! What words there are, over all blocks.

use super::{BUS, BlockSchema, FEED, Form, LAMINATE, LANE, PART, PATH, RAIL, RowSchema, TABLE, TOP};
use crate::figures::limited_word;

/// Every block with lines of its own.
pub static BLOCKS: [&BlockSchema; 9] = [&TOP, &LANE, &FEED, &BUS, &RAIL, &PATH, &TABLE, &PART, &LAMINATE];

/// Words that stand inside a line without being a name of their own row.
const CONNECTIVES: [&str; 9] = ["at", "to", "typical", "max", "across", "outer", "inner", "from", "through"];

/// Whether a block of this word belongs to the top level alone.
pub fn is_top_block(word: &str) -> bool {
    TOP.line(word).is_some_and(|row| matches!(row.form, Form::Block))
}

/// Whether a block may begin with `word` inside a block of the word `within`, which is empty at the top level: it is a
/// word of a block, or one that nobody knows.
pub fn may_head_block(word: &str, within: &str) -> bool {
    let is_block = |row: &RowSchema| matches!(row.form, Form::Block);
    if let Some(row) = BLOCKS.iter().find(|block| block.name == within).and_then(|block| block.line(word)) {
        return is_block(row);
    }
    let mut rows = BLOCKS.iter().filter_map(|block| block.line(word)).peekable();
    let is_limit = limited_word(word).is_some();
    !is_limit && (rows.peek().is_none() || rows.any(is_block))
}

/// Every word that may follow a number.
pub fn argument_words() -> impl Iterator<Item = &'static str> {
    BLOCKS
        .iter()
        .flat_map(|block| block.lines)
        .flat_map(|row| match row.form {
            Form::Arguments { named, .. } => named,
            _ => &[],
        })
        .map(|named| named.word)
        .chain(CONNECTIVES)
}

/// Whether `word` may follow a number.
pub fn is_argument_word(word: &str) -> bool {
    argument_words().any(|known| known == word)
}
