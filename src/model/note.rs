//! What a reader should know of a line.

use crate::diag::Span;

/// A remark that belongs to a result: a default that was used, or a warning.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// Stable identifier in kebab case.
    pub code: &'static str,
    /// The remark.
    pub text: String,
    /// The place in the sheet it speaks of.
    pub span: Option<Span>,
}
