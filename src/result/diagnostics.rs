//! Diagnostics as JSON, for `check`.

use serde::Serialize;

use super::json;
use super::outcome::SCHEMA;
use crate::diag::{Diagnostic, Severity, Sources, Span};

#[derive(Serialize)]
struct List<'a> {
    lanecap: &'static str,
    schema: u32,
    diagnostics: Vec<Entry<'a>>,
}

#[derive(Serialize)]
struct Entry<'a> {
    severity: &'static str,
    code: &'static str,
    message: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    count: Option<usize>,
    #[serde(flatten)]
    place: Place<'a>,
    end_line: Option<u32>,
    end_column: Option<u32>,
    label: &'a str,
    also: Vec<Also<'a>>,
    help: Option<&'a str>,
}

#[derive(Serialize)]
struct Place<'a> {
    file: Option<&'a str>,
    line: Option<u32>,
    column: Option<u32>,
}

#[derive(Serialize)]
struct Also<'a> {
    #[serde(flatten)]
    place: Place<'a>,
    label: &'a str,
}

/// The diagnostics as indented JSON.
///
/// Lines and columns count from 1, columns in characters; the end is one past the last character. File, line and column
/// are null where the file is unknown.
pub fn diagnostics_json(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    counted_diagnostics_json(sources, diagnostics.iter().map(|diagnostic| (diagnostic, 1)))
}

/// The same, each with how many it stands for, itself included: from 2 on that is its `count`.
pub fn counted_diagnostics_json<'a>(
    sources: &'a Sources,
    diagnostics: impl Iterator<Item = (&'a Diagnostic, usize)>,
) -> String {
    json::text(&List {
        lanecap: env!("CARGO_PKG_VERSION"),
        schema: SCHEMA,
        diagnostics: diagnostics.map(|(diagnostic, count)| entry(sources, diagnostic, count)).collect(),
    })
}

fn entry<'a>(sources: &'a Sources, diagnostic: &'a Diagnostic, count: usize) -> Entry<'a> {
    let (span, label) = &diagnostic.primary;
    let end = Span { start: span.end.max(span.start), ..*span };
    let end = place(sources, end);
    Entry {
        severity: match diagnostic.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
        },
        code: diagnostic.code,
        message: &diagnostic.message,
        count: Some(count).filter(|count| *count > 1),
        place: place(sources, *span),
        end_line: end.line,
        end_column: end.column,
        label,
        also: diagnostic.secondary.iter().map(|(span, label)| Also { place: place(sources, *span), label }).collect(),
        help: diagnostic.help.as_deref(),
    }
}

/// Where a span starts.
fn place(sources: &Sources, span: Span) -> Place<'_> {
    let file = sources.file(span);
    let start = file.map_or(0, |file| span.start.min(file.text.len() as u32));
    Place {
        file: file.map(|file| file.name.as_str()),
        line: file.map(|file| file.line(start)),
        column: file.map(|file| file.column(start)),
    }
}
