//! What is found as a line is read.

use crate::diag::{Diagnostic, Span};
use crate::model::Note;

/// Remarks and errors of one line, gathered as it is read.
#[derive(Default)]
pub(crate) struct Findings {
    pub(crate) errors: Vec<Diagnostic>,
    pub(crate) defaults: Vec<Note>,
    pub(crate) warnings: Vec<Note>,
}

impl Findings {
    pub(crate) fn default_used(&mut self, code: &'static str, span: Span, text: impl Into<String>) {
        self.defaults.push(Note { code, text: text.into(), span: Some(span) });
    }

    pub(crate) fn warn(&mut self, code: &'static str, span: Span, text: impl Into<String>) {
        self.warnings.push(Note { code, text: text.into(), span: Some(span) });
    }
}
