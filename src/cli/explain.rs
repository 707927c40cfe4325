//! `explain`: the working of one line.

use super::terminal::say_diagnostics;
use super::{ExplainArgs, Failure, Outcome, Output, load, pick_lines};
use crate::diag::shorten;
use crate::model::{LineRef, Port};
use crate::report::working;

/// Writes the working of the chosen line.
///
/// # Errors
/// Where the sheet cannot be read, the line is unknown or not named, or the result cannot be written.
pub(super) fn run(args: &ExplainArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let loaded = load(&args.sheet)?;
    output.spare(&loaded.identities)?;
    let Some(port) = &loaded.port else {
        say_diagnostics(&loaded.sources, &loaded.diagnostics);
        return Ok(Outcome::Failed);
    };
    match working(chosen(port, args.line.as_ref())?, &loaded.sources) {
        Ok(text) => {
            output.write(&text)?;
            Ok(Outcome::Holds)
        }
        Err(error) => {
            say_diagnostics(&loaded.sources, &[*error]);
            Ok(Outcome::Failed)
        }
    }
}

/// The line named, or the only one.
fn chosen<'a>(port: &'a Port, line: Option<&String>) -> Result<LineRef<'a>, Failure> {
    let names = port.names();
    let indices = pick_lines(&names, line.map(std::slice::from_ref).unwrap_or_default())?;
    let only = match indices.as_slice() {
        [only] => port.line(*only),
        _ => None,
    };
    match only {
        Some(line) => Ok(line),
        None => {
            let example = names
                .first()
                .map_or(String::new(), |name| format!(", e.g. --line \"{}\"", shorten(name, 60)));
            Err(Failure::new("the sheet has more than one line").help(format!("name the one to explain{example}")))
        }
    }
}
