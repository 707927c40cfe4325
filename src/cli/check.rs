//! `check`: the diagnostics of a sheet.

use std::borrow::Cow;
use std::collections::HashMap;

use super::read::load_sheet;
use super::terminal::say_diagnostics;
use super::{CheckArgs, CheckFormat, Failure, Outcome, Output};
use crate::diag::{Diagnostic, Paint, Severity, Sources, render};
use crate::figures::LineKind;
use crate::load::SheetRead;
use crate::reading::Addresses;
use crate::result::counted_diagnostics_json;

/// Warnings that say the same and are said one by one.
const MOST_ALONE: usize = 3;

/// Reports the diagnostics and how many there are.
///
/// Warnings that say the same of many lines are said once, at the first. As text they are shown on standard error, and only
/// their number is the result; a file given by `-o` gets both.
///
/// # Errors
/// Where the sheet cannot be read or the result cannot be written.
pub(super) fn run(args: &CheckArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load_sheet(&args.sheet, Addresses::Toleranced)?;
    output.spare(&loaded.identities)?;
    let sources = &loaded.sources;
    let counted = together(sources, &loaded.diagnostics);
    let result = match (args.format, &args.output.output) {
        (CheckFormat::Json, _) => counted_diagnostics_json(sources, &counted),
        (CheckFormat::Table, None) => {
            say_diagnostics(sources, &counted.into_iter().map(spoken).collect::<Vec<_>>());
            summary(&loaded)
        }
        (CheckFormat::Table, Some(_)) => {
            let texts: String = counted.into_iter().map(|one| render(sources, &spoken(one), Paint::Plain)).collect();
            texts + &summary(&loaded)
        }
    };
    output.write(&result)?;
    let failed = loaded.count(Severity::Error) > 0;
    Ok(if failed { Outcome::Failed } else { Outcome::Holds })
}

/// The diagnostics, each with how many it stands for: warnings that say the same at more than [`MOST_ALONE`] places are one,
/// in the place of the first.
///
/// They say the same where code and text are the same, but for the name of their own line: whatever else they name, or
/// another number, is another thing to know.
fn together<'a>(sources: &Sources, diagnostics: &'a [Diagnostic]) -> Vec<(&'a Diagnostic, usize)> {
    let mut counts = HashMap::new();
    let of_warnings = |diagnostic: &'a Diagnostic| {
        (diagnostic.severity == Severity::Warning).then(|| (diagnostic.code, said(sources, diagnostic)))
    };
    for key in diagnostics.iter().filter_map(of_warnings) {
        *counts.entry(key).or_insert(0) += 1;
    }
    let counted = |diagnostic| {
        let Some(count) = of_warnings(diagnostic).and_then(|key| counts.get_mut(&key)) else {
            return Some((diagnostic, 1));
        };
        match *count {
            0 => None,
            1..=MOST_ALONE => Some((diagnostic, 1)),
            _ => Some((diagnostic, std::mem::take(count))),
        }
    };
    diagnostics.iter().filter_map(counted).collect()
}

/// What a diagnostic says, without the name of its own line: `bus "wire 1"` at the start of the text, at that name.
fn said<'a>(sources: &Sources, diagnostic: &'a Diagnostic) -> Cow<'a, str> {
    let span = diagnostic.primary.0;
    let text = sources.file(span).and_then(|file| file.text.get(span.start as usize..span.end as usize));
    let message = diagnostic.message.as_str();
    let rest = text.filter(|text| text.starts_with('"')).and_then(|name| {
        let after_kind = LineKind::ALL.into_iter().find_map(|kind| message.strip_prefix(kind.word()))?;
        after_kind.strip_prefix(' ')?.strip_prefix(name)
    });
    rest.map_or(Cow::Borrowed(message), |rest| Cow::Owned(format!("\"\"{rest}")))
}

/// A diagnostic as it is said for all it stands for.
fn spoken((diagnostic, count): (&Diagnostic, usize)) -> Diagnostic {
    let mut spoken = diagnostic.clone();
    if count > 1 {
        spoken.message.push_str(&format!(" (and at {} more places, the first is shown)", count - 1));
    }
    spoken
}

/// How many errors and warnings the sheet has.
fn summary(loaded: &SheetRead) -> String {
    let name = loaded.sources.files.first().map_or("-", |file| file.name.as_str());
    let counted = |severity, word| match loaded.count(severity) {
        0 => format!("no {word}s"),
        1 => format!("1 {word}"),
        count => format!("{count} {word}s"),
    };
    format!(
        "{}: {}, {}\n",
        crate::diag::inert(name),
        counted(Severity::Error, "error"),
        counted(Severity::Warning, "warning")
    )
}
