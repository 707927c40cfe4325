//! The command line from outside: what is printed where, and how the run ends.

mod arguments;
mod beside;
mod chart;
mod discharge;
mod input;
mod output;
mod repeated;
mod set;
mod tolerance;

use assert_cmd::Command;

/// The program, in a neutral surrounding.
fn lanecap(args: &[&str]) -> Command {
    let mut command = Command::cargo_bin("lanecap").expect("the program");
    command.args(args).env_remove("NO_COLOR").env("COLUMNS", "100");
    command
}

/// Exit status, standard output and standard error.
fn run(args: &[&str]) -> (i32, String, String) {
    run_with(&mut lanecap(args))
}

fn run_with(command: &mut Command) -> (i32, String, String) {
    let output = command.output().expect("a run");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}
