//! The one integration binary.

mod diagnostics;
mod docs;
mod support;
mod tidy;
