//! The form of a line and of a block.

use crate::figures::Range;

/// The word before the name of what deviates alike.
pub const TOGETHER: &str = "together";

/// A leading quantity of a line, known by its unit.
#[derive(Debug, Clone, Copy)]
pub struct Slot {
    /// The name under which the value is found.
    pub name: &'static str,
    /// Its kind.
    pub kind: Range,
    /// Whether the line needs it.
    pub need: Need,
    /// Whether it may state a tolerance.
    pub varies: bool,
}

impl Slot {
    /// The same, with a tolerance where one is stated.
    pub(super) const fn varies(self) -> Slot {
        Slot { varies: true, ..self }
    }
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
    /// An impedance and a length, in either order.
    Neck,
    /// A voltage and a resistance, in either order.
    ChipClamp,
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
    /// Whether its quantity may state a tolerance.
    pub varies: bool,
}

impl Named {
    /// The same, with a tolerance where one is stated.
    pub(super) const fn varies(self) -> Named {
        Named { varies: true, ..self }
    }
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
pub struct RowSchema {
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
    pub lines: &'static [RowSchema],
}

impl BlockSchema {
    /// The row of `word`.
    pub fn line(&self, word: &str) -> Option<&'static RowSchema> {
        self.lines.iter().find(|row| row.word == word)
    }

    /// All its words.
    pub fn words(&self) -> impl Iterator<Item = &'static str> + Clone {
        self.lines.iter().map(|row| row.word)
    }
}
