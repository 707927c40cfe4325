//! Return loss of a feed over its band, with the frequencies of least reflection.

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{area, page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::spectrum::{bound, curves, shade};
use super::style::{HEIGHT, LIMIT, MARK, PLUM, stroke};
use crate::curve::{BandMatch, ChartData, Minimum, State};
use crate::figures::RETURN_LOSS;
use crate::units::{Scale, engineering, significant};
use crate::words::label;

/// Height of the bar within which a minimum may lie.
const BAR: f64 = 8.0;

pub(crate) fn draw(data: &ChartData, found: &BandMatch) -> Drawing {
    let mut drawing = page(data, "match over the band");
    let area = area(92.0, HEIGHT - 64.0);
    let ([low, high], [first, last]) = (found.band_hz, found.shown_hz);
    let x = Axis::new("frequency", "Hz", first, last, false);
    let mut panel = Panel::new(area, x, loss(found), true);
    for (from, to) in [(first, low), (high, last)] {
        panel.band(&mut drawing, from, to, Colour::INK.faint(0.07));
    }
    for limit in &found.limits {
        shade(&panel, &mut drawing, limit);
    }
    panel.frame(&mut drawing, true);
    panel.upright(&mut drawing, low, MARK);
    panel.upright(&mut drawing, high, MARK);
    curves(&mut panel, &mut drawing, data, &found.curves, &RETURN_LOSS);
    for minimum in &found.minima {
        let stroke = Stroke { width: 1.0, ..stroke(minimum.state) };
        panel.mark(&mut drawing, minimum.at_hz, said(minimum), stroke);
    }
    tolerated(&mut panel, &mut drawing, found);
    for limit in &found.limits {
        bound(&mut panel, &mut drawing, limit);
    }
    if let Some(most) = found.bode_fano_db {
        let line = [(low, most), (high, most)];
        panel.curve(&mut drawing, &line, Stroke::new(Colour::INK.faint(0.7), 1.0, &[7.0, 2.0]));
        if most < panel.y.range().1 {
            let (x, y) = panel.place(((low + high) / 2.0, most));
            panel.note(&mut drawing, (x, y + 12.0), "Bode–Fano bound", Colour::INK);
        }
    }
    let (x, _) = panel.place(((low + high) / 2.0, 0.0));
    panel.note(&mut drawing, (x, area.top + 12.0), "band", Colour::INK);
    panel.finish(&mut drawing);
    let above = if found.minima.is_empty() {
        "no frequency of least reflection is followed here"
    } else {
        "named above the frame: the frequency of least reflection, and its shift"
    };
    remark(&mut drawing, &format!("as the radio sees it; {above}"));
    drawing
}

/// A minimum in words, its frequency to seven digits as in the tables.
fn said(minimum: &Minimum) -> String {
    let state = match minimum.state {
        State::Absent => "absent",
        State::Fitted(_) => "fitted",
        State::AtBudget(_) => "at budget",
    };
    let scale = Scale::of(minimum.at_hz);
    let at = significant(minimum.at_hz / scale.factor, 7);
    let shift =
        minimum.shift_hz.map(|shift| format!(" ({}{})", if shift > 0.0 { "+" } else { "" }, engineering(shift, "Hz")));
    format!("{state} {at} {}Hz{}", scale.prefix, shift.unwrap_or_default())
}

/// Where a detuning limit lets the minimum lie.
fn tolerated(panel: &mut Panel, drawing: &mut Drawing, found: &BandMatch) {
    let absent = found.minima.iter().find(|minimum| minimum.state == State::Absent);
    let Some((absent, (level, limit))) = absent.zip(found.detuning.as_ref()) else {
        return;
    };
    let Rect { left, right, bottom, .. } = panel.area;
    let at = |f: f64| panel.place((f, 0.0)).0.clamp(left, right);
    let (from, to) = (at(absent.at_hz - level), at(absent.at_hz + level));
    let bar = Rect { left: from, top: bottom - BAR, right: to, bottom };
    drawing.area(bar.corners(), PLUM.faint(0.3));
    for x in [from, to] {
        panel.keep_off((0..=8).map(|i| (x, bottom - BAR * f64::from(i) / 4.0)));
        drawing.line(vec![(x, bottom - 2.0 * BAR), (x, bottom)], LIMIT);
    }
    panel.note(drawing, ((from + to) / 2.0, bottom - 2.0 * BAR - 6.0), &label(limit), PLUM);
}

/// From the least loss shown to what is worth seeing: the depth of a minimum says little.
fn loss(found: &BandMatch) -> Axis {
    let [low, high] = found.band_hz;
    let points = || found.curves.iter().flat_map(|curve| &curve.points);
    let in_band = points().filter(|point| (low..=high).contains(&point.0));
    let worst = in_band.map(|point| point.1).fold(f64::INFINITY, f64::min);
    let worst = if worst.is_finite() { worst } else { 0.0 };
    let bounds = found.limits.iter().flat_map(|limit| &limit.points);
    let bound = bounds.map(|point| point.1).fold(0.0, f64::max);
    let most = points().map(|point| point.1).fold(10.0, f64::max);
    let room = (1.4 * worst).max(1.6 * bound).clamp(30.0, 100.0);
    let least = points().map(|point| point.1).fold(0.0, f64::min);
    Axis::new("return loss", "dB", least, most.min(room).max(1.08 * bound), false).rounded(8)
}
