//! The command line: parse the arguments, run, map the outcome to an exit status.

use std::io::ErrorKind;
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
        // A reader that has gone away has read enough.
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            eprintln!("error: cannot write standard output: {error}");
            Outcome::Failed
        }
        _ => Outcome::Holds,
    }
}
