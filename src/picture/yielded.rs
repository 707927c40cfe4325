//! The share of settings that allow a capacitance.

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::style::{EDGE, HEIGHT, MARK, PLUM, WIDTH, capacitances, stroke};
use crate::curve::{ChartData, ShareCurve, State};

/// How far beyond the last point the axis goes.
const BEYOND: f64 = 1.05;

pub(crate) fn draw(data: &ChartData, curve: &ShareCurve) -> Drawing {
    let mut drawing = page(data, "share of settings that allow a capacitance");
    let marks = [curve.nominal_f, curve.worst_f, curve.budget_997_f, data.fitted_f];
    let ends = curve.points.iter().map(|point| point.0).chain(marks.into_iter().flatten());
    let last = ends.fold(0.0, f64::max) * BEYOND;
    let area = Rect { left: 66.0, top: 92.0, right: WIDTH - 3.0 * EDGE, bottom: HEIGHT - 64.0 };
    let axis = Axis::new("capacitance of the protector, one line to ground", "F", 0.0, last, false);
    let mut panel = Panel::new(area, axis, Axis::new("share of settings", "%", 0.0, 1.0, false).rounded(5), false);
    panel.frame(&mut drawing, true);
    panel.open_to(&mut drawing, None);
    panel.curve(&mut drawing, &curve.points, Stroke::new(Colour::INK, 1.9, &[]));
    let c = capacitances(data);
    let mut mark = |at: Option<f64>, what: &str, text: Option<String>, stroke: Stroke| {
        let Some(at) = at else { return };
        let text = text.unwrap_or_else(|| c.largest(at));
        panel.mark(&mut drawing, at, format!("{what} {text} {}", c.unit()), Stroke { width: 1.4, ..stroke });
    };
    mark(curve.worst_f, "worst case", None, Stroke::new(PLUM, 1.4, &[2.0, 2.5]));
    mark(curve.budget_997_f, "99.7 %", None, MARK);
    mark(curve.nominal_f, "nominal", None, stroke(State::AtBudget(0.0)));
    mark(data.fitted_f, "fitted", c.fitted(), stroke(State::Fitted(0.0)));
    panel.finish(&mut drawing);
    let [settings, seed] = curve.drawn;
    remark(&mut drawing, &format!("{settings} settings drawn at random within the tolerances, seed {seed}"));
    drawing
}
