//! One door to the renderers.

use super::view::View;
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

/// A result in one of the formats, each made where it is asked for; ended by a line end.
pub(super) fn written(
    format: Format,
    view: impl FnOnce() -> View,
    json: impl FnOnce() -> String,
    csv: impl FnOnce() -> String,
) -> String {
    match format {
        Format::Table => table::lay_out(&view()),
        Format::Markdown => markdown::lay_out(&view()),
        Format::Json => json(),
        Format::Csv => csv(),
    }
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
