//! The impedance along the path as a reflected step shows it.

use super::axis::Axis;
use super::canvas::{Anchor, Colour, Drawing, Stroke, Text};
use super::font;
use super::page::{area, page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::style::{FRAME, HEIGHT, LIMIT, PLUM, SMALL, capacitances, name, stroke};
use crate::curve::{ChartData, Place, Profile};
use crate::words::label;

/// Rows of names under the abscissa, and their height.
const ROWS: usize = 5;
const ROW: f64 = 13.5;

pub(crate) fn draw(data: &ChartData, profile: &Profile) -> Drawing {
    let mut drawing = page(data, "reflection profile");
    let area = area(62.0, HEIGHT - 72.0 - ROWS as f64 * ROW);
    let times = || profile.curves.iter().flat_map(|curve| &curve.points).map(|point| point.0);
    let last = times().fold(0.0, f64::max);
    let x = Axis::new("time after the edge passes the port plane, there and back", "s", 0.0, last, false);
    let mut panel = Panel::new(area, x, ohms(profile), false);
    let (low, _) = panel.y.range();
    if let Some((least, _)) = &profile.limit {
        let ground = Rect { top: panel.place((0.0, least.max(low))).1.clamp(area.top, area.bottom), ..area };
        drawing.area(ground.corners(), PLUM.faint(0.13));
    }
    panel.frame(&mut drawing, true);
    let even = [(0.0, profile.reference_ohm), (last, profile.reference_ohm)];
    panel.curve(&mut drawing, &even, Stroke::new(Colour::INK.faint(0.6), 0.9, &[2.0, 3.0]));
    let c = capacitances(data);
    for curve in &profile.curves {
        panel.curve(&mut drawing, &curve.points, stroke(curve.state));
        panel.name(&curve.points, name(curve.state, &c), stroke(curve.state));
    }
    if let Some((least, limit)) = &profile.limit {
        panel.curve(&mut drawing, &[(0.0, *least), (last, *least)], LIMIT);
        let (x, y) = panel.place((last / 2.0, *least));
        panel.note(&mut drawing, (x, y + 12.0), &label(limit), PLUM);
    }
    let (x, y) = panel.place((0.92 * last, profile.reference_ohm));
    panel.note(&mut drawing, (x, y - 10.0), "reference", Colour::INK);
    places(&panel, &mut drawing, &profile.elements);
    panel.finish(&mut drawing);
    remark(&mut drawing, "elements inward of the port plane, where their reflections arrive; echoes come later");
    drawing
}

fn ohms(profile: &Profile) -> Axis {
    let values = || profile.curves.iter().flat_map(|curve| &curve.points).map(|point| point.1);
    let bound = profile.limit.as_ref().map_or(profile.reference_ohm, |(least, _)| *least);
    let z = profile.reference_ohm;
    let low = values().fold(z.min(bound), f64::min).max(0.0);
    let high = values().fold(z.max(bound), f64::max).min(4.0 * z);
    let room = 0.08 * (high - low).max(0.05 * z);
    Axis::new("impedance", "ohm", (low - room).max(0.0), high + room, false).rounded(6)
}

/// The elements under the abscissa: lines as bars, what is lumped as ticks, each named below.
fn places(panel: &Panel, drawing: &mut Drawing, elements: &[Place]) {
    let Rect { right, bottom, .. } = panel.area;
    let bar = bottom + 44.0;
    let at = |t: f64| panel.place((t, 0.0)).0;
    let mut labels = Vec::with_capacity(elements.len());
    for element in elements.iter().filter(|element| at(element.from_s) <= right + 0.5) {
        let (from, to) = (at(element.from_s), at(element.to_s).min(right));
        let colour = if element.is_protector { PLUM } else { Colour::INK };
        if to - from > 1.0 {
            drawing.line(vec![(from, bar), (to, bar)], Stroke::new(colour.faint(0.55), 5.0, &[]));
        }
        drawing.line(vec![(from, bar - 6.0), (from, bar + 6.0)], Stroke::new(colour, 1.2, &[]));
        let text = font::fit(&element.name, SMALL, 120.0);
        labels.push(Label {
            x: (from + to) / 2.0,
            width: font::width(&text, SMALL) + 10.0,
            text,
            colour,
            must: element.is_protector,
        });
    }
    for (label, row) in in_rows(labels) {
        let y = bar + 18.0 + row as f64 * ROW;
        let leader = Stroke { width: 0.6, ..FRAME };
        drawing.line(vec![(label.x, bar + 6.0), (label.x, y)], leader);
        drawing.text(Text {
            text: label.text,
            at: (label.x + 3.0, y),
            size: SMALL,
            anchor: Anchor::Start,
            colour: label.colour,
            upward: false,
        });
    }
}

/// A name that hangs on a line from the path, to the right of it.
struct Label {
    x: f64,
    width: f64,
    text: String,
    colour: Colour,
    must: bool,
}

/// A row for each name, such that no line from the path crosses a name. What finds no row goes unnamed, but never
/// the protector.
fn in_rows(mut labels: Vec<Label>) -> Vec<(Label, usize)> {
    loop {
        let mut rows = vec![0; labels.len()];
        for i in (0..labels.len()).rev() {
            let end = labels[i].x + labels[i].width;
            let under = (i + 1..labels.len()).filter(|j| labels[*j].x < end);
            rows[i] = under.map(|j| rows[j] + 1).max().unwrap_or(0);
        }
        let Some(full) = rows.iter().rposition(|row| *row >= ROWS) else {
            return labels.into_iter().zip(rows).collect();
        };
        // The one that is least missed: itself, or for the protector its neighbour.
        let gone = if labels[full].must { full + 1 } else { full };
        labels.remove(gone.min(labels.len() - 1));
    }
}
