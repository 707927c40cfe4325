//! What is said on standard error.

use std::io::{IsTerminal, Write};

use super::Failure;
use crate::diag::{Diagnostic, Paint, Sources, render};

/// Colour on a terminal, unless `NO_COLOR` is set to anything or the terminal is a dumb one.
fn paint() -> Paint {
    let set = |name| std::env::var_os(name).filter(|value| !value.is_empty());
    let dumb = set("TERM").is_some_and(|term| term == "dumb");
    if std::io::stderr().is_terminal() && set("NO_COLOR").is_none() && !dumb { Paint::Ansi } else { Paint::Plain }
}

/// Shows diagnostics.
pub(super) fn say_diagnostics(sources: &Sources, diagnostics: &[Diagnostic]) {
    let paint = paint();
    for diagnostic in diagnostics {
        say(&render(sources, diagnostic, paint));
    }
}

/// Shows why a run failed.
pub(super) fn say_failure(failure: &Failure) {
    say_headed("\u{1b}[31m\u{1b}[1m", "error", failure);
}

/// Shows what is wrong with a result that was written all the same.
pub(super) fn say_warning(warning: &Failure) {
    say_headed("\u{1b}[33m\u{1b}[1m", "warning", warning);
}

fn say_headed(colour: &str, head: &str, what: &Failure) {
    let (colour, bold, plain) = match paint() {
        Paint::Ansi => (colour, "\u{1b}[0m\u{1b}[1m", "\u{1b}[0m"),
        Paint::Plain => ("", "", ""),
    };
    say(&format!("{colour}{head}{bold}: {}{plain}\n", what.message));
    if let Some(help) = &what.help {
        say(&format!("  = help: {help}\n"));
    }
}

/// Writes to standard error; there is nowhere to say that this failed.
fn say(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}
