//! The result as text for a terminal.

use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, Width, presets};
use unicode_width::UnicodeWidthStr;

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
/// Columns of a value with its unit, which is not broken.
const VALUE: usize = 12;
/// Columns between two cells.
const GAP: usize = 2;

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
    if !text.ends_with("\n\n") {
        text.push('\n');
    }
    text.push_str(&format!(
        "{}: {}\n",
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
    text.push_str(&format!("{indent}{}\n", grid.title));
    let room = usize::from(width).saturating_sub(indent.len());
    let columns: Vec<Column> = (0..grid.header.len()).map(|index| Column::of(grid, index)).collect();
    for (number, block) in blocks(&columns, room).into_iter().enumerate() {
        if number > 0 {
            text.push('\n');
        }
        push_columns(text, &columns, &block, (indent, room as u16));
    }
}

/// A column of a table: its cells with the title first.
struct Column {
    cells: Vec<String>,
    numbers: bool,
    /// Columns that its longest word takes; of the names, their longest.
    least: usize,
    /// Columns that its longest cell takes.
    most: usize,
}

impl Column {
    fn of(grid: &Grid, index: usize) -> Column {
        let room = match index {
            0 if !grid.has_addresses() => NAME,
            // Neither a reason nor a warning beside a verdict is cut.
            _ if grid.has_reasons(index) => usize::from(u16::MAX),
            last if grid.has_verdicts() && last + 1 == grid.header.len() => usize::from(u16::MAX),
            _ => CELL,
        };
        let of_rows = || grid.rows.iter().map(|row| row.get(index).map_or("", String::as_str));
        // Names stand at the left even where one looks like a number.
        let numbers = index > 0 && !grid.rows.is_empty() && of_rows().all(is_number);
        let title = grid.header.get(index).cloned().unwrap_or_default();
        let cells: Vec<String> = std::iter::once(title).chain(of_rows().map(|cell| shorten(cell, room))).collect();
        let widest = |cell: &String| {
            // A value stays beside its unit.
            let whole = index == 0
                || cell.width() <= VALUE && cell.starts_with(|c: char| c.is_ascii_digit() || "+-".contains(c));
            let words = cell.split(' ').map(UnicodeWidthStr::width).max().unwrap_or(0);
            if whole { cell.width() } else { words.min(NAME) }
        };
        let least = cells.iter().map(widest).max().unwrap_or(0);
        let most = cells.iter().map(|cell| cell.width()).max().unwrap_or(0).max(least);
        Column { cells, numbers, least, most }
    }
}

/// Which columns stand beside each other, so that no word is broken; the first leads each block.
fn blocks(columns: &[Column], room: usize) -> Vec<Vec<usize>> {
    let names = columns.first().map_or(0, |column| column.least + GAP);
    let (mut blocks, mut taken) = (vec![vec![0]], names);
    for (index, column) in columns.iter().enumerate().skip(1) {
        let wide = column.least + GAP;
        if taken + wide > room && taken > names {
            blocks.push(vec![0]);
            taken = names;
        }
        if let Some(block) = blocks.last_mut() {
            block.push(index);
        }
        taken += wide;
    }
    blocks
}

/// How wide columns become side by side: what is left beside their least widths goes to each as far as it has use for it,
/// in equal shares to those with most.
fn widths(columns: &[&Column], room: usize) -> Vec<usize> {
    let mut widths: Vec<usize> = columns.iter().map(|column| column.least).collect();
    let taken: usize = widths.iter().map(|width| width + GAP).sum();
    let mut left = room.saturating_sub(taken);
    let mut open: Vec<usize> = (0..columns.len()).collect();
    open.sort_by_key(|place| columns[*place].most - columns[*place].least);
    for (number, place) in open.iter().enumerate() {
        let more = (columns[*place].most - columns[*place].least).min(left / (open.len() - number));
        widths[*place] += more;
        left -= more;
    }
    widths
}

fn push_columns(text: &mut String, columns: &[Column], block: &[usize], (indent, room): (&str, u16)) {
    let shown: Vec<&Column> = block.iter().filter_map(|index| columns.get(*index)).collect();
    let cells = |row: usize| shown.iter().filter_map(|column| column.cells.get(row)).collect::<Vec<_>>();
    let mut table = Table::new();
    table
        .load_preset(presets::NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(room)
        .set_header(cells(0));
    for row in 1..shown.first().map_or(0, |column| column.cells.len()) {
        table.add_row(cells(row));
    }
    let widths = widths(&shown, room.into());
    for ((column, of), width) in table.column_iter_mut().zip(&shown).zip(widths) {
        column.set_padding((0, GAP as u16));
        column.set_constraint(ColumnConstraint::Absolute(Width::Fixed((width + GAP) as u16)));
        if of.numbers {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
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
