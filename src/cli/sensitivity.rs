//! `sensitivity`: what each value does to the budget, and what buys more.

use super::job::{Job, refuse};
use super::progress::with_progress;
use super::{Failure, Outcome, SensitivityArgs};
use crate::model::Kind;
use crate::result::sensitivity;
use crate::text::render_sensitivity;

/// Computes what the values do and writes it.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown, a rail alone is asked for, or the result cannot be written.
pub(super) fn run(args: &SensitivityArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, mut design, sources }) = Job::begin(&args.sheet, &args.output)? else {
        return Ok(Outcome::Failed);
    };
    let chosen = args.chosen.places(&design)?;
    let is_rail = |index: &usize| matches!(design.lines[*index].kind, Kind::Rail(_));
    if !args.chosen.lines.is_empty() && chosen.iter().all(is_rail) {
        return Err(Failure::new("a rail has no budget").help("name a lane, a feed or a bus"));
    }
    args.trial.fit(&mut design);
    match with_progress(chosen.len(), |done| sensitivity(&design, &chosen, done)) {
        Ok(report) => {
            output.write(&render_sensitivity(&report, args.format.into()))?;
            Ok(Outcome::Holds)
        }
        Err(errors) => Ok(refuse(&sources, &errors)),
    }
}
