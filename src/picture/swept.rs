//! The budget and the tightest headroom over one value.

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{area, page, remark};
use super::panel::Panel;
use super::style::{AMBER, BLUE, HEIGHT, MARK, PLUM, SLATE, capacitances};
use crate::curve::{ChartData, SweptAt, SweptAxis, SweptCurve};
use crate::units::Dimension;
use crate::words::value::value;

/// Headroom beyond this is of no interest.
const FAR: f64 = 1.0;

pub(crate) fn draw(data: &ChartData, curve: &SweptCurve) -> Drawing {
    let mut drawing = page(data, &format!("the budget over {}", curve.over.address));
    let judged = curve.at.iter().any(|at| at.headroom.is_some());
    let split = if judged { 262.0 } else { HEIGHT - 64.0 };
    let mut above = Panel::new(area(92.0, split), axis(&curve.over), budget(data, curve), false);
    above.frame(&mut drawing, !judged);
    let budgets = points(curve, |at| at.budget_f);
    let stroke = Stroke::new(AMBER, 2.0, &[]);
    draw_runs(&mut above, &mut drawing, &budgets, "budget", stroke);
    // The lower end of a window.
    let lowest = points(curve, |at| at.lowest_f.filter(|least| *least > 0.0));
    draw_runs(&mut above, &mut drawing, &lowest, "least", Stroke::new(SLATE, 1.6, &[6.0, 3.0]));
    let ends = curve.over.values.first().zip(curve.over.values.last());
    if let Some((fitted, (first, last))) = data.fitted_f.zip(ends) {
        let line = [(*first, fitted), (*last, fitted)];
        let c = capacitances(data);
        let stroke = Stroke::new(BLUE, 1.4, &[2.0, 2.5]);
        above.curve(&mut drawing, &line, stroke);
        above.name(&line, format!("fitted {} {}", c.fitted().unwrap_or_default(), c.unit()), stroke);
    }
    mark(&mut above, &mut drawing, &curve.over);
    if judged {
        let margins = Axis::new("tightest headroom", "%", low(curve), high(curve), false).rounded(4);
        let mut below = Panel::new(area(278.0, HEIGHT - 64.0), axis(&curve.over), margins, false);
        below.frame(&mut drawing, true);
        if let Some((first, last)) = ends {
            below.curve(&mut drawing, &[(*first, 0.0), (*last, 0.0)], Stroke::new(Colour::INK, 1.3, &[]));
        }
        let stroke = Stroke::new(PLUM, 1.9, &[]);
        draw_runs(&mut below, &mut drawing, &points(curve, |at| at.headroom), "headroom", stroke);
        if let Some(nominal) = curve.over.nominal {
            below.upright(&mut drawing, nominal, MARK);
        }
        below.finish(&mut drawing);
    }
    above.finish(&mut drawing);
    let below = if judged { "  ·  below 0 what is fitted breaks a limit" } else { "" };
    remark(&mut drawing, &format!("a gap: no capacitance is allowed, or any{below}"));
    drawing
}

/// The axis of a value.
pub(super) fn axis(of: &SweptAxis) -> Axis {
    let (low, high) = (of.values.first().copied().unwrap_or(0.0), of.values.last().copied().unwrap_or(1.0));
    let unit = if of.dimension == Dimension::Number { "" } else { of.dimension.symbol() };
    Axis::new(&of.address, unit, low, high, false)
}

/// The stated value, named above the panel.
fn mark(panel: &mut Panel, drawing: &mut Drawing, of: &SweptAxis) {
    let (low, high) = panel.x.range();
    if let Some(nominal) = of.nominal.filter(|nominal| (low..=high).contains(nominal)) {
        panel.mark(drawing, nominal, format!("stated {}", value(nominal, of.dimension)), MARK);
    }
}

/// The points of a curve in runs without a gap.
fn points(curve: &SweptCurve, of: impl Fn(&SweptAt) -> Option<f64>) -> Vec<Vec<(f64, f64)>> {
    let mut runs = vec![Vec::new()];
    for (x, at) in curve.over.values.iter().zip(&curve.at) {
        match (of(at), runs.last_mut()) {
            (Some(y), Some(run)) => run.push((*x, y)),
            _ => runs.push(Vec::new()),
        }
    }
    runs.retain(|run| !run.is_empty());
    runs
}

fn draw_runs(panel: &mut Panel, drawing: &mut Drawing, runs: &[Vec<(f64, f64)>], name: &str, stroke: Stroke) {
    for run in runs {
        panel.curve(drawing, run, stroke);
    }
    if let Some(last) = runs.last() {
        panel.name(last, name.to_owned(), stroke);
    }
}

fn budget(data: &ChartData, curve: &SweptCurve) -> Axis {
    let budgets = curve.at.iter().filter_map(|at| at.budget_f).chain(data.fitted_f);
    let most = budgets.fold(0.0, f64::max);
    Axis::new("capacitance", "F", 0.0, if most > 0.0 { 1.05 * most } else { 1e-12 }, false).rounded(5)
}

fn low(curve: &SweptCurve) -> f64 {
    curve.at.iter().filter_map(|at| at.headroom).fold(-0.1, f64::min).max(-FAR)
}

fn high(curve: &SweptCurve) -> f64 {
    curve.at.iter().filter_map(|at| at.headroom).fold(0.1, f64::max).min(FAR)
}
