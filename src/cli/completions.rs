//! `completions`: for the shell.

use clap::CommandFactory;

use super::{Cli, CompletionsArgs, Failure, Outcome, Output};

/// Writes the completions of a shell.
///
/// # Errors
/// Where they cannot be written.
pub(super) fn run(args: &CompletionsArgs) -> Result<Outcome, Failure> {
    let output = Output::open(args.output.output.as_deref())?;
    let mut text = Vec::new();
    clap_complete::generate(args.shell, &mut Cli::command(), "lanecap", &mut text);
    output.write(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Holds)
}
