//! `explain`: the working of one line.

use super::job::{Job, refuse};
use super::lines::only_line;
use super::{ExplainArgs, Failure, Outcome};
use crate::text::working_drawn;
use crate::words::set::sentence;

/// Writes the working of the chosen line.
///
/// # Errors
/// Where the sheet cannot be read, the line is unknown or not named, or the result cannot be written.
pub(super) fn run(args: &ExplainArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, design, sources }) = Job::begin(&args.sheet, &args.output)? else {
        return Ok(Outcome::Failed);
    };
    let line = only_line(&design, args.line.as_ref(), "explain")?;
    match working_drawn(line, args.sampling.sampling(), &sources) {
        Ok(text) => {
            let set: String = design.set.iter().map(|set| format!("{}\n", sentence(set))).collect();
            let gap = if set.is_empty() { "" } else { "\n" };
            output.write(&format!("{set}{gap}{text}"))?;
            Ok(Outcome::Holds)
        }
        Err(error) => Ok(refuse(&sources, &[*error])),
    }
}
