//! `discharge`: what a discharge leaves at the chip of each line.

use super::job::Job;
use super::progress::with_progress;
use super::{DischargeArgs, Failure, Outcome};
use crate::reading::Addresses;
use crate::result::discharges;
use crate::text::render_discharge;

/// Computes the discharges and writes what they leave.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the result cannot be written.
pub(super) fn run(args: &DischargeArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, design, .. }) = Job::begin_with(&args.sheet, &args.output, Addresses::Toleranced)? else {
        return Ok(Outcome::Failed);
    };
    let chosen = args.chosen.places(&design)?;
    let named = !args.chosen.lines.is_empty();
    let report = with_progress(chosen.len(), |done| discharges(&design, &chosen, args.level, named, done));
    output.write(&render_discharge(&report, args.format.into()))?;
    Ok(Outcome::Holds)
}
