//! `pick`: every part on every line.

use super::terminal::say_diagnostics;
use super::{Failure, Outcome, Output, PickArgs, load, pick_lines};
use crate::report::{pick, render_pick};

/// Judges the parts and writes the result.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the result cannot be written.
pub(super) fn run(args: &PickArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load(&args.sheet)?;
    output.spare(&loaded.identities)?;
    let Some(port) = loaded.port else {
        say_diagnostics(&loaded.sources, &loaded.diagnostics);
        return Ok(Outcome::Failed);
    };
    let chosen = pick_lines(&port.names(), &args.lines)?;
    match pick(&port, &chosen) {
        Ok(report) => {
            output.write(&render_pick(&report, args.format.into()))?;
            Ok(if report.passes() {
                Outcome::Holds
            } else {
                Outcome::Breaks
            })
        }
        Err(errors) => {
            say_diagnostics(&loaded.sources, &errors);
            Ok(Outcome::Failed)
        }
    }
}
