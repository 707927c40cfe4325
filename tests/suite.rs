//! The one integration binary.

// A test may stop at what it did not expect.
#![allow(clippy::unwrap_used, clippy::panic)]

mod support;

mod budget;
mod laws;
mod oracles;
