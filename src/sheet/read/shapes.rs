//! What follows a word of a line, by its shape.

use super::{Arguments, example, found};
use crate::diag::Diagnostic;
use crate::figures::{
    CHIP_RESISTANCE, CURRENT, FREQUENCY, IMPEDANCE, LENGTH, LOSS, LOSS_PER_LENGTH, Range, SHUNT_RESISTANCE, VOLTAGE,
};
use crate::sheet::ast::{Argument, ArgumentKind, Word};
use crate::sheet::schema::{Named, Shape, TOGETHER};
use crate::sheet::structure::bare;
use crate::sheet::values::{StatedLoss, Values};
use crate::units::Dimension;

impl<'a> Arguments<'_, 'a> {
    /// Takes what follows `word`, as its row says.
    pub(super) fn named(&mut self, row: &Named, word: Word<'a>, values: &mut Values<'a>) {
        if let Some(earlier) = values.words.iter().find(|w| w.text == word.text).map(|w| w.span) {
            self.twice(word.span, earlier, row.word);
        }
        values.words.push(word);
        match row.shape {
            Shape::Flag | Shape::Alternative => {}
            Shape::Value(kind) => {
                if let Some((value, _)) = self.quantity_that(&[kind], row.word, row.varies) {
                    values.numbers.push((row.word, value));
                }
            }
            Shape::Name => {
                if let Some(text) = self.name(row.word) {
                    values.texts.push((row.word, text));
                }
                if let Some(further) = self.peek().filter(|_| row.word == TOGETHER) {
                    let message = format!("unexpected {} after `{TOGETHER}`", bare(&found(further)));
                    let error = Diagnostic::error("extra-argument", further.span, message);
                    self.push_unless_broken(error.help("`together \"name\"` is the last argument of its line"));
                    self.at = self.line.arguments.len();
                }
            }
            Shape::Stub => {
                if let Some((value, _)) = self.quantity_that(&[LENGTH], row.word, row.varies) {
                    values.numbers.push((row.word, value));
                }
                for side in ["outer", "inner"] {
                    if let Some(span) = self.take_word(side) {
                        values.words.push(Word { text: if side == "outer" { "outer" } else { "inner" }, span });
                        break;
                    }
                }
            }
            Shape::AtMost(kind) => self.at_most(row.word, kind, values),
            Shape::Surge => self.surge(row.word, values),
            Shape::Resonator => self.pair(row, [("frequency", FREQUENCY), ("resistance", IMPEDANCE)], values),
            Shape::Neck => self.pair(row, [("neck.impedance", IMPEDANCE), ("neck.length", LENGTH)], values),
            Shape::ChipClamp => self.pair(row, [("voltage", VOLTAGE), ("resistance", CHIP_RESISTANCE)], values),
            Shape::List(kind, least, most) => self.list(row.word, kind, least, most, values),
            Shape::Losses => self.losses(row.word, values),
        }
    }

    /// `<=` and a quantity.
    fn at_most(&mut self, word: &'static str, kind: Range, values: &mut Values<'a>) {
        let here = self.here();
        let error = match self.peek().map(|argument| (&argument.kind, argument)) {
            Some((ArgumentKind::AtMost, _)) => {
                self.at += 1;
                if let Some((value, _)) = self.quantity(&[kind], word) {
                    values.numbers.push((word, value));
                }
                return;
            }
            Some((ArgumentKind::AtLeast, argument)) => {
                Diagnostic::error("wrong-comparison", argument.span, format!("`{word}` is limited from the other side"))
            }
            Some((_, argument)) => {
                let message = format!("expected `<=` after `{word}`, but found {}", found(argument));
                Diagnostic::error("missing-argument", argument.span, message)
            }
            None => {
                Diagnostic::error("missing-argument", here, format!("expected `<=` after `{word}`, but the line ends"))
            }
        };
        self.push_unless_broken(error.help(format!("write `{word} <= 1 {}`", kind.dimension.example())));
        self.at = self.line.arguments.len();
    }

    /// A current, or a voltage `through` an impedance: the current it drives, beside the impedance.
    fn surge(&mut self, word: &'static str, values: &mut Values<'a>) {
        let Some((mut value, kind)) = self.quantity(&[CURRENT, VOLTAGE], word) else {
            return;
        };
        if kind.dimension == Dimension::Voltage {
            if self.take_word("through").is_none() {
                let error = Diagnostic::error(
                    "missing-condition",
                    self.here(),
                    "a surge stated as a voltage needs `through` and an impedance",
                );
                self.push_unless_broken(error.help("e.g. `surge 1 kV through 42 ohm`, or state the current"));
                return;
            }
            let Some((impedance, _)) = self.quantity(&[SHUNT_RESISTANCE], "through") else {
                return;
            };
            value.si /= impedance.si;
            values.numbers.push(("through", impedance));
        }
        values.numbers.push((word, value));
    }

    /// Two quantities in either order, each under its name.
    fn pair(&mut self, row: &Named, of: [(&'static str, Range); 2], values: &mut Values<'a>) {
        let mut open = of.to_vec();
        while !open.is_empty() {
            let kinds: Vec<Range> = open.iter().map(|(_, kind)| *kind).collect();
            let has_one = matches!(self.peek(), Some(Argument { kind: ArgumentKind::Quantity(_), .. }));
            if let ([(name, kind)], false) = (open.as_slice(), has_one) {
                let name = name.rsplit('.').next().unwrap_or(name);
                let article = if name.starts_with(['a', 'i']) { "an" } else { "a" };
                let error = Diagnostic::error(
                    "missing-argument",
                    self.here(),
                    format!("`{}` needs {article} {name} too", row.word),
                );
                self.push_unless_broken(error.help(format!("e.g. {}", example(&[*kind]))));
                return;
            }
            let Some((value, kind)) = self.quantity_that(&kinds, row.word, row.varies) else {
                return;
            };
            if let Some(at) = kinds.iter().position(|k| *k == kind) {
                values.numbers.push((open.remove(at).0, value));
            }
        }
    }

    fn list(&mut self, word: &'static str, kind: Range, least: usize, most: usize, values: &mut Values<'a>) {
        let mut list = Vec::new();
        while list.len() < most {
            let more = matches!(self.peek(), Some(Argument { kind: ArgumentKind::Quantity(_), .. }));
            if !more && list.len() >= least {
                break;
            }
            let Some((value, _)) = self.quantity(&[kind], word) else {
                return;
            };
            list.push(value);
        }
        values.lists.push((word, list));
    }

    fn losses(&mut self, what: &str, values: &mut Values<'a>) {
        loop {
            let Some((loss, kind)) = self.quantity_that(&[LOSS, LOSS_PER_LENGTH], what, true) else {
                return;
            };
            let Some(frequency) = self.condition(FREQUENCY, "a loss holds at a frequency: `loss 3.2 dB at 2.5 GHz`")
            else {
                return;
            };
            let per_length = kind.dimension == Dimension::DecibelPerLength;
            values.losses.push(StatedLoss { loss, per_length, frequency });
            match self.peek() {
                Some(Argument { kind: ArgumentKind::Comma, span }) if values.losses.len() == 2 => {
                    self.errors.push(
                        Diagnostic::error("loss-points", *span, "a line states its loss at one or two frequencies")
                            .help("delete the further points"),
                    );
                    self.at = self.line.arguments.len();
                    return;
                }
                Some(Argument { kind: ArgumentKind::Comma, .. }) => self.at += 1,
                _ => return,
            }
        }
    }
}
