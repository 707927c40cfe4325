//! `pick`: every part on every line.

use super::job::{Job, refuse, verdict};
use super::progress::with_progress;
use super::{Failure, Outcome, PickArgs};
use crate::reading::Addresses;
use crate::result::pick;
use crate::text::render_pick;

/// Judges the parts and writes the result.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the result cannot be written.
pub(super) fn run(args: &PickArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, design, sources }) = Job::begin_with(&args.sheet, &args.output, Addresses::Toleranced)?
    else {
        return Ok(Outcome::Failed);
    };
    let chosen = args.chosen.places(&design)?;
    match with_progress(chosen.len(), |done| pick(&design, &chosen, done)) {
        Ok(report) => {
            output.write(&render_pick(&report, args.format.into()))?;
            Ok(verdict(report.passes()))
        }
        Err(errors) => Ok(refuse(&sources, &errors)),
    }
}
