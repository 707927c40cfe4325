//! Names of upright lines, above the frame.

use super::canvas::{Anchor, Colour, Drawing, Text};
use super::font;
use super::place::Rect;
use super::style::{EDGE, FRAME, SMALL, WIDTH};

/// Rows of names, and their height.
const ROWS: u8 = 3;
const ROW: f64 = 14.0;
/// From a line to a name beside it.
const ASIDE: f64 = 4.0;

/// A line over the whole height of a panel, or only a heading.
pub(crate) struct Mark {
    pub(crate) x: f64,
    pub(crate) name: String,
    /// Whether the name hangs on a line.
    pub(crate) hangs: bool,
}

/// A place for a name.
struct Place {
    row: u8,
    text: Text,
    extent: Rect,
}

/// Writes each name where it touches no other and no line runs through it, as far as there is room; the rest anywhere free.
pub(crate) fn write(drawing: &mut Drawing, mut marks: Vec<Mark>, top: f64) {
    marks.sort_by(|a, b| a.x.total_cmp(&b.x));
    let lines: Vec<f64> = marks.iter().filter(|mark| mark.hangs).map(|mark| mark.x).collect();
    let mut placed: Vec<(f64, Place)> = Vec::with_capacity(marks.len());
    // First the names that stand clear of every other line: those further in then rise above them.
    for round in 0..3 {
        let clear = |x: f64, place: &Place| lines.iter().all(|line| *line == x || !crosses(*line, &place.extent));
        marks.retain(|mark| {
            let fits = |place: &Place| {
                let apart = placed.iter().all(|(_, other)| !place.extent.overlaps(&other.extent));
                let uncrossed = placed.iter().all(|(x, other)| {
                    let under = other.row > place.row && crosses(*x, &place.extent);
                    let over = place.row > other.row && crosses(mark.x, &other.extent);
                    !(under || over)
                });
                apart && (round == 2 || uncrossed) && (round > 0 || clear(mark.x, place))
            };
            let found = places(mark, top).into_iter().find(fits);
            let waits = found.is_none();
            if let Some(place) = found {
                if mark.hangs {
                    let beside = place.text.anchor != Anchor::Middle;
                    let up = if beside { place.extent.top } else { place.extent.bottom.min(top) };
                    drawing.line(vec![(mark.x, top), (mark.x, up)], FRAME);
                }
                drawing.text(place.text.clone());
                placed.push((mark.x, place));
            }
            waits
        });
    }
}

/// Where a name may stand, the best first: above its line, or to either side of it.
fn places(mark: &Mark, top: f64) -> Vec<Place> {
    let name = font::fit(&mark.name, SMALL, 320.0);
    let width = font::width(&name, SMALL);
    let centre = mark.x.clamp(EDGE + width / 2.0, WIDTH - EDGE - width / 2.0);
    let anchors = [(Anchor::Middle, centre), (Anchor::End, mark.x - ASIDE), (Anchor::Start, mark.x + ASIDE)];
    let place = |row: u8, (anchor, x): (Anchor, f64)| {
        let text = Text {
            text: name.clone(),
            at: (x, top - 8.0 - f64::from(row) * ROW),
            size: SMALL,
            anchor,
            colour: Colour::INK,
            upward: false,
        };
        let Rect { left, right, .. } = text.extent();
        let extent = text.extent().widened();
        let inside = left >= EDGE - 0.1 && right <= WIDTH - EDGE + 0.1;
        (inside && (mark.hangs || anchor == Anchor::Middle)).then_some(Place { row, text, extent })
    };
    let all = (0..ROWS).flat_map(|row| anchors.map(|anchor| place(row, anchor)));
    all.flatten().collect()
}

fn crosses(line: f64, extent: &Rect) -> bool {
    (extent.left..=extent.right).contains(&line)
}
