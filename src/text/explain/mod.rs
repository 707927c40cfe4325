//! The working of one line, so that every number can be checked by hand.

mod circuit;
mod decision;
mod discharge;
mod feed;
mod lane;
mod slow;
mod struck;
mod surge;
mod time;
mod working;
mod write;

pub(crate) use working::working_of;
pub use working::{working, working_drawn};
