//! The one integration binary.

mod cli;
mod diagnostics;
mod docs;
mod render;
mod support;
mod tidy;
