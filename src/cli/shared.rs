//! What several commands take: data only.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::quantity::capacitance;
use crate::curve::Show;
use crate::text::Format;
use crate::units::Farad;

/// The sheet, and what is other than it states.
#[derive(Debug, Clone, Args)]
pub struct SheetArgs {
    /// Where it comes from.
    #[command(flatten)]
    pub from: SourceArgs,
    /// As if the sheet stated this value, e.g. "camera link/7.length=3 mm"; may be given more than once.
    #[arg(long = "set", value_name = "LINE/ADDRESS=VALUE")]
    pub set: Vec<String>,
}

/// Where the sheet comes from: exactly one of the two.
#[derive(Debug, Clone, Args)]
#[group(required = true, multiple = false)]
pub struct SourceArgs {
    /// The lane sheet; `-` is standard input.
    #[arg(value_name = "SHEET")]
    pub sheet: Option<PathBuf>,
    /// The built-in demonstration port in place of a sheet.
    #[arg(long)]
    pub demo: bool,
}

/// Which lines of the port, all where none is named.
#[derive(Debug, Clone, Args)]
pub struct ChosenArgs {
    /// Only the line of this name; may be given more than once.
    #[arg(long = "line", value_name = "NAME")]
    pub lines: Vec<String>,
}

/// A capacitance in place of the protectors of the sheet.
#[derive(Debug, Clone, Args)]
pub struct TrialArgs {
    /// Take this capacitance, one line to ground, instead of the sheet's, e.g. 0.3pF.
    #[arg(long, value_name = "C", value_parser = capacitance, allow_hyphen_values = true)]
    pub fitted: Option<Farad>,
}

/// Where the result goes.
#[derive(Debug, Clone, Args)]
pub struct OutputArgs {
    /// Write to FILE, whole or not at all, instead of standard output.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// Forms of the result of `size`, `pick` and `discharge`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum SizeFormat {
    /// Aligned text.
    #[default]
    Table,
    /// Every number, in SI units.
    Json,
    /// One row per line of the port, SI units.
    Csv,
    /// Tables and notes for a document.
    Markdown,
}

impl From<SizeFormat> for Format {
    fn from(format: SizeFormat) -> Format {
        match format {
            SizeFormat::Table => Format::Table,
            SizeFormat::Json => Format::Json,
            SizeFormat::Csv => Format::Csv,
            SizeFormat::Markdown => Format::Markdown,
        }
    }
}

/// Pictures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ChartShow {
    /// Insertion loss against frequency.
    Loss,
    /// Return loss against frequency, at the port plane and from the inner end.
    Reflection,
    /// The distance to every limit, and the eye penalty, against the capacitance.
    Penalty,
    /// The worst-pattern eye.
    Eye,
    /// The impedance along the path.
    Impedance,
    /// The match of an antenna feed over its band, with the frequency of least reflection.
    Match,
    /// What a contact discharge leaves at the chip, over time and over its level: an estimate.
    Discharge,
    /// The share of settings within the tolerances that allow a capacitance.
    Yield,
    /// What buys more, of a lane, a feed or a bus.
    Sensitivity,
}

impl ChartShow {
    /// The picture that only a lane has; `None` for that of a feed, and for those of lines of any kind.
    pub fn of_lane(self) -> Option<Show> {
        match self {
            ChartShow::Loss => Some(Show::Loss),
            ChartShow::Reflection => Some(Show::Reflection),
            ChartShow::Penalty => Some(Show::Penalty),
            ChartShow::Eye => Some(Show::Eye),
            ChartShow::Impedance => Some(Show::Impedance),
            ChartShow::Match | ChartShow::Discharge | ChartShow::Yield | ChartShow::Sensitivity => None,
        }
    }
}

/// Forms of the result of `check`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum CheckFormat {
    /// Text that shows each place.
    #[default]
    Table,
    /// A list of data.
    Json,
}
