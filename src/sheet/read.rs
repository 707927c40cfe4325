//! A line held against its row of the schema: units, ranges, unknown and missing words.

mod mistakes;
mod said;
mod shapes;

use super::ast::{Argument, ArgumentKind, Deviation, Quantity, Row, Text, Tolerance, Word};
use super::read::said::{example, misplaced, sample, with_article, wrong_unit};
pub use super::read::said::{found, wanted};
use super::schema::{Named, Need, Shape, Slot};
use super::structure::bare;
use super::values::{StatedWidth, Value, Values};
use crate::diag::{Diagnostic, Span, nearest};
use crate::figures::{Range, SIGNED_VOLTAGE};
use crate::units::Dimension;

/// Reads the arguments of one line; each mistake is pushed to `errors`.
pub struct Arguments<'l, 'a> {
    line: &'l Row<'a>,
    at: usize,
    /// Whether a quantity was of an unknown unit: then nothing is missing for certain.
    unsure: bool,
    /// Errors found so far.
    pub errors: &'l mut Vec<Diagnostic>,
}

impl<'l, 'a> Arguments<'l, 'a> {
    /// A reader at the first argument of `line`.
    pub fn new(line: &'l Row<'a>, errors: &'l mut Vec<Diagnostic>) -> Arguments<'l, 'a> {
        Arguments { line, at: 0, unsure: false, errors }
    }

    /// The next argument.
    pub fn peek(&self) -> Option<&'l Argument<'a>> {
        self.line.arguments.get(self.at)
    }

    /// Takes the next argument.
    pub fn take(&mut self) -> Option<&'l Argument<'a>> {
        let argument = self.peek()?;
        self.at += 1;
        Some(argument)
    }

    /// Takes the next argument where it is this word.
    pub fn take_word(&mut self, word: &str) -> Option<Span> {
        let argument = self.peek()?;
        matches!(argument.kind, ArgumentKind::Word(w) if w == word).then(|| {
            self.at += 1;
            argument.span
        })
    }

    /// Where something is missing: just behind the last argument taken.
    pub fn here(&self) -> Span {
        let before = self.at.checked_sub(1).and_then(|i| self.line.arguments.get(i));
        let end = before.map_or(self.line.word.span, |a| a.span);
        Span { start: end.start, ..end }
    }

    /// Takes a quantity of one of `kinds` and checks it; `None` after an error.
    ///
    /// `what` says whose value it is, e.g. `pad`.
    pub fn quantity(&mut self, kinds: &[Range], what: &str) -> Option<(Value, Range)> {
        self.quantity_that(kinds, what, false)
    }

    /// The same, which may state a tolerance where it `varies`.
    pub fn quantity_that(&mut self, kinds: &[Range], what: &str, varies: bool) -> Option<(Value, Range)> {
        match self.peek() {
            Some(argument) => {
                if let ArgumentKind::Quantity(quantity) = &argument.kind {
                    self.at += 1;
                    self.check(quantity, kinds, what, varies)
                } else {
                    self.push_unless_broken(misplaced(argument, kinds, what));
                    None
                }
            }
            None => {
                if !self.line.broken {
                    let message = format!("expected {} after `{what}`, but the line ends", wanted(kinds));
                    self.errors.push(
                        Diagnostic::error("missing-argument", self.here(), message)
                            .help(format!("e.g. {}", example(kinds))),
                    );
                }
                None
            }
        }
    }

    /// Checks the unit, the tolerance and the range of a quantity, which may state a tolerance where it `varies`.
    pub fn check(&mut self, quantity: &Quantity, kinds: &[Range], what: &str, varies: bool) -> Option<(Value, Range)> {
        if let (Some(stated), false) = (&quantity.tolerance, varies) {
            let help = match what {
                "at" => "the `±` follows its value, before `at`: `2.2 dB ± 10 % at 3 GHz`",
                _ => "delete it; values of a path, of a laminate and of a part may have one",
            };
            let message = format!("`{what}` takes no tolerance");
            self.errors.push(Diagnostic::error("tolerance", stated.span, message).help(help));
        }
        let Some(dimension) = quantity.dimension else {
            self.unsure = true;
            return None;
        };
        let Some(kind) = kinds.iter().find(|kind| kind.dimension == dimension) else {
            self.errors.push(wrong_unit(quantity, dimension, kinds, what));
            return None;
        };
        if !kind.contains(quantity.value) {
            let message = format!("this {} is out of range for `{what}`", kind.dimension);
            let positive = dimension == Dimension::Decibel && quantity.value < 0.0 && kind.contains(-quantity.value);
            let sign = if positive { "; a loss is a positive number, leave the sign out" } else { "" };
            self.errors.push(
                Diagnostic::error("out-of-range", quantity.span, message)
                    .label(format!("expected {}", kind.range()))
                    .help(format!("`{what}` takes {}{sign}", kind.range())),
            );
            return None;
        }
        let tolerance = match &quantity.tolerance {
            Some(stated) if varies => Some(self.width(quantity, stated, *kind, what)?),
            _ => None,
        };
        Some((Value { si: quantity.value, span: quantity.span, range: *kind, tolerance }, *kind))
    }

    /// The tolerance of a quantity, whose bounds must be legal values themselves; `None` after an error.
    fn width(&mut self, quantity: &Quantity, stated: &Tolerance, kind: Range, what: &str) -> Option<StatedWidth> {
        let width = stated.width_of(quantity.value);
        let (low, high) = (quantity.value - width, quantity.value + width);
        if kind.contains(low) && kind.contains(high) {
            let relative = matches!(stated.deviation, Deviation::Ratio(_));
            return Some(StatedWidth { width, relative, span: stated.span });
        }
        let message = match kind.dimension {
            Dimension::Number => format!("with this tolerance `{what}` leaves its range"),
            dimension => format!("with this tolerance the {dimension} leaves the range of `{what}`"),
        };
        self.errors.push(
            Diagnostic::error("tolerance-range", stated.span, message)
                .label(format!("expected {}", kind.range()))
                .help(format!("`{what}` takes {}: state a smaller tolerance", kind.range())),
        );
        None
    }

    /// Takes a name in quotes.
    pub fn name(&mut self, what: &str) -> Option<Text<'a>> {
        match self.take() {
            Some(Argument { kind: ArgumentKind::Text(text), span }) => Some(Text { text, span: *span }),
            Some(argument) => {
                let message = format!("expected a name in quotes after `{what}`, but found {}", found(argument));
                self.push_unless_broken(Diagnostic::error("missing-argument", argument.span, message));
                None
            }
            None => {
                let message = format!("expected a name in quotes after `{what}`, but the line ends");
                self.push_unless_broken(Diagnostic::error("missing-argument", self.here(), message));
                None
            }
        }
    }

    /// Reports an error, unless a part of the line could not be read at all: that has been said.
    pub fn push_unless_broken(&mut self, error: Diagnostic) {
        if !self.line.broken {
            self.errors.push(error);
        }
    }

    /// Reports whatever is left of the line.
    pub fn end(&mut self) {
        if let Some(argument) = self.peek() {
            let message = format!("unexpected {} in a `{}` line", bare(&found(argument)), self.line.word.text);
            self.push_unless_broken(
                Diagnostic::error("extra-argument", argument.span, message)
                    .help("delete it, or begin a new line with `;` or a line end"),
            );
            self.at = self.line.arguments.len();
        }
    }

    /// Reads leading quantities and named arguments.
    ///
    /// Returns `None` after an error that leaves the line without a value it needs.
    pub fn values(&mut self, slots: &'static [Slot], named: &'static [Named]) -> Option<Values<'a>> {
        let before = self.errors.len();
        let mut values = Values::default();
        let word = self.line.word.text;
        while let Some(Argument { kind: ArgumentKind::Quantity(quantity), .. }) = self.peek() {
            self.at += 1;
            self.leading(quantity, slots, named, &mut values);
        }
        if self.has_word_for_value(slots, named, &values) {
            return None;
        }
        while let Some(argument) = self.take() {
            match argument.kind {
                ArgumentKind::Word(text) => {
                    let found = Word { text, span: argument.span };
                    match named.iter().find(|n| n.word == text) {
                        Some(row) => self.named(row, found, &mut values),
                        None => self.unknown_argument(found, named),
                    }
                }
                _ => {
                    self.at -= 1;
                    if matches!(argument.kind, ArgumentKind::Quantity(_)) && !slots.is_empty() {
                        let message = format!("this quantity has no word before it in a `{word}` line");
                        self.push_unless_broken(
                            Diagnostic::error("extra-argument", argument.span, message)
                                .help("quantities without a word come first; further ones follow a word of their own"),
                        );
                        self.at = self.line.arguments.len();
                    }
                    self.end();
                }
            }
        }
        let sure = !self.line.broken && !self.unsure;
        if self.errors.len() == before && sure {
            self.missing(slots, named, &values);
        }
        (self.errors.len() == before && sure).then_some(values)
    }

    fn leading(
        &mut self,
        quantity: &Quantity,
        slots: &'static [Slot],
        named: &'static [Named],
        values: &mut Values<'a>,
    ) {
        let word = self.line.word.text;
        let Some(dimension) = quantity.dimension else {
            self.unsure = true;
            return;
        };
        let mut fitting = slots.iter().filter(|slot| slot.kind.dimension == dimension);
        let Some(first) = fitting.next() else {
            let kinds: Vec<Range> = slots.iter().map(|slot| slot.kind).collect();
            let takes = |named: &&Named| matches!(named.shape, Shape::Value(range) if range.dimension == dimension);
            if kinds.is_empty() {
                self.word_after(quantity, named);
            } else if let Some(own) = named.iter().find(takes).filter(|_| dimension != Dimension::Number) {
                let error = wrong_unit(quantity, dimension, &kinds, word);
                let help = format!("{} follows its own word: `{word} {} …`", with_article(dimension), own.word);
                self.push_unless_broken(error.help(help));
            } else {
                self.check(quantity, &kinds, word, false);
            }
            return;
        };
        let free = std::iter::once(first).chain(fitting).find(|slot| values.number(slot.name).is_none());
        match (free, values.number(first.name)) {
            (None, Some(earlier)) => self.twice(quantity.span, earlier.span, first.name),
            (slot, _) => {
                let slot = slot.unwrap_or(first);
                if let Some((value, _)) = self.check(quantity, &[slot.kind], word, slot.varies) {
                    values.numbers.push((slot.name, value));
                }
            }
        }
    }

    /// Reports a line that begins with an unknown word in the place of its value.
    fn has_word_for_value(&mut self, slots: &'static [Slot], named: &'static [Named], values: &Values<'a>) -> bool {
        let (Some(argument), Some(slot)) = (self.peek(), slots.iter().find(|slot| slot.need == Need::Required)) else {
            return false;
        };
        let ArgumentKind::Word(text) = argument.kind else {
            return false;
        };
        if values.number(slot.name).is_some() || nearest(text, named.iter().map(|n| n.word)).is_some() {
            return false;
        }
        let line = self.line.word.text;
        let error = misplaced(argument, &[slot.kind], line);
        self.push_unless_broken(error.help(format!("e.g. `{line} {}`", sample(slot.kind))));
        self.at = self.line.arguments.len();
        true
    }

    fn twice(&mut self, span: Span, earlier: Span, what: &str) {
        self.errors.push(
            Diagnostic::error("duplicate-argument", span, format!("`{what}` is stated twice in this line"))
                .also(earlier, "stated here first")
                .help("delete one of them"),
        );
    }

    /// Takes `at` and a quantity; an error where it is missing.
    pub fn condition(&mut self, kind: Range, help: &str) -> Option<Value> {
        if self.take_word("at").is_none() {
            let error =
                Diagnostic::error("missing-condition", self.here(), format!("expected `at` and a {}", kind.dimension))
                    .help(help);
            self.push_unless_broken(error);
            return None;
        }
        self.quantity(&[kind], "at").map(|(value, _)| value)
    }

    /// Takes `at` and a voltage of either sign, where it stands.
    pub fn bias(&mut self) -> Option<Value> {
        self.take_word("at")?;
        self.quantity(&[SIGNED_VOLTAGE], "at").map(|(value, _)| value)
    }
}
