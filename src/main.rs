//! The command line: parse the arguments, run, map the outcome to an exit status.

use std::io::Write;
use std::process::ExitCode;

use clap::Parser;
use lanecap::cli::{self, Cli, Outcome};

fn main() -> ExitCode {
    let outcome = match Cli::try_parse() {
        Ok(cli) => cli::run(cli),
        Err(answer) => show(&answer),
    };
    ExitCode::from(outcome.status())
}

/// Prints what clap answers by itself: help, version, or what is wrong with the arguments.
fn show(answer: &clap::Error) -> Outcome {
    let printed = answer.print();
    if answer.use_stderr() {
        return Outcome::Failed;
    }
    match printed {
        Err(error) => {
            // Standard error may be gone, too.
            let _ = writeln!(std::io::stderr(), "error: cannot write standard output: {error}");
            Outcome::Failed
        }
        Ok(()) => Outcome::Holds,
    }
}
