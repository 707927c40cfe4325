//! Diagnostics as text.

use codespan_reporting::diagnostic::{Diagnostic as Drawn, Label, LabelStyle, Severity as Level};
use codespan_reporting::term::termcolor::Ansi;
use codespan_reporting::term::{Config, emit_into_string, emit_to_write_style};

use super::excerpt::Excerpts;
use super::inert::shorten;
use super::{Diagnostic, Severity, Sources};

/// Longest message or cure, in columns.
const LONGEST: usize = 600;

/// How the text is painted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paint {
    /// Plain text.
    #[default]
    Plain,
    /// With the colour codes of a terminal.
    Ansi,
}

/// The text of a diagnostic: its message, the underlined places and the cure, ended by an empty line.
///
/// Lines and columns are those of the file, counted from 1 and in characters. A very long line is shown in part, a span
/// over several lines by its first one. No control or direction character of the sheet reaches the text. A span out of
/// its file's range is shown at the nearest place in range; one of an unknown file is left out.
///
/// ```
/// use lanecap::diag::{render, Diagnostic, Paint, SourceFile, Sources, Span};
/// let sources = Sources { files: vec![SourceFile::new("port.lanes", "rate 5 Gbps\n")] };
/// let span = Span { file: 0, start: 7, end: 11 };
/// let text = render(&sources, &Diagnostic::error("unknown-unit", span, "unknown unit `Gbps`"), Paint::Plain);
/// assert!(text.starts_with("error[unknown-unit]: unknown unit `Gbps`\n  ┌─ port.lanes:1:8\n"));
/// assert!(text.contains("1 │ rate 5 Gbps\n  │        ^^^^"));
/// ```
pub fn render(sources: &Sources, diagnostic: &Diagnostic, paint: Paint) -> String {
    let (span, label) = &diagnostic.primary;
    let primary = std::iter::once((*span, LabelStyle::Primary, label.as_str()));
    let secondary = diagnostic.secondary.iter().map(|(span, label)| (*span, LabelStyle::Secondary, label.as_str()));
    let (excerpts, places) = Excerpts::around(sources, primary.chain(secondary));
    let level = match diagnostic.severity {
        Severity::Error => Level::Error,
        Severity::Warning => Level::Warning,
    };
    let labels = places
        .into_iter()
        .map(|place| Label::new(place.style, place.file, place.shown).with_message(place.message))
        .collect();
    let drawn = Drawn::new(level)
        .with_code(diagnostic.code)
        .with_message(shorten(&diagnostic.message, LONGEST))
        .with_labels(labels)
        .with_notes(diagnostic.help.iter().map(|help| format!("help: {}", shorten(help, LONGEST))).collect());
    let config = Config::default();
    let text = match paint {
        Paint::Plain => emit_into_string(&config, &excerpts, &drawn).ok(),
        Paint::Ansi => {
            let mut painted = Ansi::new(Vec::new());
            emit_to_write_style(&mut painted, &config, &excerpts, &drawn)
                .ok()
                .and_then(|()| String::from_utf8(painted.into_inner()).ok())
        }
    };
    text.unwrap_or_else(|| format!("{}\n\n", drawn.message))
}
