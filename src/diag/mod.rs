//! Diagnostics: errors and warnings as data, with the place they speak of and a cure.

mod diagnostics;
mod excerpt;
mod inert;
mod nearest;
mod render;
mod source;

pub use diagnostics::Diagnostics;
pub use inert::{inert, is_hostile, shorten};
pub use nearest::nearest;
pub use render::{Paint, render};
pub use source::{SourceFile, Sources};

/// A range of bytes in one of the files of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Span {
    /// Index of the file in [`Sources`].
    pub file: u32,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The span from the start of `self` to the end of `other`, both in one file.
    pub fn to(self, other: Span) -> Span {
        Span { file: self.file, start: self.start, end: other.end.max(self.start) }
    }
}

/// Whether a diagnostic stops the run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The sheet cannot be computed.
    Error,
    /// The sheet is computed; the reader should know.
    Warning,
}

/// One thing said about a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagnostic {
    /// Whether it stops the run.
    pub severity: Severity,
    /// Stable identifier in kebab case, one for each kind of mistake.
    pub code: &'static str,
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// The place, and a short word on it.
    pub primary: (Span, String),
    /// Other places involved.
    pub secondary: Vec<(Span, String)>,
    /// What to do about it.
    pub help: Option<String>,
}

impl Diagnostic {
    /// An error at `span`.
    pub fn error(code: &'static str, span: Span, message: impl Into<String>) -> Diagnostic {
        Diagnostic {
            severity: Severity::Error,
            code,
            message: message.into(),
            primary: (span, String::new()),
            secondary: Vec::new(),
            help: None,
        }
    }

    /// The same with a few words at the underlined place.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Diagnostic {
        self.primary.1 = label.into();
        self
    }

    /// The same with a second place involved.
    #[must_use]
    pub fn also(mut self, span: Span, label: impl Into<String>) -> Diagnostic {
        self.secondary.push((span, label.into()));
        self
    }

    /// The same with a cure.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Diagnostic {
        self.help = Some(help.into());
        self
    }
}
