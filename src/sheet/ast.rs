//! The tree of a lane sheet: every node with its span, every text borrowed from the source.

use crate::diag::Span;
use crate::units::Dimension;

/// One parsed file.
#[derive(Debug, Clone, Default)]
pub struct Sheet<'a> {
    /// Lines and blocks in the order of the file.
    pub items: Vec<Item<'a>>,
}

/// A line or a block.
#[derive(Debug, Clone)]
pub enum Item<'a> {
    /// A word with its arguments.
    Row(Row<'a>),
    /// A word with items in braces.
    Block(Block<'a>),
}

impl<'a> Item<'a> {
    /// The word it begins with.
    pub fn word(&self) -> Word<'a> {
        match self {
            Item::Row(line) => line.word,
            Item::Block(block) => block.word,
        }
    }

    /// Whether all of its first line could be read; if not, the error is reported already.
    pub fn is_whole(&self) -> bool {
        match self {
            Item::Row(line) => !line.broken && line.arguments.iter().all(Argument::is_whole),
            Item::Block(block) => !block.broken,
        }
    }
}

/// A word with its place.
#[derive(Debug, Clone, Copy)]
pub struct Word<'a> {
    /// The word.
    pub text: &'a str,
    /// Its place.
    pub span: Span,
}

/// A quoted text with its place, the quotes included.
pub type Text<'a> = Word<'a>;

/// A word with its arguments.
#[derive(Debug, Clone)]
pub struct Row<'a> {
    /// The word.
    pub word: Word<'a>,
    /// What follows it.
    pub arguments: Vec<Argument<'a>>,
    /// From the word to the last argument.
    pub span: Span,
    /// Whether a part of the line could not be read; the error is reported already.
    pub broken: bool,
}

/// A word with items in braces.
#[derive(Debug, Clone)]
pub struct Block<'a> {
    /// The word.
    pub word: Word<'a>,
    /// The quoted name after it.
    pub name: Option<Text<'a>>,
    /// A further word before the brace, e.g. `outward`.
    pub tag: Option<Word<'a>>,
    /// What the braces hold.
    pub items: Vec<Item<'a>>,
    /// From the word to the opening brace.
    pub span: Span,
    /// Whether the header could not be read; the error is reported already.
    pub broken: bool,
}

impl Block<'_> {
    /// A block whose first line could not be read.
    pub fn nameless(span: Span) -> Self {
        Block { word: Word { text: "", span }, name: None, tag: None, items: Vec::new(), span, broken: true }
    }
}

/// An argument with its place.
#[derive(Debug, Clone)]
pub struct Argument<'a> {
    /// What it is.
    pub kind: ArgumentKind<'a>,
    /// Its place.
    pub span: Span,
}

impl Argument<'_> {
    /// Whether it is no quantity of an unknown unit.
    fn is_whole(&self) -> bool {
        !matches!(self.kind, ArgumentKind::Quantity(Quantity { dimension: None, .. }))
    }
}

/// The kinds of argument.
#[derive(Debug, Clone)]
pub enum ArgumentKind<'a> {
    /// A number, mostly with a unit.
    Quantity(Quantity),
    /// A word.
    Word(&'a str),
    /// A quoted text, without its quotes.
    Text(&'a str),
    /// `<=`
    AtMost,
    /// `>=`
    AtLeast,
    /// `,`
    Comma,
}

/// A number with its unit and tolerance.
#[derive(Debug, Clone)]
pub struct Quantity {
    /// The value in the SI unit of its dimension (a ratio for `%`).
    pub value: f64,
    /// What is measured; `None` where nobody knows the unit, an error that is reported already.
    pub dimension: Option<Dimension>,
    /// The tolerance; boxed, for hardly any quantity has one.
    pub tolerance: Option<Box<Tolerance>>,
    /// The number and its unit, without the tolerance.
    pub span: Span,
}

/// A tolerance with its place.
#[derive(Debug, Clone, Copy)]
pub struct Tolerance {
    /// How far the value may deviate.
    pub deviation: Deviation,
    /// Its place.
    pub span: Span,
}

/// How far a value may deviate to either side; not below 0.
#[derive(Debug, Clone, Copy)]
pub enum Deviation {
    /// As a ratio of the value.
    Ratio(f64),
    /// In the unit of the value.
    Width(f64),
}

impl Tolerance {
    /// As a ratio of `value`, which is not 0 where it is stated in the unit of the value.
    pub fn ratio_of(&self, value: f64) -> f64 {
        match self.deviation {
            Deviation::Ratio(ratio) => ratio,
            Deviation::Width(width) => width / value,
        }
    }

    /// In the unit of `value`.
    pub fn width_of(&self, value: f64) -> f64 {
        match self.deviation {
            Deviation::Ratio(ratio) => ratio * value.abs(),
            Deviation::Width(width) => width,
        }
    }
}
