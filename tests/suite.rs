//! The one integration binary.

mod support;

mod budget;
mod laws;
mod oracles;
