//! `size`: the largest capacitance of each line.

use super::terminal::say_diagnostics;
use super::{Failure, Outcome, Output, SizeArgs, load, pick_lines};
use crate::budget::Figures;
use crate::report::{render, size};

/// Computes the report and writes it.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the result cannot be written.
pub(super) fn run(args: &SizeArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load(&args.sheet)?;
    output.spare(&loaded.identities)?;
    let Some(mut port) = loaded.port else {
        say_diagnostics(&loaded.sources, &loaded.diagnostics);
        return Ok(Outcome::Failed);
    };
    let chosen = pick_lines(&port.names(), &args.lines)?;
    if let Some(capacitance) = args.fitted {
        port.fit(capacitance);
    }
    let figures = if args.nyquist { Figures::Nyquist } else { Figures::All };
    match size(&port, &chosen, figures, &loaded.sources) {
        Ok(report) => {
            output.write(&render(&report, args.format.into()))?;
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
