//! What the commands on a sheet share: where the result goes, the design it is made from, and how the run ends.

use super::read::load_sheet;
use super::terminal::say_diagnostics;
use super::{Failure, Outcome, Output, OutputArgs, SheetArgs};
use crate::diag::{Diagnostic, Sources};
use crate::model::Design;
use crate::reading::Addresses;

/// A sheet that was understood, and a place for what is made of it.
pub(super) struct Job {
    pub(super) output: Output,
    pub(super) design: Design,
    pub(super) sources: Sources,
}

impl Job {
    /// Opens the target, then reads the sheet with all its addresses; `None` after its errors have been said.
    ///
    /// # Errors
    /// Where the target cannot be written, the sheet cannot be read, or the target is one of its files.
    pub(super) fn begin(sheet: &SheetArgs, output: &OutputArgs) -> Result<Option<Job>, Failure> {
        Job::begin_with(sheet, output, Addresses::All)
    }

    /// The same with these addresses.
    ///
    /// # Errors
    /// As [`Job::begin`].
    pub(super) fn begin_with(
        sheet: &SheetArgs,
        output: &OutputArgs,
        addresses: Addresses,
    ) -> Result<Option<Job>, Failure> {
        let output = Output::open(output.output.as_deref())?;
        let loaded = load_sheet(sheet, addresses)?;
        output.spare(&loaded.identities)?;
        let Some(design) = loaded.design else {
            say_diagnostics(&loaded.sources, &loaded.diagnostics);
            return Ok(None);
        };
        Ok(Some(Job { output, design, sources: loaded.sources }))
    }
}

/// Says why nothing could be computed.
pub(super) fn refuse(sources: &Sources, errors: &[Diagnostic]) -> Outcome {
    say_diagnostics(sources, errors);
    Outcome::Failed
}

/// The outcome of a result whose lines hold or not.
pub(super) fn verdict(passes: bool) -> Outcome {
    if passes { Outcome::Holds } else { Outcome::Breaks }
}
