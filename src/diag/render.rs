//! Diagnostics as text.
use super::{Diagnostic, Sources};
/// A rendered diagnostic.
pub type Rendered = String;
/// Text of a diagnostic.
pub fn render(_sources: &Sources, diagnostic: &Diagnostic) -> Rendered {
    diagnostic.message.clone()
}
