//! `explain`: the working of one line.

use super::lines::only_line;
use super::terminal::say_diagnostics;
use super::{ExplainArgs, Failure, Outcome, Output, load};
use crate::report::working;

/// Writes the working of the chosen line.
///
/// # Errors
/// Where the sheet cannot be read, the line is unknown or not named, or the result cannot be written.
pub(super) fn run(args: &ExplainArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load(&args.sheet)?;
    output.spare(&loaded.identities)?;
    let Some(port) = &loaded.port else {
        say_diagnostics(&loaded.sources, &loaded.diagnostics);
        return Ok(Outcome::Failed);
    };
    match working(only_line(port, args.line.as_ref(), "explain")?, &loaded.sources) {
        Ok(text) => {
            output.write(&text)?;
            Ok(Outcome::Holds)
        }
        Err(error) => {
            say_diagnostics(&loaded.sources, &[*error]);
            Ok(Outcome::Failed)
        }
    }
}
