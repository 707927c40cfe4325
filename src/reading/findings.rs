//! What is found as a line is read.

use crate::diag::{Diagnostic, Span};
use crate::model::{AddressedValue, Note};
use crate::resolve::Remark;

/// Remarks and errors of one line, gathered as it is read.
#[derive(Default)]
pub(crate) struct Findings {
    pub(crate) errors: Vec<Diagnostic>,
    pub(crate) defaults: Vec<Note>,
    pub(crate) warnings: Vec<Note>,
    /// The values that have an address.
    pub(crate) values: Vec<AddressedValue>,
}

impl Findings {
    pub(crate) fn default_used(&mut self, code: &'static str, span: Span, text: impl Into<String>) {
        self.defaults.push(Note { code, text: text.into(), span: Some(span) });
    }

    pub(crate) fn warn(&mut self, code: &'static str, span: Span, text: impl Into<String>) {
        self.warnings.push(Note { code, text: text.into(), span: Some(span) });
    }

    /// A remark on a value, among the defaults or the warnings.
    pub(crate) fn remark(&mut self, remark: &Remark, span: Span) {
        let list = if remark.is_warning() { &mut self.warnings } else { &mut self.defaults };
        list.push(remark.note(Some(span)));
    }
}
