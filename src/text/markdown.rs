//! The result as Markdown.

use super::budgets::Parts;
use super::grid::Grid;
use super::section::Section;
use super::view::View;
use crate::diag::inert;
use crate::result::Report;

/// The report as Markdown with tables. Names stay text: nothing in them becomes markup.
pub(crate) fn render(report: &Report) -> String {
    lay_out(&View::of(report, Parts::Named))
}

/// A view in the same layout.
pub(crate) fn lay_out(view: &View) -> String {
    let title = view.title.as_deref().unwrap_or("Capacitance budget");
    let mut text = format!("# {}\n\n", escape(title));
    for set in &view.set {
        text.push_str(&format!("{}\n\n", escape(set)));
    }
    for grid in &view.grids {
        text.push_str(&format!("## {}\n\n", escape(grid.title)));
        push_grid(&mut text, grid);
    }
    for note in &view.footnotes {
        text.push_str(&format!("{}\n\n", escape(note)));
    }
    for section in &view.sections {
        push_section(&mut text, section);
    }
    text.push_str("## Keep in mind\n\n");
    for caution in &view.cautions {
        push_item(&mut text, caution);
    }
    text
}

fn push_section(text: &mut String, section: &Section) {
    text.push_str(&format!("## {}: {}\n\n", escape(&section.name), escape(&section.verdict)));
    for fact in &section.facts {
        push_item(text, fact);
    }
    text.push('\n');
    for grid in section.grids.iter().filter(|grid| !grid.rows.is_empty()) {
        text.push_str(&format!("### {}\n\n", escape(grid.title)));
        push_grid(text, grid);
    }
    for (title, notes) in section.lists() {
        text.push_str(&format!("### {title}\n\n"));
        notes.iter().for_each(|note| push_item(text, note));
        text.push('\n');
    }
}

fn push_item(text: &mut String, said: &str) {
    text.push_str(&format!("- {}\n", escape(said)));
}

fn push_grid(text: &mut String, grid: &Grid) {
    let line = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    text.push_str(&line(grid.header.iter().map(|cell| escape(cell)).collect()));
    text.push_str(&line(grid.header.iter().map(|_| "---".to_owned()).collect()));
    for row in &grid.rows {
        text.push_str(&line(row.iter().map(|cell| escape(cell)).collect()));
    }
    text.push('\n');
}

/// `text` made inert, with whatever Markdown might take for markup, an entity, a link or a mention escaped.
fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    let text = inert(text);
    let mut rest = text.chars().peekable();
    let mut word = String::new();
    while let Some(c) = rest.next() {
        let link = c == ':' && rest.peek() == Some(&'/') || c == '.' && word.eq_ignore_ascii_case("www");
        // At the start a sign or a number followed by a space would open a list.
        let first = escaped.is_empty() && matches!(c, '-' | '+');
        let numbered = matches!(c, '.' | ')') && escaped.bytes().all(|b| b.is_ascii_digit());
        let list = (first || numbered) && rest.peek().is_none_or(|next| next.is_whitespace());
        if link || list || r"\`*_[]<>|~&#!$@".contains(c) {
            escaped.push('\\');
        }
        escaped.push(c);
        if c.is_alphanumeric() {
            word.push(c);
        } else {
            word.clear();
        }
    }
    escaped
}
