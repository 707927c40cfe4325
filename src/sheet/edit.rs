//! A sheet whose text stays and some of whose numbers are others.

use super::ast::{Argument, ArgumentKind, Block, Deviation, Item, Quantity, Row, Sheet};
use super::parse;
use super::schema::{Form, PATH, TOGETHER};
use crate::diag::Span;
use crate::units::Dimension;

/// Another number in the place of one that is stated, or one that is not stated.
#[derive(Debug, Clone, PartialEq)]
pub struct Edit {
    /// The number that is replaced; of one that is added, its row.
    pub span: Span,
    /// The number, in the SI unit of its dimension.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// How it stands in the sheet.
    pub how: How,
}

/// How another number stands in the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// In the place of one, whose tolerance stays.
    Instead,
    /// In the place of one, so that this is the largest value within its tolerance.
    AsMaximum,
    /// In its row, which does not state it, under this name.
    Added(&'static str),
    /// In the only row of this word in the block whose first line is named, which does not state one.
    InRow(&'static str),
}

impl Sheet<'_> {
    /// Puts a number in its place.
    pub fn edit(&mut self, edit: &Edit) {
        let Some(item) = self.items.iter_mut().rev().find(|item| starts(item) <= (edit.span.file, edit.span.start))
        else {
            return;
        };
        within(item, edit);
    }
}

/// Where an item begins.
fn starts(item: &Item<'_>) -> (u32, u32) {
    let span = item.word().span;
    (span.file, span.start)
}

fn within(item: &mut Item<'_>, edit: &Edit) {
    match item {
        Item::Row(row) => change(row, edit),
        Item::Block(block) => match edit.how {
            How::InRow(word) if block.name.is_some_and(|name| name.span == edit.span) => add_row(block, word, edit),
            _ => {
                let at = (edit.span.file, edit.span.start);
                let inner = block.items.iter_mut().rev().find(|item| starts(item) <= at);
                inner.into_iter().for_each(|item| within(item, edit));
            }
        },
    }
}

fn add_row(block: &mut Block<'_>, word: &'static str, edit: &Edit) {
    let span = block.span;
    let row = Row { word: super::ast::Word { text: word, span }, arguments: vec![number(edit)], span, broken: false };
    block.items.push(Item::Row(row));
}

fn number(edit: &Edit) -> Argument<'static> {
    let Edit { span, value, dimension, .. } = *edit;
    let quantity = Quantity { value, dimension: Some(dimension), tolerance: None, span };
    Argument { kind: ArgumentKind::Quantity(quantity), span }
}

fn change(row: &mut Row<'_>, edit: &Edit) {
    match edit.how {
        How::Instead | How::AsMaximum => {
            let quantities = row.arguments.iter_mut().filter_map(|argument| match &mut argument.kind {
                ArgumentKind::Quantity(quantity) => Some(quantity),
                _ => None,
            });
            for quantity in quantities {
                if quantity.span != edit.span {
                    // A typical value is never above its maximum.
                    let above = quantity.dimension == Some(edit.dimension) && quantity.value > edit.value;
                    if edit.how == How::AsMaximum && above {
                        quantity.value = edit.value;
                    }
                    continue;
                }
                quantity.value = edit.value;
                if let (Some(tolerance), How::AsMaximum) = (&quantity.tolerance, edit.how) {
                    quantity.value = match tolerance.deviation {
                        Deviation::Ratio(ratio) => edit.value / (1.0 + ratio),
                        Deviation::Width(width) => edit.value - width,
                    };
                }
            }
        }
        How::Added(word) if leads(row, word) => row.arguments.insert(0, number(edit)),
        How::Added(word) => {
            let group = |argument: &Argument<'_>| matches!(argument.kind, ArgumentKind::Word(word) if word == TOGETHER);
            let at = row.arguments.iter().position(group).unwrap_or(row.arguments.len());
            let word = Argument { kind: ArgumentKind::Word(word), span: edit.span };
            row.arguments.splice(at..at, [word, number(edit)]);
        }
        How::InRow(_) => {}
    }
}

/// Whether a value of this name is known by its unit and stands first in its row, without a word.
fn leads(row: &Row<'_>, name: &str) -> bool {
    let form = PATH.line(row.word.text).map(|row| row.form);
    matches!(form, Some(Form::Arguments { slots, .. }) if slots.iter().any(|slot| slot.name == name))
}

/// A number with its unit by itself, read as in a sheet.
///
/// # Errors
/// What is wrong with it, and its cure.
pub fn lone_quantity(text: &str) -> Result<Quantity, (String, Option<String>)> {
    // A row needs a word; any serves.
    let row = format!("value {}", text.trim());
    let (sheet, errors) = parse(0, &row);
    if let Some(error) = errors.into_iter().next() {
        return Err((error.message, error.help));
    }
    let cure = || Some("write a number and its unit, e.g. `3 mm`".to_owned());
    match sheet.items.as_slice() {
        [Item::Row(Row { arguments, .. })] => match arguments.as_slice() {
            [Argument { kind: ArgumentKind::Quantity(quantity), .. }] => Ok(quantity.clone()),
            [] => Err(("the value is missing".to_owned(), cure())),
            _ => Err(("this is no single quantity".to_owned(), cure())),
        },
        _ => Err(("this is no single quantity".to_owned(), cure())),
    }
}
