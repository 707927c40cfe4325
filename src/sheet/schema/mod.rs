//! The one table of words: what each line holds, in which units and ranges.
//!
//! It drives the checks of [`super::read`], the messages, and the word table of the documentation.
//! A new word is a new row here, and its meaning in [`crate::model`].

mod reference;
mod words;

pub use super::schema::reference::word_table;
pub use super::schema::words::{BUS, FEED, LAMINATE, LANE, PART, PATH, RAIL, TABLE, TOP};
use crate::figures::{Range, limited_word};

/// A leading quantity of a line, known by its unit.
#[derive(Debug, Clone, Copy)]
pub struct Slot {
    /// The name under which the value is found.
    pub name: &'static str,
    /// Its kind.
    pub kind: Range,
    /// Whether the line needs it.
    pub need: Need,
}

/// Whether a line needs a leading quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// It must be there.
    Required,
    /// It may be there.
    Optional,
    /// Exactly one of the line's slots and words marked so must be there.
    OneOf,
}

/// What follows a word of a line.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// Nothing.
    Flag,
    /// Nothing; it stands for the line's `OneOf`.
    Alternative,
    /// A quantity.
    Value(Range),
    /// A name in quotes.
    Name,
    /// One or two losses, each `at` its frequency, with a comma between.
    Losses,
    /// A length, then `outer` or `inner` or neither.
    Stub,
    /// `<=` and a quantity.
    AtMost(Range),
    /// A current, or a voltage `through` an impedance.
    Surge,
    /// A frequency and a resistance, in either order.
    Resonator,
    /// From so many to so many quantities.
    List(Range, usize, usize),
}

/// A word with what follows it, after the leading quantities of a line.
#[derive(Debug, Clone, Copy)]
pub struct Named {
    /// The word.
    pub word: &'static str,
    /// What follows it.
    pub shape: Shape,
    /// What it means.
    pub doc: &'static str,
}

/// What stands behind the first word of a line, where it is not slots and named arguments.
#[derive(Debug, Clone, Copy)]
pub enum Form {
    /// Leading quantities, then words with arguments, in any order.
    Arguments {
        /// The leading quantities.
        slots: &'static [Slot],
        /// The words.
        named: &'static [Named],
    },
    /// A name in quotes.
    Name,
    /// A quantity, or two with `to` between, low to high.
    Range(Range),
    /// A quantity, with `at` and a frequency where it is known at one.
    ValueAt(Range),
    /// A capacitance rating: `Q [typical] [Q max] [at V] [across]`.
    Rating,
    /// A limit: its name, a comparison, a bound.
    Limit,
    /// A block in braces.
    Block,
}

/// A line of a block.
#[derive(Debug, Clone, Copy)]
pub struct LineSchema {
    /// The word it begins with.
    pub word: &'static str,
    /// What follows.
    pub form: Form,
    /// Whether it may stand several times in a block.
    pub repeats: bool,
    /// What it means.
    pub doc: &'static str,
}

/// A block and the lines it holds.
#[derive(Debug, Clone, Copy)]
pub struct BlockSchema {
    /// What it is called in messages: `lane`, `path`, `the sheet`.
    pub name: &'static str,
    /// Its lines.
    pub lines: &'static [LineSchema],
}

impl BlockSchema {
    /// The row of `word`.
    pub fn line(&self, word: &str) -> Option<&'static LineSchema> {
        self.lines.iter().find(|row| row.word == word)
    }

    /// All its words.
    pub fn words(&self) -> impl Iterator<Item = &'static str> {
        self.lines.iter().map(|row| row.word)
    }
}

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
    let is_block = |row: &LineSchema| matches!(row.form, Form::Block);
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
