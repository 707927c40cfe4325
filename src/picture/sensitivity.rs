//! What buys more: a bar for each change, as long as what it wins.

use super::axis::Axis;
use super::canvas::{Anchor, Colour, Drawing, Text};
use super::font;
use super::page::{page, remark};
use super::place::Rect;
use super::style::{AMBER, EDGE, FRAME, GRID, SMALL, TEAL, WIDTH, farads};
use crate::curve::{Bars, ChartData};
use crate::study::{Change, Gain};
use crate::units::decimal::Scale;
use crate::units::significant;
use crate::words::value::{change, labelled};

/// Bars at most; the rest is in the table.
const MOST: usize = 16;
/// Room of a bar.
const ROW: f64 = 22.0;
/// Room of the labels beside the bars at most.
const LABELS: f64 = 420.0;
const RIGHT: f64 = WIDTH - 90.0;
const TOP: f64 = 66.0;
/// Room beneath the bars.
const FOOT: f64 = 58.0;

pub(crate) fn draw(data: &ChartData, bars: &Bars) -> Drawing {
    let mut drawing = page(data, "what buys more");
    let shown: Vec<(&Gain, String)> = bars.gains.iter().take(MOST).map(|gain| (gain, label(gain, bars))).collect();
    let most = shown.iter().filter_map(|(gain, _)| gain.gain).map(|c| c.0).fold(0.0, f64::max);
    let most = if most > 0.0 { most } else { 1e-12 };
    let axis = Axis::new("gain of the budget", "F", 0.0, most, false);
    let bottom = TOP + ROW * shown.len().max(2) as f64;
    drawing.height = bottom + FOOT;
    let widest = shown.iter().map(|(_, label)| font::width(label, SMALL)).fold(0.0, f64::max);
    let left = EDGE + 8.0 + widest.clamp(100.0, LABELS);
    if shown.is_empty() {
        let text = "no step and nothing taken out buys more".to_owned();
        write(&mut drawing, text, (WIDTH / 2.0, (TOP + bottom) / 2.0), Anchor::Middle);
        return drawing;
    }
    let x = |gain: f64| left + axis.share(gain).clamp(0.0, 1.0) * (RIGHT - left);
    for (value, text) in axis.ticks(5) {
        drawing.line(vec![(x(value), TOP), (x(value), bottom)], GRID);
        write(&mut drawing, text.unwrap_or_default(), (x(value), bottom + 15.0), Anchor::Middle);
    }
    write(&mut drawing, axis.label.clone(), ((left + RIGHT) / 2.0, bottom + 32.0), Anchor::Middle);
    let scale = farads(most);
    for (row, (gain, label)) in shown.iter().enumerate() {
        let top = TOP + ROW * row as f64;
        let length = gain.gain.map_or(most, |c| c.0);
        let area = Rect { left, top: top + 4.0, right: x(length), bottom: top + ROW - 4.0 };
        drawing.area(area.corners(), if gain.change == Change::Out { AMBER } else { TEAL.faint(0.75) });
        let text = font::fit(label, SMALL, left - EDGE - 8.0);
        write(&mut drawing, text, (left - 8.0, top + ROW / 2.0 + 4.0), Anchor::End);
        write(&mut drawing, won(gain, &scale), (x(length) + 6.0, top + ROW / 2.0 + 4.0), Anchor::Start);
    }
    drawing.line(vec![(left, TOP), (left, bottom)], FRAME);
    let rest = bars.gains.len() - shown.len();
    let more = if rest > 0 { format!("  ·  {rest} more in the table") } else { String::new() };
    remark(&mut drawing, &format!("amber: removed; green: a step of its ±, else 10 %, of a place 1 mm{more}"));
    drawing
}

/// `trace 6 length 28 → 30.8 mm`
fn label(gain: &Gain, bars: &Bars) -> String {
    format!("{} {}", labelled(&gain.of, &bars.elements), change(gain))
}

/// What is won, in the unit of the axis.
fn won(gain: &Gain, scale: &Scale) -> String {
    match gain.gain {
        Some(gain) => format!("+{} {}F", significant(gain.0 / scale.factor, 3), scale.prefix),
        None => "no bound".to_owned(),
    }
}

fn write(drawing: &mut Drawing, text: String, at: (f64, f64), anchor: Anchor) {
    drawing.text(Text { text, at, size: SMALL, anchor, colour: Colour::INK, upward: false });
}
