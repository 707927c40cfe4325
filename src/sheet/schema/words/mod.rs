//! The words themselves, block by block.

mod lines;
mod part;
mod path;

pub use super::words::lines::{BUS, FEED, LANE, RAIL, TABLE, TOP};
pub use super::words::part::{LAMINATE, PART};
pub use super::words::path::PATH;
use super::{Form, Named, Need, RowSchema, Shape, Slot};
use crate::figures::Range;

const fn line(word: &'static str, form: Form, doc: &'static str) -> RowSchema {
    RowSchema { word, form, repeats: false, doc }
}

const fn element(word: &'static str, slots: &'static [Slot], named: &'static [Named], doc: &'static str) -> RowSchema {
    RowSchema { word, form: Form::Arguments { slots, named }, repeats: true, doc }
}

const fn value(word: &'static str, slots: &'static [Slot], doc: &'static str) -> RowSchema {
    RowSchema { word, form: Form::Arguments { slots, named: &[] }, repeats: false, doc }
}

const fn slot(name: &'static str, kind: Range, need: Need) -> Slot {
    Slot { name, kind, need, varies: false }
}

const fn named(word: &'static str, shape: Shape, doc: &'static str) -> Named {
    Named { word, shape, doc, varies: false }
}
