//! What buys more: a bar for each change, as long as what it wins.

use super::axis::Axis;
use super::canvas::{Anchor, Colour, Drawing, Text};
use super::font;
use super::page::{page, remark};
use super::place::Rect;
use super::style::{AMBER, EDGE, FRAME, GRID, HEIGHT, SMALL, TEAL, WIDTH, farads};
use crate::curve::{Bars, ChartData};
use crate::study::{Change, Gain};
use crate::units::significant;
use crate::words::value::{change, named};

/// Bars at most; the rest is in the table.
const MOST: usize = 16;
/// Room of a bar.
const ROW: f64 = 22.0;
const LEFT: f64 = 330.0;
const RIGHT: f64 = WIDTH - 90.0;
const TOP: f64 = 66.0;

pub(crate) fn draw(data: &ChartData, bars: &Bars) -> Drawing {
    let mut drawing = page(data, "what buys more");
    let shown: Vec<&Gain> = bars.gains.iter().take(MOST).collect();
    let most = shown.iter().filter_map(|gain| gain.gain).map(|c| c.0).fold(0.0, f64::max);
    let axis = Axis::new("gain of the budget", "F", 0.0, if most > 0.0 { most } else { 1e-12 }, false);
    let bottom = TOP + ROW * shown.len().max(1) as f64;
    let x = |gain: f64| LEFT + axis.share(gain).clamp(0.0, 1.0) * (RIGHT - LEFT);
    for (value, text) in axis.ticks(5) {
        drawing.line(vec![(x(value), TOP), (x(value), bottom)], GRID);
        write(&mut drawing, text.unwrap_or_default(), (x(value), bottom + 15.0), Anchor::Middle);
    }
    write(&mut drawing, axis.label.clone(), ((LEFT + RIGHT) / 2.0, bottom + 32.0), Anchor::Middle);
    for (row, gain) in shown.iter().enumerate() {
        let top = TOP + ROW * row as f64;
        let length = gain.gain.map_or(most.max(1e-12), |c| c.0);
        let area = Rect { left: LEFT, top: top + 4.0, right: x(length), bottom: top + ROW - 4.0 };
        drawing.area(area.corners(), if gain.change == Change::Out { AMBER } else { TEAL.faint(0.75) });
        let what = format!("{}: {} {}", gain.of, named(&gain.of, &bars.elements), change(gain.change));
        let what = font::fit(&what, SMALL, LEFT - EDGE - 8.0);
        write(&mut drawing, what, (LEFT - 8.0, top + ROW / 2.0 + 4.0), Anchor::End);
        write(&mut drawing, won(gain), (x(length) + 6.0, top + ROW / 2.0 + 4.0), Anchor::Start);
    }
    drawing.line(vec![(LEFT, TOP), (LEFT, bottom)], FRAME);
    if shown.is_empty() {
        write(
            &mut drawing,
            "no step and nothing taken out buys more".to_owned(),
            (WIDTH / 2.0, HEIGHT / 2.0),
            Anchor::Middle,
        );
    }
    let rest = bars.gains.len() - shown.len();
    let more = if rest > 0 { format!("  ·  {rest} more in the table") } else { String::new() };
    remark(&mut drawing, &format!("amber: taken out; green: a step of its ±, else 10 %, of a place 1 mm{more}"));
    drawing
}

fn won(gain: &Gain) -> String {
    match gain.gain {
        Some(gain) => {
            let scale = farads(gain.0);
            format!("+{} {}F", significant(gain.0 / scale.factor, 3), scale.prefix)
        }
        None => "no bound".to_owned(),
    }
}

fn write(drawing: &mut Drawing, text: String, at: (f64, f64), anchor: Anchor) {
    drawing.text(Text { text, at, size: SMALL, anchor, colour: Colour::INK, upward: false });
}
