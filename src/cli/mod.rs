//! The command line: reading, writing and printing happen here and nowhere else.

mod address;
mod args;
mod chart;
mod check;
mod completions;
mod discharge;
mod explain;
mod job;
mod lines;
mod manual;
mod output;
mod pick;
mod progress;
mod quantity;
mod range;
mod read;
mod replace;
mod report;
mod sampling;
mod sensitivity;
mod shared;
mod size;
mod starter;
mod sweep;
mod terminal;

pub use args::{
    ChartArgs, CheckArgs, Cli, Command, CompletionsArgs, DischargeArgs, ExplainArgs, PickArgs, RangeArgs, ReportArgs,
    SensitivityArgs, SizeArgs, SweepArgs,
};
pub use lines::pick_lines;
pub use output::Output;
pub use quantity::{capacitance, level};
pub use read::read_sheet;
pub use sampling::SamplingArgs;
pub use shared::{ChartShow, CheckFormat, ChosenArgs, OutputArgs, SheetArgs, SizeFormat, SourceArgs, TrialArgs};

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Every line holds.
    Holds,
    /// Some line breaks a limit or check, or cannot do without a protector.
    Breaks,
    /// Bad input or usage, or an output that could not be written.
    Failed,
}

impl Outcome {
    /// The exit status: 0, 1, 2.
    pub fn status(self) -> u8 {
        match self {
            Outcome::Holds => 0,
            Outcome::Breaks => 1,
            Outcome::Failed => 2,
        }
    }
}

/// Why a run could not be finished, where no place in a sheet is to blame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure {
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// What to do about it.
    pub help: Option<String>,
}

impl Failure {
    /// A failure without a cure.
    pub fn new(message: impl Into<String>) -> Failure {
        Failure { message: message.into(), help: None }
    }

    /// The same with a cure.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Failure {
        self.help = Some(help.into());
        self
    }
}

/// Runs a command to its end and says on standard error why it failed.
pub fn run(cli: Cli) -> Outcome {
    bound_threads();
    let done = match cli.command {
        Command::Size(args) => size::run(&args),
        Command::Pick(args) => pick::run(&args),
        Command::Report(args) => report::run(&args),
        Command::Chart(args) => chart::run(&args),
        Command::Discharge(args) => discharge::run(&args),
        Command::Sensitivity(args) => sensitivity::run(&args),
        Command::Sweep(args) => sweep::run(&args),
        Command::Range(args) => range::run(&args),
        Command::Explain(args) => explain::run(&args),
        Command::Check(args) => check::run(&args),
        Command::Starter(args) => starter::run(&args),
        Command::Completions(args) => completions::run(&args),
        Command::Manual(args) => manual::run(&args),
    };
    done.unwrap_or_else(|failure| {
        terminal::say_failure(&failure);
        Outcome::Failed
    })
}

/// No more threads than cores, whatever the environment asks for: the system may refuse them.
fn bound_threads() {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let asked = std::env::var("RAYON_NUM_THREADS").ok().and_then(|asked| asked.parse().ok());
    let threads = asked.filter(|asked| *asked > 0).map_or(cores, |asked: usize| asked.min(cores));
    // Refused where threads are there already: then those do the work.
    let _ = rayon::ThreadPoolBuilder::new().num_threads(threads).build_global();
}
