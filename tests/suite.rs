//! The one integration binary.

// A test may stop at what it did not expect.
#![allow(clippy::unwrap_used, clippy::panic)]

mod support;

mod asked;
mod budget;
mod charts;
mod cli;
mod diagnostics;
mod docs;
mod feeds;
mod gallery;
mod geometry;
mod laws;
mod library;
mod oracles;
mod page;
mod parts;
mod pick;
mod render;
mod resolve;
mod slow;
mod study;
mod tidy;
mod time;
mod transient;
mod units;
mod values;
