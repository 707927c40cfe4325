//! Rows, headings and remarks of a working.

use std::fmt::Write as _;

use crate::diag::inert;
use crate::result::Note;

/// What stands below every working.
pub(crate) fn finish(text: &mut String, defaults: &[Note], warnings: &[Note], cautions: &[&str]) {
    notes(text, "Defaults used", defaults);
    notes(text, "Warnings", warnings);
    if cautions.is_empty() {
        return;
    }
    heading(text, "Keep in mind", '-');
    for caution in cautions {
        line(text, &format!("  - {caution}"));
    }
}

pub(crate) fn notes(text: &mut String, title: &str, notes: &[Note]) {
    if notes.is_empty() {
        return;
    }
    heading(text, title, '-');
    for note in notes {
        let place = note.line.map_or(String::new(), |line| format!("line {line}: "));
        line(text, &format!("  {place}{}", inert(&note.text)));
    }
}

pub(crate) fn heading(text: &mut String, title: &str, rule: char) {
    if !text.is_empty() {
        text.push('\n');
    }
    line(text, title);
    line(text, &rule.to_string().repeat(title.chars().count()));
}

pub(crate) fn line(text: &mut String, line: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{line}");
}
