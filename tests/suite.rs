//! The one integration binary.

mod cli;
mod render;
