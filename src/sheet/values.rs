//! What a line states, by the names of its schema row.

use super::ast::{Text, Word};
use crate::diag::Span;
use crate::figures::Range;

/// A checked number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// In SI.
    pub si: f64,
    /// Its place.
    pub span: Span,
    /// Its dimension and legal range.
    pub range: Range,
    /// How far it may deviate, where it states that.
    pub tolerance: Option<StatedWidth>,
}

/// The `±` of a number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatedWidth {
    /// Half of its width in SI, above 0.
    pub width: f64,
    /// Whether it is stated as a share.
    pub relative: bool,
    /// Its place.
    pub span: Span,
}

/// One loss of a line, `at` its frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatedLoss {
    /// In dB, or in dB/m.
    pub loss: Value,
    /// Whether it is per length.
    pub per_length: bool,
    /// The frequency in hertz.
    pub frequency: Value,
}

/// What a line states, by the names of its schema row.
#[derive(Debug, Clone, Default)]
pub struct Values<'a> {
    pub(super) numbers: Vec<(&'static str, Value)>,
    pub(super) words: Vec<Word<'a>>,
    pub(super) lists: Vec<(&'static str, Vec<Value>)>,
    pub(super) texts: Vec<(&'static str, Text<'a>)>,
    /// Losses, in the order stated.
    pub losses: Vec<StatedLoss>,
}

impl<'a> Values<'a> {
    /// The number of this name.
    pub fn number(&self, name: &str) -> Option<Value> {
        self.numbers.iter().find(|(n, _)| *n == name).map(|(_, v)| *v)
    }

    /// All numbers with their names, in the order of the line.
    pub fn numbers(&self) -> &[(&'static str, Value)] {
        &self.numbers
    }

    /// The first number of the line.
    pub fn first_number(&self) -> Option<Value> {
        self.numbers.first().map(|(_, v)| *v)
    }

    /// The numbers of this name, where it takes several; empty where it is not stated.
    pub fn list(&self, name: &str) -> &[Value] {
        self.lists.iter().find(|(n, _)| *n == name).map_or(&[], |(_, list)| list)
    }

    /// The SI value of this name, or 0.
    pub fn or_zero(&self, name: &str) -> f64 {
        self.number(name).map_or(0.0, |v| v.si)
    }

    /// The text of this name.
    pub fn text(&self, name: &str) -> Option<Text<'a>> {
        self.texts.iter().find(|(n, _)| *n == name).map(|(_, t)| *t)
    }

    /// The word, where it stands in the line.
    pub fn word(&self, word: &str) -> Option<Word<'a>> {
        self.words.iter().find(|w| w.text == word).copied()
    }

    /// All words of the line that take nothing.
    pub fn words(&self) -> &[Word<'a>] {
        &self.words
    }
}
