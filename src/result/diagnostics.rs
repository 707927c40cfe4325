//! Diagnostics as JSON, for `check`.

use super::json;
use super::keys::{Keyed, Keys};
use super::report::versions;
use crate::diag::{Diagnostic, Severity, Sources, Span};

/// Diagnostics and the texts they speak of.
struct List<'a> {
    sources: &'a Sources,
    diagnostics: &'a [(&'a Diagnostic, usize)],
}

/// A diagnostic, and how many it stands for.
struct Entry<'a>(&'a Sources, &'a Diagnostic, usize);

/// A place beside the main one.
struct Also<'a>(&'a Sources, &'a (Span, String));

/// The diagnostics as indented JSON.
///
/// Lines and columns count from 1, columns in characters; the end is one past the last character. File, line and column
/// are null where the file is unknown.
pub fn diagnostics_json(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    let alone: Vec<(&Diagnostic, usize)> = diagnostics.iter().map(|diagnostic| (diagnostic, 1)).collect();
    counted_diagnostics_json(sources, &alone)
}

/// The same, each with how many it stands for, itself included: from 2 on that is its `count`.
pub fn counted_diagnostics_json(sources: &Sources, diagnostics: &[(&Diagnostic, usize)]) -> String {
    json::text(&List { sources, diagnostics })
}

impl Keyed for List<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        versions(to);
        to.list(
            "diagnostics",
            this.map(|list| list.diagnostics.iter().map(|(one, count)| Entry(list.sources, one, *count))),
        );
    }
}

impl Keyed for Entry<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let (sources, diagnostic) = (this.map(|this| this.0), this.map(|this| this.1));
        let severity = |diagnostic: &Diagnostic| match diagnostic.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
        };
        let primary = diagnostic.map(|diagnostic| &diagnostic.primary);
        let span = primary.map(|(span, _)| *span);
        to.text("severity", diagnostic.map(severity));
        to.text("code", diagnostic.map(|diagnostic| diagnostic.code));
        to.text("message", diagnostic.map(|diagnostic| diagnostic.message.as_str()));
        if let Some(Entry(.., count @ 2..)) = this {
            to.count("count", u32::try_from(*count).ok());
        }
        place(sources.zip(span), to);
        let end = span.map(|span| Span { start: span.end.max(span.start), ..span });
        let end = sources.zip(end).and_then(|(sources, end)| start(sources, end));
        to.count("end_line", end.map(|end| end.1));
        to.count("end_column", end.map(|end| end.2));
        to.text("label", primary.map(|(_, label)| label.as_str()));
        to.list("also", this.map(|Entry(sources, one, _)| one.secondary.iter().map(|also| Also(sources, also))));
        to.text("help", diagnostic.and_then(|diagnostic| diagnostic.help.as_deref()));
    }
}

impl Keyed for Also<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        place(this.map(|Also(sources, (span, _))| (*sources, *span)), to);
        to.text("label", this.map(|Also(_, (_, label))| label.as_str()));
    }
}

fn place<K: Keys>(at: Option<(&Sources, Span)>, to: &mut K) {
    let start = at.and_then(|(sources, span)| start(sources, span));
    to.text("file", start.map(|start| start.0));
    to.count("line", start.map(|start| start.1));
    to.count("column", start.map(|start| start.2));
}

/// File, line and column where a span starts.
fn start(sources: &Sources, span: Span) -> Option<(&str, u32, u32)> {
    let file = sources.file(span)?;
    let start = span.start.min(file.text.len() as u32);
    Some((file.name.as_str(), file.line(start), file.column(start)))
}
