//! `size`: the largest capacitance of each line.

use super::terminal::say_diagnostics;
use super::{Failure, Outcome, Output, SizeArgs, load};
use crate::model::Port;
use crate::report::{Report, render};

/// Computes the report and writes it.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the result cannot be written.
pub(super) fn run(args: &SizeArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load(&args.sheet)?;
    output.spare(&loaded.origin)?;
    say_diagnostics(&loaded.sources, &loaded.diagnostics);
    let Some(port) = &loaded.port else {
        return Ok(Outcome::Failed);
    };
    let report = compute(port, args)?;
    output.write(&render(&report, args.format.into()))?;
    Ok(if report.passes() {
        Outcome::Holds
    } else {
        Outcome::Breaks
    })
}

/// The report on the chosen lines.
fn compute(port: &Port, args: &SizeArgs) -> Result<Report, Failure> {
    let names: Vec<&str> = port.lanes.iter().map(|lane| lane.name.as_str()).collect();
    let _chosen = super::pick_lines(&names, &args.lines)?;
    Err(Failure::new("no budget can be computed yet"))
}
