//! The budget and the tightest headroom over one value.

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{area, page, remark};
use super::panel::Panel;
use super::style::{AMBER, BLUE, HEIGHT, MARK, PLUM, SLATE, TEAL, capacitances};
use crate::curve::{ChartData, SweptAt, SweptAxis, SweptCurve};
use crate::study::Out;
use crate::units::Dimension;
use crate::words::value::{named, value};

/// Headroom beyond this is of no interest.
const FAR: f64 = 1.0;
/// The least half of what is shown of the headroom.
const NEAR: f64 = 0.02;
/// Where nothing is allowed.
const SHUT: Colour = Colour(0x1b, 0x1d, 0x1f, 0.13);

pub(crate) fn draw(data: &ChartData, curve: &SweptCurve) -> Drawing {
    let mut drawing = page(data, &format!("the budget over {}", named_axis(&curve.over)));
    let judged = curve.at.iter().any(|at| at.headroom.is_some());
    let split = if judged { 262.0 } else { HEIGHT - 64.0 };
    let mut above = Panel::new(area(92.0, split), axis(&curve.over), budget(data, curve), false);
    let open = stretches(curve, |at| at.budget_f.is_none() && at.lowest_f.is_some());
    let shut = stretches(curve, |at| at.budget_f.is_none() && at.lowest_f.is_none());
    for ((from, to), colour) in open.iter().map(|own| (own, TEAL.faint(0.2))).chain(shut.iter().map(|own| (own, SHUT)))
    {
        above.band(&mut drawing, *from, *to, colour);
    }
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
    let least = curve.at.iter().filter_map(|at| at.headroom).fold(f64::INFINITY, f64::min);
    let said = [
        (!shut.is_empty(), "grey: no capacitance is allowed"),
        (!open.is_empty(), "green: any capacitance is allowed"),
        (judged && least < 0.0, "below 0 what is fitted breaks a limit"),
        (judged && least < low(curve), "far below is cut off"),
    ];
    let said: Vec<&str> = said.iter().filter(|(is_so, _)| *is_so).map(|(_, text)| *text).collect();
    if !said.is_empty() {
        remark(&mut drawing, &said.join("  ·  "));
    }
    drawing
}

/// What a value is in words: `length of trace 6`.
pub(super) fn named_axis(of: &SweptAxis) -> String {
    of.address.clone().map_or(String::new(), |address| named(&Out::Value(address), &of.elements))
}

/// From where to where something holds at each value, halfway to the next one at which it does not.
fn stretches(curve: &SweptCurve, of: impl Fn(&SweptAt) -> bool) -> Vec<(f64, f64)> {
    let values = &curve.over.values;
    let between = |one: usize, other: usize| Some((values.get(one)? + values.get(other)?) / 2.0);
    let mut found: Vec<(f64, f64)> = Vec::new();
    for (index, (value, _)) in values.iter().zip(&curve.at).enumerate().filter(|(_, (_, at))| of(at)) {
        let from = index.checked_sub(1).and_then(|before| between(before, index)).unwrap_or(*value);
        let to = between(index, index + 1).unwrap_or(*value);
        match found.last_mut() {
            Some(last) if last.1 == from => last.1 = to,
            _ => found.push((from, to)),
        }
    }
    found
}

/// The axis of a value.
pub(super) fn axis(of: &SweptAxis) -> Axis {
    let (low, high) = (of.values.first().copied().unwrap_or(0.0), of.values.last().copied().unwrap_or(1.0));
    let unit = if of.dimension == Dimension::Number { "" } else { of.dimension.symbol() };
    Axis::new(&named_axis(of), unit, low, high, false)
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

/// The largest headroom, which the axis is made for.
fn best(curve: &SweptCurve) -> f64 {
    curve.at.iter().filter_map(|at| at.headroom).fold(f64::NEG_INFINITY, f64::max)
}

fn low(curve: &SweptCurve) -> f64 {
    let best = best(curve);
    let reach = best.abs().clamp(NEAR, FAR);
    let least = if best > 0.0 { -1.5 * reach } else { best - reach };
    curve.at.iter().filter_map(|at| at.headroom).fold(0.0, f64::min).max(least)
}

fn high(curve: &SweptCurve) -> f64 {
    best(curve).clamp(0.0, FAR).max(NEAR / 2.0)
}
