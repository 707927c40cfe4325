//! `report`: the page for a design review.

use super::job::{Job, refuse, verdict};
use super::progress::with_progress;
use super::terminal::say_diagnostics;
use super::{Failure, Outcome, ReportArgs};
use crate::page::page;
use crate::page::{REVIEW_ROUNDS, review_drawn};

/// Computes the report with its charts and writes the page; pictures that are left out are said on standard error.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the page cannot be written.
pub(super) fn run(args: &ReportArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, mut design, sources }) = Job::begin(&args.sheet, &args.output)? else {
        return Ok(Outcome::Failed);
    };
    let chosen = args.chosen.places(&design)?;
    args.trial.fit(&mut design);
    let steps = REVIEW_ROUNDS * chosen.len();
    match with_progress(steps, |done| review_drawn(&design, &chosen, args.sampling.sampling(), &sources, done)) {
        Ok(review) => {
            output.write(&page(&review))?;
            say_diagnostics(&sources, &review.left_out);
            Ok(verdict(review.report.passes()))
        }
        Err(errors) => Ok(refuse(&sources, &errors)),
    }
}
