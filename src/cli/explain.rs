//! `explain`: the working of one line.

use super::terminal::say_diagnostics;
use super::{ExplainArgs, Failure, Outcome, Output, load, pick_lines};
use crate::diag::shorten;
use crate::model::Port;
use crate::report::{feed_working, working};

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
    let index = chosen(port, args.line.as_ref())?;
    let working = match index.checked_sub(port.lanes.len()) {
        None => working(&port.lanes[index], &loaded.sources),
        Some(index) => feed_working(&port.feeds[index], &loaded.sources),
    };
    match working {
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

/// The index of the line named, or of the only one.
fn chosen(port: &Port, line: Option<&String>) -> Result<usize, Failure> {
    let names = port.names();
    let indices = pick_lines(&names, line.map(std::slice::from_ref).unwrap_or_default())?;
    match indices.as_slice() {
        [only] => Ok(*only),
        _ => {
            let example = names
                .first()
                .map_or(String::new(), |name| format!(", e.g. --line \"{}\"", shorten(name, 60)));
            Err(Failure::new("the sheet has more than one line").help(format!("name the one to explain{example}")))
        }
    }
}
