//! The page for a design review: one HTML file that needs nothing from outside.

use super::Report;
use super::view::{Grid, Section, View};
use crate::diag::inert;

/// The pictures of one lane: what each shows, and the SVG.
pub type Pictures = Vec<(&'static str, String)>;

const STYLE: &str = include_str!("page.css");

/// The report as one HTML page; `pictures` are those of the report's lanes, in its order.
///
/// Names are text: nothing in them becomes markup, an address or a file name.
pub fn page(report: &Report, pictures: &[Pictures]) -> String {
    let view = View::of(report);
    let title = escape(view.title.as_deref().unwrap_or("Capacitance budget"));
    let mut text = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{title}</title>\n\
         <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n"
    );
    for grid in &view.grids {
        push_grid(&mut text, grid, 2);
    }
    for note in &view.footnotes {
        text.push_str(&format!("<p class=\"note\">{}</p>\n", escape(note)));
    }
    text.push_str("<section>\n<h2>Keep in mind</h2>\n");
    push_list(&mut text, &view.cautions);
    text.push_str("</section>\n");
    for (index, section) in view.sections.iter().enumerate() {
        // The sections of the lanes come first.
        push_section(&mut text, section, pictures.get(index).map_or(&[], Vec::as_slice));
    }
    text.push_str(&format!(
        "</main>\n<footer>lanecap {}</footer>\n</body>\n</html>\n",
        report.lanecap
    ));
    text
}

fn push_section(text: &mut String, section: &Section, pictures: &[(&'static str, String)]) {
    text.push_str(&format!(
        "<section class=\"line\">\n<h2>{}</h2>\n<p class=\"verdict\">{}</p>\n",
        escape(&section.name),
        escape(&section.verdict)
    ));
    push_list(text, &section.facts);
    for grid in section.grids.iter().filter(|grid| !grid.rows.is_empty()) {
        push_grid(text, grid, 3);
    }
    for (caption, svg) in pictures {
        text.push_str(&format!(
            "<figure>\n{svg}\n<figcaption>{}</figcaption>\n</figure>\n",
            escape(caption)
        ));
    }
    for (title, notes) in [("Defaults used", &section.defaults), ("Warnings", &section.warnings)] {
        if !notes.is_empty() {
            text.push_str(&format!("<h3>{title}</h3>\n"));
            push_list(text, notes);
        }
    }
    text.push_str("</section>\n");
}

fn push_list(text: &mut String, items: &[String]) {
    text.push_str("<ul>\n");
    for item in items {
        text.push_str(&format!("<li>{}</li>\n", escape(item)));
    }
    text.push_str("</ul>\n");
}

fn push_grid(text: &mut String, grid: &Grid, level: u8) {
    let title = escape(grid.title);
    text.push_str(&format!(
        "<h{level}>{title}</h{level}>\n<div class=\"table\" tabindex=\"0\" role=\"region\" aria-label=\"{title}\">\n<table>\n<thead><tr>"
    ));
    for cell in &grid.header {
        text.push_str(&format!("<th scope=\"col\">{}</th>", escape(cell)));
    }
    text.push_str("</tr></thead>\n<tbody>\n");
    for row in &grid.rows {
        text.push_str("<tr>");
        for (index, cell) in row.iter().enumerate() {
            let (open, close) = if index == 0 {
                ("<th scope=\"row\">", "</th>")
            } else {
                ("<td>", "</td>")
            };
            text.push_str(&format!("{open}{}{close}", escape(cell)));
        }
        text.push_str("</tr>\n");
    }
    text.push_str("</tbody>\n</table>\n</div>\n");
}

/// Text that stays text inside an element or a quoted attribute.
fn escape(said: &str) -> String {
    let mut safe = String::with_capacity(said.len());
    for c in inert(said).chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            c => safe.push(c),
        }
    }
    safe
}
