//! The working of one line, so that every number can be checked by hand.

mod circuit;
mod decision;
mod feed;
mod lane;
mod slow;
mod time;
mod working;
mod write;

pub(super) use feed::explain_feed;
pub(super) use lane::explain;
pub(super) use slow::{explain_bus, explain_rail};
pub use working::working;
