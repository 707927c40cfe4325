//! One door to the renderers.

use super::{markdown, table};
use crate::result::{Report, csv, json};

/// How a report is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Format {
    /// Aligned text for a terminal.
    #[default]
    Table,
    /// Every number, in SI units.
    Json,
    /// One row per line of the port.
    Csv,
    /// Tables and notes for a document.
    Markdown,
}

/// The report in one of the formats, ended by a line end.
pub fn render(report: &Report, format: Format) -> String {
    match format {
        Format::Table => table::render(report),
        Format::Json => json::render(report),
        Format::Csv => csv::render(report),
        Format::Markdown => markdown::render(report),
    }
}
