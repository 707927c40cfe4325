//! The worst-pattern eye: what no pattern leaves, and what none enters.

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{page, remark};
use super::panel::Panel;
use super::place::{Rect, Xy};
use super::style::{HEIGHT, WIDTH, capacitances, name, stroke};
use crate::curve::{ChartData, EyeOutline, Phase};
use crate::units::significant;

/// Distance between the panels.
const GAP: f64 = 58.0;

pub(crate) fn draw(data: &ChartData, eyes: &[EyeOutline]) -> Drawing {
    let mut drawing = page(data, "worst-pattern eye");
    let count = eyes.len().max(1) as f64;
    let (left, right) = (66.0, WIDTH - 22.0);
    let width = ((right - left - GAP * (count - 1.0)) / count).min(460.0);
    let c = capacitances(data);
    for (index, eye) in eyes.iter().enumerate() {
        let start = left + index as f64 * (width + GAP);
        let area = Rect { left: start, top: 72.0, right: start + width, bottom: HEIGHT - 66.0 };
        one(&mut drawing, area, eye, eyes, name(eye.state, &c));
    }
    remark(
        &mut drawing,
        "shaded: where patterns may run; clear within: what no pattern enters; levels of an ideal lane at ±1",
    );
    drawing
}

fn one(drawing: &mut Drawing, area: Rect, eye: &EyeOutline, eyes: &[EyeOutline], name: String) {
    let reach = |eye: &EyeOutline| eye.phases.iter().map(Phase::outer).fold(0.0, f64::max);
    let most = eyes.iter().map(reach).fold(1.0, f64::max);
    let x = Axis::new("phase from the best sampling instant", "UI", -1.0, 1.0, false);
    let y = Axis::new("of the ideal level", "", -1.12 * most, 1.12 * most, false);
    let mut panel = Panel::new(area, x, y, false);
    panel.frame(drawing, true);
    let colour = stroke(eye.state).colour;
    let outer = around(eye);
    let mirrored = outer.iter().rev().map(|(x, y)| (*x, -y));
    let ground: Vec<Xy> = outer.iter().copied().chain(mirrored).map(|p| panel.place(p)).collect();
    drawing.area(ground, colour.faint(0.28));
    let line = Stroke::new(colour, 1.6, &[]);
    let below: Vec<Xy> = outer.iter().map(|(x, y)| (*x, -y)).collect();
    panel.curve(drawing, &outer, line);
    panel.curve(drawing, &below, line);
    let symbols = [-1.0, 0.0, 1.0];
    let each = (0..eye.levels.saturating_sub(1)).flat_map(|index| symbols.map(|shift| (index, shift)));
    for (index, shift) in each {
        let lower = bound(eye, shift, |phase| phase.opening(eye.levels, index).0);
        let upper = bound(eye, shift, |phase| phase.opening(eye.levels, index).1);
        for (lower, upper) in openings(&lower, &upper) {
            let ring = lower.iter().copied().chain(upper.iter().rev().copied());
            let ring: Vec<Xy> = ring.map(|p| panel.place(p)).collect();
            drawing.area(ring, Colour::PAPER);
            panel.curve(drawing, &lower, line);
            panel.curve(drawing, &upper, line);
        }
    }
    panel.head(format!("{name}: {}", figures(eye)));
    panel.finish(drawing);
}

fn figures(eye: &EyeOutline) -> String {
    let height = format!("height {} %", significant(100.0 * eye.height, 4));
    if eye.width_ui > 0.0 {
        format!("{height}, width {} UI", significant(eye.width_ui, 3))
    } else {
        format!("closed, {height}")
    }
}

/// The outer bound, which repeats every unit interval.
fn around(eye: &EyeOutline) -> Vec<(f64, f64)> {
    let inner = eye.phases.iter().filter(|phase| phase.at_ui.abs() <= 0.5);
    let inner: Vec<(f64, f64)> = inner.map(|phase| (phase.at_ui, phase.outer())).collect();
    let shifted = [-1.0, 0.0, 1.0].into_iter().flat_map(|shift| inner.iter().map(move |(x, y)| (x + shift, *y)));
    shifted.filter(|(x, _)| x.abs() <= 1.0).collect()
}

/// A bound of the symbol sampled `shift` unit intervals away, within the panel.
fn bound(eye: &EyeOutline, shift: f64, of: impl Fn(&Phase) -> f64) -> Vec<(f64, f64)> {
    let all = eye.phases.iter().map(|phase| (phase.at_ui + shift, of(phase)));
    all.filter(|(x, _)| x.abs() <= 1.0).collect()
}

/// A value against the phase.
type Bound = Vec<(f64, f64)>;

/// The stretches where the lower bound is below the upper one, ended where they meet.
fn openings(lower: &[(f64, f64)], upper: &[(f64, f64)]) -> Vec<(Bound, Bound)> {
    let mut found = Vec::new();
    let (mut low, mut high) = (Vec::new(), Vec::new());
    let mut before: Option<((f64, f64), (f64, f64))> = None;
    for (l, u) in lower.iter().zip(upper) {
        let open = u.1 > l.1;
        if let Some((l0, u0)) = before.filter(|(l0, u0)| (u0.1 > l0.1) != open) {
            let (gap0, gap1) = (u0.1 - l0.1, u.1 - l.1);
            let share = gap0 / (gap0 - gap1);
            let at = (l0.0 + share * (l.0 - l0.0), l0.1 + share * (l.1 - l0.1));
            low.push(at);
            high.push(at);
            if !open {
                found.push((std::mem::take(&mut low), std::mem::take(&mut high)));
            }
        }
        if open {
            low.push(*l);
            high.push(*u);
        }
        before = Some((*l, *u));
    }
    if low.len() > 1 {
        found.push((low, high));
    }
    found
}
