//! The result as text for a terminal.

use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, presets};

use super::budgets::Parts;
use super::grid::Grid;
use super::section::Section;
use super::view::View;
use crate::diag::{inert, shorten};
use crate::result::Report;

/// Columns of the terminal that are used.
const WIDTH: u16 = 118;
/// Columns of a line's name in a table.
const NAME: usize = 24;
/// Columns beside a line's name above its section.
const VERDICT: u16 = 58;
/// Columns of any other text in a table.
const CELL: usize = 80;

/// The report as aligned text, at most 118 columns wide. Names are inert and shortened.
pub(crate) fn render(report: &Report) -> String {
    lay_out(&View::of(report, Parts::LeftToTheSections))
}

/// A view in the same layout.
pub(crate) fn lay_out(view: &View) -> String {
    lay_out_within(view, WIDTH)
}

/// A view in the same layout, at most so many columns wide.
pub(crate) fn lay_out_within(view: &View, width: u16) -> String {
    let mut text = String::new();
    if let Some(title) = &view.title {
        text.push_str(&format!("{}\n\n", shorten(title, width.into())));
    }
    for set in &view.set {
        push_wrapped(&mut text, ("", width), set);
    }
    if !view.set.is_empty() {
        text.push('\n');
    }
    for grid in &view.grids {
        push_grid(&mut text, grid, ("", width));
        text.push('\n');
    }
    for note in &view.footnotes {
        push_wrapped(&mut text, ("", width), note);
    }
    for section in &view.sections {
        push_section(&mut text, section, width);
    }
    text.push_str("\nKeep in mind\n");
    for caution in &view.cautions {
        push_wrapped(&mut text, ("  - ", width), caution);
    }
    text
}

fn push_section(text: &mut String, section: &Section, width: u16) {
    text.push_str(&format!(
        "\n{}: {}\n",
        shorten(&section.name, usize::from(width.saturating_sub(VERDICT))),
        section.verdict
    ));
    for fact in &section.facts {
        push_wrapped(text, ("  ", width), fact);
    }
    for grid in section.grids.iter().filter(|grid| !grid.rows.is_empty()) {
        text.push('\n');
        push_grid(text, grid, ("  ", width));
    }
    for (title, notes) in section.lists() {
        text.push_str(&format!("\n  {title}\n"));
        notes.iter().for_each(|note| push_wrapped(text, ("  - ", width), note));
    }
}

fn push_grid(text: &mut String, grid: &Grid, (indent, width): (&str, u16)) {
    let mut table = Table::new();
    table
        .load_preset(presets::NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(width.saturating_sub(indent.len() as u16))
        .set_header(&grid.header);
    for row in &grid.rows {
        let cell = |(column, text): (usize, &String)| shorten(text, if column == 0 { NAME } else { CELL });
        table.add_row(row.iter().enumerate().map(cell));
    }
    for (index, column) in table.column_iter_mut().enumerate() {
        column.set_padding((0, 2));
        if index == 0 {
            // Names are not broken, and stand at the left even where one looks like a number.
            column.set_constraint(ColumnConstraint::ContentWidth);
        }
        let numbers = grid.rows.iter().all(|row| row.get(index).is_some_and(|text| is_number(text)));
        if index > 0 && numbers && !grid.rows.is_empty() {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    text.push_str(&format!("{indent}{}\n", grid.title));
    for line in table.lines() {
        text.push_str(format!("{indent}  {line}").trim_end());
        text.push('\n');
    }
}

fn is_number(text: &str) -> bool {
    text == "-" || text.parse::<f64>().is_ok()
}

/// Appends `said` made inert, broken between words; the first line begins with `lead`, the others are indented as far.
fn push_wrapped(text: &mut String, (lead, width): (&str, u16), said: &str) {
    let room = width.saturating_sub(lead.len() as u16);
    let mut table = Table::new();
    table
        .load_preset(presets::NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(room)
        .add_row([inert(said)]);
    if let Some(column) = table.column_mut(0) {
        column.set_padding((0, 0));
    }
    let mut lead = lead.to_owned();
    for line in table.lines() {
        text.push_str(format!("{lead}{line}").trim_end());
        text.push('\n');
        lead = " ".repeat(lead.len());
    }
}
