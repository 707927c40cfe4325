//! The share of settings that allow a capacitance.

use super::axis::Axis;
use super::canvas::{Anchor, Colour, Drawing, Stroke, Text};
use super::font;
use super::page::{page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::style::{EDGE, HEIGHT, MARK, PLUM, SMALL, WIDTH, capacitances, stroke};
use crate::curve::{ChartData, Ends, ShareCurve, State};
use crate::model::Distribution;
use crate::words::limits::Capacitances;

/// How far beyond the last point the axis goes.
const BEYOND: f64 = 1.05;
/// How far beyond it what is fitted still stretches the axis.
const STRETCHED: f64 = 1.4;
/// Room for the names of the uprights to the right of the frame, the length of their samples and their height.
const NAMES: f64 = 262.0;
const SAMPLE: f64 = 24.0;
const ROW: f64 = 20.0;

pub(crate) fn draw(data: &ChartData, curve: &ShareCurve) -> Drawing {
    let mut drawing = page(data, "share of settings that allow a capacitance");
    let worst = curve.worst.unwrap_or_default();
    let sets = [worst, curve.most, curve.stated];
    let marks = sets.iter().flat_map(|ends| [ends.low_f, ends.high_f]).flatten();
    let most = curve.points.iter().map(|point| point.0).chain(marks).fold(0.0, f64::max);
    let near = data.fitted_f.filter(|fitted| most == 0.0 || *fitted <= STRETCHED * most);
    let last = near.map_or(most, |fitted| most.max(fitted)) * BEYOND;
    let area = Rect { left: 66.0, top: 66.0, right: WIDTH - NAMES, bottom: HEIGHT - 64.0 };
    let axis = Axis::new("capacitance of the protector, one line to ground", "F", 0.0, last, false);
    let mut panel = Panel::new(area, axis, Axis::new("share of settings", "%", 0.0, 1.0, false).rounded(5), false);
    panel.frame(&mut drawing, true);
    panel.open_to(&mut drawing, None);
    panel.curve(&mut drawing, &curve.points, Stroke::new(Colour::INK, 1.9, &[]));
    let c = capacitances(data);
    let fitted = c.fitted().map(|fitted| format!("{fitted} {}", c.unit()));
    let styles = [Stroke::new(PLUM, 1.4, &[2.0, 2.5]), MARK, stroke(State::AtBudget(0.0))];
    let names = [
        ("worst case", ends(&worst, &c)),
        ("99.7 % allow", ends(&curve.most, &c)),
        ("as stated", ends(&curve.stated, &c)),
    ];
    let styles = styles.map(|stroke| Stroke { width: 1.4, ..stroke });
    let mut row = 0.0;
    let mut name = |drawing: &mut Drawing, name: String, stroke: Stroke| {
        let at = (area.right + 14.0, area.top + 8.0 + ROW * row);
        sample(drawing, at, &name, stroke);
        row += 1.0;
    };
    if curve.worst.is_none() {
        name(&mut drawing, "worst case: none".to_owned(), styles[0]);
    }
    for ((ends, stroke), (what, said)) in sets.iter().zip(styles).zip(names) {
        for at in [ends.low_f, ends.high_f].into_iter().flatten() {
            panel.upright(&mut drawing, at, stroke);
        }
        if let Some(said) = said {
            name(&mut drawing, format!("{what} {said}"), stroke);
        }
    }
    if let (Some(at), Some(fitted)) = (data.fitted_f, fitted) {
        let stroke = Stroke { width: 1.4, ..stroke(State::Fitted(0.0)) };
        let beyond = if near.is_some() { "" } else { ", beyond" };
        panel.upright(&mut drawing, at, stroke);
        if near.is_none() {
            arrow(&mut drawing, &area, stroke);
        }
        name(&mut drawing, format!("fitted {fitted}{beyond}"), stroke);
    }
    panel.finish(&mut drawing);
    let [settings, seed] = curve.drawn;
    let lie = match curve.distribution {
        Distribution::Uniform => "uniform",
        Distribution::Normal => "normal with the bounds at three standard deviations",
    };
    remark(&mut drawing, &format!("{settings} settings drawn at random within the tolerances, seed {seed}; {lie}"));
    drawing
}

/// What is allowed, in words; `None` where neither end is known.
fn ends(ends: &Ends, c: &Capacitances) -> Option<String> {
    let said = match (ends.low_f, ends.high_f) {
        (Some(low), Some(high)) => {
            let (low, high) = c.range(low, high);
            format!("{low} to {high}")
        }
        (Some(low), None) => format!("from {}", c.least(low)),
        (None, Some(high)) => c.largest(high),
        (None, None) => return None,
    };
    Some(format!("{said} {}", c.unit()))
}

/// A name beside a piece of its line.
fn sample(drawing: &mut Drawing, (x, y): (f64, f64), name: &str, stroke: Stroke) {
    drawing.line(vec![(x, y), (x + SAMPLE, y)], stroke);
    let at = (x + SAMPLE + 6.0, y + 4.0);
    drawing.text(Text {
        text: font::fit(name, SMALL, WIDTH - EDGE - at.0),
        at,
        size: SMALL,
        anchor: Anchor::Start,
        colour: Colour::INK,
        upward: false,
    });
}

/// Towards what lies beyond the frame.
fn arrow(drawing: &mut Drawing, area: &Rect, stroke: Stroke) {
    let (x, y) = (area.right - 4.0, (area.top + area.bottom) / 2.0);
    drawing.line(vec![(x - 26.0, y), (x, y)], stroke);
    drawing.line(vec![(x - 8.0, y - 5.0), (x, y), (x - 8.0, y + 5.0)], stroke);
}
