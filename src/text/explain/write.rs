//! Rows, headings and remarks of a working.

use crate::diag::{inert, shorten};
use crate::model::AddressedValue;
use crate::result::{LineHead, Note, State};
use crate::units::decimal::working::picofarad;

/// Adds a row to a working, as `writeln!` would; writing to a string cannot fail.
macro_rules! say {
    ($text:expr, $($row:tt)+) => {{
        use std::fmt::Write as _;
        let _ = writeln!($text, $($row)+);
    }};
}
pub(crate) use say;

/// Three digits, as of any estimate.
pub(crate) fn amount(value: impl std::fmt::Display) -> String {
    format!("{value:.3}")
}

/// A working that holds nothing but its title.
pub(crate) fn titled(name: &str) -> String {
    let mut text = String::new();
    heading(&mut text, &format!("{}: the working", inert(&shorten(name, 80))), '=');
    text
}

/// The row above the figures of one state.
pub(crate) fn state_row<F, C>(text: &mut String, state: &State<F, C>) {
    let with = state.capacitance.map_or(String::new(), |c| format!(", C = {}", picofarad(c.0)));
    say!(text, "  {}{with}:", state.protector.word());
}

/// What stands in a working beside what was found of its line.
pub(crate) struct Last<'a> {
    /// The values that have an address.
    pub(crate) values: &'a [AddressedValue],
    /// The working of a discharge; empty for none.
    pub(crate) discharge: &'a str,
    /// What the reader must keep in mind.
    pub(crate) cautions: &'a [&'a str],
}

/// What stands below every working.
pub(crate) fn finish(text: &mut String, head: &LineHead, last: &Last<'_>) {
    if !last.discharge.is_empty() {
        text.push('\n');
        text.push_str(last.discharge);
    }
    let note = |note: &Note| {
        let place = note.line.map_or(String::new(), |line| format!("line {line}: "));
        format!("{place}{}", inert(&note.text))
    };
    list(text, "Defaults used", head.defaults.iter().map(note));
    list(text, "Warnings", head.warnings.iter().map(note));
    list(text, "Keep in mind", last.cautions.iter().map(|caution| format!("- {caution}")));
}

/// Rows below a title; nothing where there are none.
pub(crate) fn list(text: &mut String, title: &str, rows: impl ExactSizeIterator<Item = String>) {
    if rows.len() > 0 {
        heading(text, title, '-');
    }
    for row in rows {
        say!(text, "  {row}");
    }
}

pub(crate) fn heading(text: &mut String, title: &str, rule: char) {
    if !text.is_empty() {
        text.push('\n');
    }
    say!(text, "{title}\n{}", rule.to_string().repeat(title.chars().count()));
}
