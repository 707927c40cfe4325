//! The one integration binary.

mod diagnostics;
mod support;
