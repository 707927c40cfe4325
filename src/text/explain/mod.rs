//! The working of one line, so that every number can be checked by hand.

mod circuit;
mod decision;
mod feed;
mod lane;
mod slow;
mod time;
mod working;
mod write;

pub(crate) use feed::explain_feed;
pub(crate) use lane::explain;
pub(crate) use slow::{explain_bus, explain_rail};
pub use working::working;
