//! The page around the panels: title, facts, remark.

use super::canvas::{Anchor, Colour, Drawing, Text};
use super::font;
use super::place::Rect;
use super::style::{EDGE, HEIGHT, SMALL, TITLE, WIDTH, capacitances};
use crate::curve::{Carries, ChartData};
use crate::units::{Scale, engineering, significant};

/// An empty page with its heading: what is shown, of which line, and the line's facts.
pub(crate) fn page(data: &ChartData, what: &str) -> Drawing {
    let room = WIDTH - 2.0 * EDGE;
    let tail = format!(": {what}");
    let line = font::fit(&data.line, TITLE, room - font::width(&tail, TITLE));
    let heading = format!("{line}{tail}");
    let mut drawing = Drawing {
        width: WIDTH,
        height: HEIGHT,
        title: heading.clone(),
        shapes: Vec::new(),
        texts: Vec::new(),
        frames: Vec::new(),
    };
    write(&mut drawing, &heading, 24.0, TITLE, Colour::INK);
    beneath(&mut drawing, &facts(data));
    drawing
}

/// Facts beneath the heading.
pub(crate) fn beneath(drawing: &mut Drawing, facts: &str) {
    write(drawing, facts, 41.0, SMALL, Colour::INK.faint(0.75));
}

fn write(drawing: &mut Drawing, text: &str, y: f64, size: f64, colour: Colour) {
    let text = font::fit(text, size, WIDTH - 2.0 * EDGE);
    drawing.text(Text { text, at: (EDGE, y), size, anchor: Anchor::Start, colour, upward: false });
}

/// Where a panel stands between two heights: room for its ticks to the left, for the names of its curves to the right.
pub(crate) fn area(top: f64, bottom: f64) -> Rect {
    Rect { left: 66.0, top, right: WIDTH - 190.0, bottom }
}

/// A remark at the foot of the page.
pub(crate) fn remark(drawing: &mut Drawing, text: &str) {
    let size = SMALL - 1.0;
    drawing.text(Text {
        text: font::fit(text, size, WIDTH - 2.0 * EDGE),
        at: (EDGE, drawing.height - 7.0),
        size,
        anchor: Anchor::Start,
        colour: Colour::INK.faint(0.75),
        upward: false,
    });
}

fn facts(data: &ChartData) -> String {
    let c = capacitances(data);
    let mut facts = match data.carries {
        Carries::Symbols { modulation, rate_bd, nyquist_hz } => vec![
            format!("{} {modulation}", engineering(rate_bd, "Bd")),
            format!("Nyquist {}", engineering(nyquist_hz, "Hz")),
        ],
        Carries::Band([low, high]) => {
            let scale = Scale::of(high);
            let [low, high] = [low, high].map(|f| significant(f / scale.factor, 6));
            vec![format!("band {low} to {high} {}Hz", scale.prefix)]
        }
        Carries::Slow => Vec::new(),
        // Its picture tells them.
        Carries::Contact(_) => return String::new(),
    };
    match (data.budget_f, data.set_by) {
        (Some(budget), Some(limit)) => facts.push(format!("budget {} {}, set by {limit}", c.largest(budget), c.unit())),
        (Some(budget), None) => facts.push(format!("budget {} {}", c.largest(budget), c.unit())),
        (None, _) => {}
    }
    if let Some(fitted) = c.fitted() {
        facts.push(format!("fitted {fitted} {}", c.unit()));
    }
    facts.join("  ·  ")
}
