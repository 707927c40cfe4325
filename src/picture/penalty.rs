//! The distance to every limit, and the eye penalty, against the capacitance.

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::style::{HEIGHT, MARK, TEAL, WIDTH, capacitances, several, stroke};
use crate::curve::{ChartData, State, Sweep};
use crate::words::label;
use crate::words::limits::PENALTY_NOTE;

/// Margins beyond this are of no interest.
const FAR: f64 = 1.0;

pub(crate) fn draw(data: &ChartData, sweep: &Sweep) -> Drawing {
    let mut drawing = page(data, "limits and eye penalty against capacitance");
    let area = |top: f64, bottom: f64| Rect { left: 66.0, top, right: WIDTH - 232.0, bottom };
    let mut above = Panel::new(area(92.0, 262.0), capacitance(sweep), margins(sweep), false);
    let mut below = Panel::new(area(278.0, HEIGHT - 64.0), capacitance(sweep), penalties(sweep), false);
    for panel in [&above, &below] {
        for (low, high) in &sweep.allowed {
            panel.band(&mut drawing, *low, high.unwrap_or(sweep.last_f), TEAL.faint(0.16));
        }
    }
    above.frame(&mut drawing, false);
    below.frame(&mut drawing, true);
    above.open_to(&mut drawing, None);
    below.open_to(&mut drawing, None);
    above.curve(&mut drawing, &[(0.0, 0.0), (sweep.last_f, 0.0)], Stroke::new(Colour::INK, 1.3, &[]));
    for (index, margin) in sweep.margins.iter().enumerate() {
        above.curve(&mut drawing, &margin.points, several(index));
        above.name(&margin.points, label(&margin.limit), several(index));
    }
    let nyquist = Stroke::new(Colour::INK, 1.9, &[]);
    let worst = Stroke::new(Colour::INK.faint(0.75), 1.7, &[6.0, 3.0]);
    below.curve(&mut drawing, &sweep.eye_penalty, nyquist);
    below.name(&sweep.eye_penalty, "at Nyquist*".to_owned(), nyquist);
    if !sweep.worst_eye_penalty.is_empty() {
        below.curve(&mut drawing, &sweep.worst_eye_penalty, worst);
        below.name(&sweep.worst_eye_penalty, "worst pattern".to_owned(), worst);
    }
    let c = capacitances(data);
    let mut mark = |at: f64, text: String, stroke: Stroke| {
        above.mark(&mut drawing, at, text, stroke);
        below.upright(&mut drawing, at, stroke);
    };
    if let (Some(fitted), Some(text)) = (data.fitted_f, c.fitted()) {
        let stroke = stroke(State::Fitted(fitted));
        mark(fitted, format!("fitted {text} {}", c.unit()), Stroke { width: 1.4, ..stroke });
    }
    if let Some(budget) = data.budget_f {
        let stroke = stroke(State::AtBudget(budget));
        let text = format!("budget {} {}", c.largest(budget), c.unit());
        mark(budget, text, Stroke { width: 1.4, ..stroke });
    }
    let first = sweep.allowed.first().copied();
    if let Some((lowest, _)) = first.filter(|(low, _)| *low > 0.0) {
        let text = format!("least {} {}", c.least(lowest), c.unit());
        mark(lowest, text, MARK);
    }
    above.finish(&mut drawing);
    below.finish(&mut drawing);
    let shaded =
        if sweep.allowed.is_empty() { "no capacitance keeps every limit" } else { "shaded: what every limit allows" };
    remark(&mut drawing, &format!("{shaded}  ·  {PENALTY_NOTE}"));
    drawing
}

fn capacitance(sweep: &Sweep) -> Axis {
    Axis::new("capacitance of the protector, one line to ground", "F", 0.0, sweep.last_f, false)
}

fn margins(sweep: &Sweep) -> Axis {
    let values = || sweep.margins.iter().flat_map(|margin| &margin.points).map(|point| point.1);
    let low = values().fold(-0.2, f64::min).max(-FAR);
    let high = values().fold(0.2, f64::max).min(FAR);
    Axis::new("margin, breaks below 0", "%", low, high, false).rounded(5)
}

fn penalties(sweep: &Sweep) -> Axis {
    let all = sweep.eye_penalty.iter().chain(&sweep.worst_eye_penalty);
    let values = || all.clone().map(|point| point.1);
    let (low, high) = (values().fold(0.0, f64::min).max(-0.5), values().fold(0.02, f64::max).min(1.0));
    Axis::new("eye penalty", "%", low, high, false).rounded(4)
}
