//! The one integration binary.

mod support;

mod budget;
mod cli;
mod diagnostics;
mod docs;
mod laws;
mod oracles;
mod render;
mod tidy;
