//! What may be typed: data only.

use clap::{Args, Parser, Subcommand};

use super::quantity::level;
use super::sampling::SamplingArgs;
use super::shared::{ChartShow, CheckFormat, ChosenArgs, OutputArgs, SheetArgs, SizeFormat, TrialArgs};
use crate::units::Volt;

/// How much capacitance an ESD protector may put on each line of a port.
#[derive(Debug, Parser)]
#[command(
    name = "lanecap",
    version,
    max_term_width = 100,
    after_help = "Begin with:\n  lanecap size --demo\n  lanecap starter -o port.lanes\n  lanecap size port.lanes\n\n\
                  Exit status: 0 every line holds; 1 some line breaks a limit or check, or cannot do without a \
                  protector; 2 bad input, usage or an output that could not be written."
)]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// The largest capacitance each line tolerates, and whether the fitted one holds.
    #[command(after_help = "Example:\n  lanecap size port.lanes --line \"camera link\" --fitted 0.3pF")]
    Size(SizeArgs),
    /// Every part of the sheet on every line: the recommended one, and the packages each port needs.
    #[command(after_help = "Example:\n  lanecap pick port.lanes --format csv -o parts.csv\n\n\
                            Exit status: 0 every line has a part that passes; 1 some line has none; 2 bad input, usage or \
                            an output that could not be written.")]
    Pick(PickArgs),
    /// One self-contained HTML page for a design review: summary, port bill, every line with its charts, cautions.
    #[command(after_help = "Example:\n  lanecap report port.lanes -o port.html")]
    Report(ReportArgs),
    /// One picture of one line, as SVG or PNG.
    #[command(
        after_help = "Example:\n  lanecap chart port.lanes --line \"camera link\" --show reflection -o camera.svg"
    )]
    Chart(ChartArgs),
    /// What a contact discharge or a surge leaves at the chip of each line that states one: an estimate.
    #[command(after_help = "Example:\n  lanecap discharge port.lanes --line \"camera link\" --level 4kV\n\n\
                      Exit status: 0 the result was written, whatever it says; 2 bad input, usage or an output that could \
                      not be written.")]
    Discharge(DischargeArgs),
    /// What each value of a line does to its budget, and what buys more.
    #[command(after_help = "Example:\n  lanecap sensitivity port.lanes --line \"camera link\"\n\n\
                      Exit status: 0 the result was written; 2 bad input, usage or an output that could not be written.")]
    Sensitivity(SensitivityArgs),
    /// The budget and every figure of one line over the values of one or two of its addresses.
    #[command(
        after_help = "Example:\n  lanecap sweep port.lanes --line \"camera link\" --over \"7.length from 1 mm to 20 mm\" -o \
                      length.svg\n\nThe addresses of a line are told by `explain`. Two --over make a map.\n\n\
                      Exit status: 0 the result was written; 2 bad input, usage or an output that could not be written."
    )]
    Sweep(SweepArgs),
    /// The values of one address for which a line holds with what is fitted.
    #[command(after_help = "Example:\n  lanecap range port.lanes --line \"camera link\" --of 5.inductance\n\n\
                      The addresses of a line are told by `explain`. Where the line states a discharge, the checks of its chip \
                      count too.\n\n\
                      Exit status: 0 the result was written; 2 bad input, usage or an output that could not be written.")]
    Range(RangeArgs),
    /// The working of one line, step by step, to be checked by hand.
    #[command(after_help = "Example:\n  lanecap explain port.lanes --line \"camera link\"")]
    Explain(ExplainArgs),
    /// The errors and warnings of a sheet, without computing anything.
    #[command(after_help = "Example:\n  lanecap check port.lanes --format json")]
    Check(CheckArgs),
    /// A commented sheet to begin from.
    #[command(after_help = "Example:\n  lanecap starter -o port.lanes")]
    Starter(OutputArgs),
    /// Completions for a shell.
    #[command(after_help = "Example:\n  lanecap completions fish -o ~/.config/fish/completions/lanecap.fish")]
    Completions(CompletionsArgs),
    /// The manual page.
    #[command(after_help = "Example:\n  lanecap manual -o lanecap.1")]
    Manual(OutputArgs),
}

/// Arguments of `size`.
#[derive(Debug, Clone, Args)]
pub struct SizeArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: SizeFormat,
    /// Leave out the time domain (eye, rise, impedance dip) but for what the limits ask for.
    #[arg(long)]
    pub nyquist: bool,
    /// The lines to keep.
    #[command(flatten)]
    pub chosen: ChosenArgs,
    /// The capacitance to judge.
    #[command(flatten)]
    pub trial: TrialArgs,
    /// How settings are drawn.
    #[command(flatten)]
    pub sampling: SamplingArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `discharge`.
#[derive(Debug, Clone, Args)]
pub struct DischargeArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: SizeFormat,
    /// A contact discharge of this level on every line that states a path, instead of the sheet's, e.g. 4kV.
    #[arg(long, value_name = "V", value_parser = level, allow_hyphen_values = true)]
    pub level: Option<Volt>,
    /// The lines to keep.
    #[command(flatten)]
    pub chosen: ChosenArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `report`.
#[derive(Debug, Clone, Args)]
pub struct ReportArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// The lines to keep.
    #[command(flatten)]
    pub chosen: ChosenArgs,
    /// The capacitance to judge.
    #[command(flatten)]
    pub trial: TrialArgs,
    /// How settings are drawn.
    #[command(flatten)]
    pub sampling: SamplingArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `pick`.
#[derive(Debug, Clone, Args)]
pub struct PickArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: SizeFormat,
    /// The lines to keep.
    #[command(flatten)]
    pub chosen: ChosenArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `chart`.
#[derive(Debug, Clone, Args)]
pub struct ChartArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// What to show: `match` of an antenna feed, `yield` of any line with tolerances, `discharge` and `sensitivity` of lines of
    /// other kinds too, all else of a lane.
    #[arg(long, value_enum)]
    pub show: ChartShow,
    /// The line to draw; may be left out where the sheet has only one such line.
    #[arg(long, value_name = "NAME")]
    pub line: Option<String>,
    /// The capacitance to judge.
    #[command(flatten)]
    pub trial: TrialArgs,
    /// How settings are drawn.
    #[command(flatten)]
    pub sampling: SamplingArgs,
    /// The target; its name ends in .svg or .png. Standard output takes SVG.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `sensitivity`.
#[derive(Debug, Clone, Args)]
pub struct SensitivityArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: SizeFormat,
    /// The lines to keep.
    #[command(flatten)]
    pub chosen: ChosenArgs,
    /// The capacitance to judge.
    #[command(flatten)]
    pub trial: TrialArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `sweep`.
#[derive(Debug, Clone, Args)]
pub struct SweepArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// The line; may be left out where the sheet has only one.
    #[arg(long, value_name = "NAME")]
    pub line: Option<String>,
    /// An address with the values it goes over; may be given twice, for a map.
    #[arg(long, required = true, value_name = "ADDRESS from Q to Q")]
    pub over: Vec<String>,
    /// Steps between the values, both ends included.
    #[arg(long, default_value_t = 40, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub steps: u32,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: SizeFormat,
    /// The capacitance to judge.
    #[command(flatten)]
    pub trial: TrialArgs,
    /// The target; a picture where its name ends in .svg or .png.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `range`.
#[derive(Debug, Clone, Args)]
pub struct RangeArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// The line; may be left out where the sheet has only one.
    #[arg(long, value_name = "NAME")]
    pub line: Option<String>,
    /// The address, and the two values it is searched between where they are not the usual ones.
    #[arg(long, value_name = "ADDRESS [from Q to Q]")]
    pub of: String,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: SizeFormat,
    /// The capacitance to judge.
    #[command(flatten)]
    pub trial: TrialArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `explain`.
#[derive(Debug, Clone, Args)]
pub struct ExplainArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// The line to explain; may be left out where the sheet has only one.
    #[arg(long, value_name = "NAME")]
    pub line: Option<String>,
    /// How settings are drawn.
    #[command(flatten)]
    pub sampling: SamplingArgs,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `check`.
#[derive(Debug, Clone, Args)]
pub struct CheckArgs {
    /// The sheet.
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// Form of the result.
    #[arg(long, value_enum, default_value_t)]
    pub format: CheckFormat,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}

/// Arguments of `completions`.
#[derive(Debug, Clone, Args)]
pub struct CompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
    /// The target.
    #[command(flatten)]
    pub output: OutputArgs,
}
