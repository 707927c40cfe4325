//! Words that are unknown, in the wrong place or missing in a line.

use super::Arguments;
use super::said::{example, sample, wanted};
use crate::diag::{Diagnostic, Span};
use crate::figures::Range;
use crate::sheet::ast::{ArgumentKind, Quantity, Word};
use crate::sheet::schema::{Named, Need, Shape, Slot};
use crate::sheet::trade::meant;
use crate::sheet::values::Values;

impl<'a> Arguments<'_, 'a> {
    /// Reports a value in a line where every value has a word before it.
    pub(super) fn word_after(&mut self, quantity: &Quantity, named: &'static [Named]) {
        let after = match self.peek().map(|argument| &argument.kind) {
            Some(ArgumentKind::Word(word)) => named.iter().find(|n| n.word == *word),
            _ => None,
        };
        let Some(after) = after else {
            self.at -= 1;
            return self.end();
        };
        let line = self.line.word.text;
        let message = format!("this value stands before its word in a `{line}` line");
        let help = format!("write the word first: `{line} {} …`", after.word);
        self.push_unless_broken(Diagnostic::error("extra-argument", quantity.span, message).help(help));
        self.at = self.line.arguments.len();
        self.unsure = true;
    }

    pub(super) fn unknown_argument(&mut self, word: Word<'a>, named: &'static [Named]) {
        let line = self.line.word.text;
        let known = named.iter().map(|n| n.word);
        let message = format!("unknown word `{}` in a `{line}` line", word.text);
        let mut error = Diagnostic::error("unknown-argument", word.span, message);
        if let Some((_, help)) = meant(word.text, known.clone()) {
            error = error.help(help);
        } else if named.is_empty() {
            error = error.help(format!("a `{line}` line takes no further words"));
        } else {
            error = error.help(format!("a `{line}` line takes {}", known.collect::<Vec<_>>().join(", ")));
        }
        self.push_unless_broken(error);
        // What follows belongs to the unknown word.
        while let Some(argument) = self.peek() {
            match argument.kind {
                ArgumentKind::Word(text) if named.iter().any(|n| n.word == text) => break,
                _ => self.at += 1,
            }
        }
    }

    pub(super) fn missing(&mut self, slots: &'static [Slot], named: &'static [Named], values: &Values<'a>) {
        let word = self.line.word;
        for slot in slots.iter().filter(|s| s.need == Need::Required && values.number(s.name).is_none()) {
            let message = format!("`{}` needs {}", word.text, wanted(&[slot.kind]));
            self.errors.push(Diagnostic::error("missing-argument", word.span, message).help(format!(
                "e.g. `{} {}`",
                word.text,
                sample(slot.kind)
            )));
        }
        let one_of: Vec<&Slot> = slots.iter().filter(|s| s.need == Need::OneOf).collect();
        if one_of.is_empty() {
            return;
        }
        let alternatives = named.iter().filter(|n| matches!(n.shape, Shape::Alternative));
        let mut stated: Vec<Span> = one_of.iter().filter_map(|s| values.number(s.name)).map(|v| v.span).collect();
        stated.extend(alternatives.clone().filter_map(|n| values.word(n.word)).map(|w| w.span));
        let kinds: Vec<Range> = one_of.iter().map(|s| s.kind).collect();
        let words: Vec<String> = alternatives.map(|n| format!(" or `{}`", n.word)).collect();
        match stated[..] {
            [] => self.errors.push(
                Diagnostic::error(
                    "missing-argument",
                    word.span,
                    format!("`{}` needs {}{}", word.text, wanted(&kinds), words.concat()),
                )
                .help(format!("e.g. {}", example(&kinds))),
            ),
            [_] => {}
            [first, second, ..] => self.errors.push(
                Diagnostic::error("two-alternatives", second, format!("`{}` takes only one of these", word.text))
                    .also(first, "the other one")
                    .help("delete one of them"),
            ),
        }
    }
}
