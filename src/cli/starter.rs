//! `starter`: a commented sheet to begin from.

use super::{Failure, Outcome, Output, OutputArgs};

const STARTER: &str = include_str!("../../fixtures/sheets/ok/starter.lanes");

/// Writes the sheet.
///
/// # Errors
/// Where it cannot be written.
pub(super) fn run(args: &OutputArgs) -> Result<Outcome, Failure> {
    Output::open(args.output.as_deref())?.write(STARTER)?;
    Ok(Outcome::Holds)
}
