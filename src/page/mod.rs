//! The page for a design review: one HTML file that needs nothing from outside.

mod bench;
mod chip;
mod live;
mod review;

use std::collections::HashMap;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::diag::inert;
use crate::text::budgets::Parts;
use crate::text::grid::Grid;
use crate::text::pick_view;
use crate::text::section::Section;
use crate::text::view::View;
pub use chip::ChipHalf;
pub use live::Live;
pub use review::{Captioned, Exhibit, LeftOut, REVIEW_ROUNDS, Review, review, review_drawn};

const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("live.js");
/// Units that numbers stand beside, without their prefix.
const UNITS: [&str; 15] = ["%", "A", "Bd", "C", "F", "H", "Hz", "J", "UI", "V", "W", "b/s", "dB", "ohm", "s"];
/// Nothing is fetched, sent or framed, whatever a name says.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'";

/// The review as one HTML page.
///
/// Names are text: nothing in them becomes markup, an address or a file name.
pub fn page(review: &Review) -> String {
    let mut view = View::of(&review.report, Parts::Named);
    for (section, exhibit) in view.sections.iter_mut().zip(&review.exhibits) {
        section.warnings.extend(exhibit.left_out.iter().map(ToString::to_string));
    }
    let title = inert(view.title.as_deref().unwrap_or("Capacitance budget"));
    let (summary, details): (Vec<&Grid>, Vec<&Grid>) = view.grids.iter().partition(|grid| grid.has_verdicts());
    let parts = review.pick.as_ref().map(pick_view::overview);
    let cautions = review.pick.as_ref().map_or(&view.cautions, |pick| &pick.cautions);
    let lines = Lines::of(&view.sections);
    let nothing = Exhibit::default();
    let exhibits = review.exhibits.iter().chain(std::iter::repeat(&nothing));
    let live = review.exhibits.iter().any(|exhibit| exhibit.live.is_some());
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main {
                    h1 { (title) }
                    @for set in &view.set { p.note { (inert(set)) } }
                    @for grid in summary { (table(grid, 2, &lines)) }
                    @for grid in parts.iter().flatten() { (table(grid, 2, &lines)) }
                    @for note in review.pick.iter().flat_map(pick_view::footnotes) { p.note { (inert(&note)) } }
                    @for grid in details { (table(grid, 2, &lines)) }
                    @for note in &view.footnotes { p.note { (note) } }
                    section {
                        h2 { "Keep in mind" }
                        (list(cautions))
                    }
                    @for ((index, section), exhibit) in view.sections.iter().enumerate().zip(exhibits) {
                        (line(index, section, exhibit, review))
                    }
                }
                footer { "lanecap " (env!("CARGO_PKG_VERSION")) }
                @if live { script { (PreEscaped("//<![CDATA[\n")) (PreEscaped(SCRIPT)) (PreEscaped("//]]>\n")) } }
            }
        }
    };
    page.into_string()
}

/// Where each line has its section, and whether it passes.
struct Lines<'a>(HashMap<&'a str, (usize, bool)>);

impl<'a> Lines<'a> {
    fn of(sections: &'a [Section]) -> Self {
        let place = |(index, section): (usize, &'a Section)| (section.name.as_str(), (index, section.passes));
        Lines(sections.iter().enumerate().map(place).collect())
    }
}

/// The identifier of the section of a line.
fn anchor(index: usize) -> String {
    format!("line-{}", index + 1)
}

fn line(index: usize, section: &Section, exhibit: &Exhibit, review: &Review) -> Markup {
    let nowhere = Lines(HashMap::new());
    // The sections of the lanes come first.
    let live = exhibit.live.as_ref().zip(review.report.lanes.get(index));
    html! {
        section.line id=(anchor(index)) {
            h2 { (inert(&section.name)) }
            p.verdict { (mark(section.passes)) (inert(&section.verdict)) }
            (list(&section.facts))
            @if let Some(chip) = &exhibit.chip { (chip::halves(&section.tolerates, chip)) }
            @for grid in section.grids.iter().filter(|grid| !grid.rows.is_empty()) { (table(grid, 3, &nowhere)) }
            div.bench {
                @if let Some((live, lane)) = live { (bench::bench(index, live, lane, section.worst.as_deref())) }
                @for picture in &exhibit.pictures {
                    figure {
                        div tabindex="0" role="group" aria-label=(picture.caption) { (PreEscaped(&picture.svg)) }
                        figcaption { (picture.caption) }
                    }
                }
            }
            @if !exhibit.gains.is_empty() { h3 { "What buys more" } (list(&exhibit.gains)) }
            @for (title, notes) in section.lists() { h3 { (title) } (list(notes)) }
            @if !exhibit.working.is_empty() {
                details {
                    summary { "The working, step by step" }
                    pre tabindex="0" { (exhibit.working) }
                }
            }
        }
    }
}

/// A sign for the eye; the words beside it say the same.
fn mark(passes: bool) -> Markup {
    let (class, sign) = if passes { ("mark good", "✓") } else { ("mark bad", "✗") };
    html! { span class=(class) aria-hidden="true" { (sign) } " " }
}

fn list(items: &[String]) -> Markup {
    html! { ul { @for item in items { li { (inert(item)) } } } }
}

fn table(grid: &Grid, level: u8, lines: &Lines) -> Markup {
    html! {
        @if level == 2 { h2 { (grid.title) } } @else { h3 { (grid.title) } }
        div.table tabindex="0" role="group" aria-label=(grid.title) {
            table {
                thead { tr { @for cell in &grid.header { th scope="col" { (inert(cell)) } } } }
                tbody { @for row in &grid.rows { (self::row(grid, row, lines)) } }
            }
        }
    }
}

/// A cell whose numbers stay beside their units.
fn kept(cell: &str) -> String {
    let is_unit = |word: &str| {
        let word = word.trim_end_matches([',', ';', '.', ')']);
        let bare = word.strip_prefix(['f', 'p', 'n', 'u', 'm', 'k', 'M', 'G']).filter(|bare| !bare.is_empty());
        [Some(word), bare].into_iter().flatten().any(|word| UNITS.contains(&word))
    };
    let mut text = String::with_capacity(cell.len());
    for (index, word) in cell.split(' ').enumerate() {
        let number = text.ends_with(|c: char| c.is_ascii_digit());
        match index {
            0 => {}
            _ if number && is_unit(word) => text.push('\u{a0}'),
            _ => text.push(' '),
        }
        text.push_str(word);
    }
    text
}

/// A row; where it ends in the verdict of its line, it leads to the line's section.
fn row(grid: &Grid, row: &[String], lines: &Lines) -> Markup {
    let name = row.first().filter(|_| grid.has_verdicts());
    let place = name.and_then(|name| lines.0.get(name.as_str()));
    let last = row.len().saturating_sub(1);
    html! {
        tr {
            @for (column, cell) in row.iter().enumerate() {
                @let text = kept(&inert(cell));
                @match (column, place) {
                    (0, Some((index, _))) => th scope="row" { a href={ "#" (anchor(*index)) } { (text) } },
                    (0, None) => th scope="row" { (text) },
                    (column, Some((_, passes))) if column == last => td { (mark(*passes)) (text) },
                    _ => td { (text) },
                }
            }
        }
    }
}
