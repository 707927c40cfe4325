//! `size`: the largest capacitance of each line.

use super::job::{Job, refuse, verdict};
use super::progress::with_progress;
use super::{Failure, Outcome, SizeArgs};
use crate::budget::Figures;
use crate::reading::Addresses;
use crate::result::{Wanted, size};
use crate::text::render;

/// Computes the report and writes it.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the result cannot be written.
pub(super) fn run(args: &SizeArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, mut design, sources }) = Job::begin_with(&args.sheet, &args.output, Addresses::Toleranced)?
    else {
        return Ok(Outcome::Failed);
    };
    let chosen = args.chosen.places(&design)?;
    args.trial.fit(&mut design);
    let figures = if args.nyquist { Figures::Nyquist } else { Figures::All };
    let wanted = Wanted { figures, sampling: args.sampling.sampling() };
    match with_progress(chosen.len(), |done| size(&design, &chosen, wanted, &sources, done)) {
        Ok(report) => {
            output.write(&render(&report, args.format.into()))?;
            Ok(verdict(report.passes()))
        }
        Err(errors) => Ok(refuse(&sources, &errors)),
    }
}
