//! `check`: the diagnostics of a sheet.

use super::read::load_sheet;
use super::terminal::say_diagnostics;
use super::{CheckArgs, CheckFormat, Failure, Outcome, Output};
use crate::diag::{Paint, Severity, render};
use crate::load::SheetRead;
use crate::result::diagnostics_json;

/// Reports the diagnostics and how many there are.
///
/// As text they are shown on standard error, and only their number is the result; a file given by `-o` gets both.
///
/// # Errors
/// Where the sheet cannot be read or the result cannot be written.
pub(super) fn run(args: &CheckArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load_sheet(&args.sheet)?;
    output.spare(&loaded.identities)?;
    let result = match (args.format, &args.output.output) {
        (CheckFormat::Json, _) => diagnostics_json(&loaded.sources, &loaded.diagnostics),
        (CheckFormat::Table, None) => {
            say_diagnostics(&loaded.sources, &loaded.diagnostics);
            summary(&loaded)
        }
        (CheckFormat::Table, Some(_)) => {
            let texts = loaded.diagnostics.iter();
            let texts: String = texts.map(|diagnostic| render(&loaded.sources, diagnostic, Paint::Plain)).collect();
            texts + &summary(&loaded)
        }
    };
    output.write(&result)?;
    let failed = loaded.count(Severity::Error) > 0;
    Ok(if failed { Outcome::Failed } else { Outcome::Holds })
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
