//! The one table of words: what each line holds, in which units and ranges.
//!
//! It drives the checks of [`super::read`], the messages, and the word table of the documentation.
//! A new word is a new row here, and its meaning in [`crate::model`].

mod blocks;
mod form;
mod reference;
mod words;

pub use super::schema::reference::word_table;
pub use super::schema::words::{BUS, FEED, LAMINATE, LANE, PART, PATH, RAIL, TABLE, TOP};
pub use blocks::{BLOCKS, argument_words, is_argument_word, is_top_block, may_head_block};
pub use form::{BlockSchema, Form, Named, Need, RowSchema, Shape, Slot, TOGETHER};
