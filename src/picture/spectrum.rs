//! What the losses over frequency have in common. A loss grows downward.

use super::axis::Axis;
use super::canvas::Drawing;
use super::page::{area, page};
use super::panel::Panel;
use super::place::Rect;
use super::style::{HEIGHT, LIMIT, MARK, PLUM, capacitances, name, stroke};
use crate::curve::{ChartData, Curve, LimitLine, Spectrum};
use crate::figures::Figure;
use crate::units::engineering;
use crate::words::label;

/// What sets one loss apart.
pub(crate) struct Scheme {
    pub(crate) what: &'static str,
    /// The figure that it shows.
    pub(crate) figure: &'static Figure,
    /// The axis reaches to this many dB at least.
    pub(crate) least: f64,
    /// The most it shows, from the largest loss at Nyquist and the largest bound.
    pub(crate) room: fn(f64, f64) -> f64,
}

/// Width and height of the mark of a limit at one frequency.
const BAR: f64 = 34.0;
const HATCH: f64 = 9.0;
/// Height of a panel where there are two, and from one to the next.
const LOW: f64 = 246.0;
const NEXT: f64 = LOW + 30.0;

/// One loss.
pub(crate) fn draw(data: &ChartData, spectrum: &Spectrum, scheme: &Scheme) -> Drawing {
    let mut drawing = page(data, scheme.what);
    let (top, bottom) = (72.0, HEIGHT - 46.0);
    draw_panel(&mut drawing, data, spectrum, scheme, [top, bottom], [true, true]);
    drawing
}

/// Two losses over the same frequencies, one below the other, on a higher page.
pub(crate) fn draw_both(data: &ChartData, title: &str, both: [(&Spectrum, &Scheme); 2]) -> Drawing {
    let mut drawing = page(data, title);
    let [(upper, above), (lower, below)] = both;
    let top = 72.0;
    drawing.height = top + NEXT + LOW + 46.0;
    draw_panel(&mut drawing, data, upper, above, [top, top + LOW], [true, false]);
    draw_panel(&mut drawing, data, lower, below, [top + NEXT, top + NEXT + LOW], [false, true]);
    drawing
}

/// A panel between two heights; Nyquist is named where it heads the page, frequencies where it is the foot.
fn draw_panel(
    drawing: &mut Drawing,
    data: &ChartData,
    spectrum: &Spectrum,
    scheme: &Scheme,
    [top, bottom]: [f64; 2],
    [heads, foot]: [bool; 2],
) {
    let [low, high] = spectrum.shown_hz;
    let frequency = Axis::new("frequency", "Hz", low, high, spectrum.logarithmic);
    let mut panel = Panel::new(area(top, bottom), frequency, loss(spectrum, scheme), true);
    for limit in &spectrum.limits {
        shade(&panel, drawing, limit);
    }
    panel.frame(drawing, foot);
    panel.open_to(drawing, Some(scheme.figure));
    if heads {
        let nyquist = format!("Nyquist {}", engineering(spectrum.nyquist_hz, "Hz"));
        panel.mark(drawing, spectrum.nyquist_hz, nyquist, MARK);
    } else {
        panel.upright(drawing, spectrum.nyquist_hz, MARK);
    }
    curves(&mut panel, drawing, data, &spectrum.curves, scheme.figure);
    for limit in &spectrum.limits {
        bound(&mut panel, drawing, limit);
    }
    panel.finish(drawing);
}

fn loss(spectrum: &Spectrum, scheme: &Scheme) -> Axis {
    let points = || spectrum.curves.iter().flat_map(|curve| &curve.points);
    let at_nyquist = |curve: &Curve| {
        let below = curve.points.partition_point(|point| point.0 < spectrum.nyquist_hz);
        curve.points.get(below).map_or(0.0, |point| point.1)
    };
    let nyquist = spectrum.curves.iter().map(at_nyquist).fold(0.0, f64::max);
    let bounds = spectrum.limits.iter().flat_map(|limit| &limit.points);
    let bound = bounds.map(|point| point.1).fold(0.0, f64::max);
    let most = points().map(|point| point.1).fold(scheme.least, f64::max);
    let high = most.min((scheme.room)(nyquist, bound).max(scheme.least)).max(1.08 * bound);
    let low = points().map(|point| point.1).fold(0.0, f64::min);
    // Round-off is no gain.
    let low = if low > -0.01 { 0.0 } else { low };
    Axis::new(scheme.what, "dB", low, high, false).rounded(8)
}

/// The curves of a figure in a panel, with their names.
pub(crate) fn curves(panel: &mut Panel, drawing: &mut Drawing, data: &ChartData, curves: &[Curve], figure: &Figure) {
    let c = capacitances(data);
    for curve in curves {
        panel.curve(drawing, &curve.points, stroke(curve.state));
        let mut name = name(curve.state, &c);
        if curve.points.is_empty() {
            name = format!("{name}: {}", figure.without);
        }
        panel.name(&curve.points, name, stroke(curve.state));
    }
}

/// The side that a limit forbids. Losses grow downward: a floor forbids what lies above it.
pub(crate) fn shade(panel: &Panel, drawing: &mut Drawing, limit: &LimitLine) {
    let (low, high) = panel.y.range();
    let far = if limit.is_floor { low } else { high };
    if let [only] = limit.points.as_slice() {
        let (x, y) = panel.place(*only);
        let y = y.clamp(panel.area.top, panel.area.bottom);
        let away = if limit.is_floor { -HATCH } else { HATCH };
        let bar = Rect {
            left: (x - BAR / 2.0).max(panel.area.left),
            right: (x + BAR / 2.0).min(panel.area.right),
            top: y.min(y + away),
            bottom: y.max(y + away),
        };
        drawing.area(bar.corners(), PLUM.faint(0.3));
        return;
    }
    let within = |(f, level): &(f64, f64)| panel.place((*f, level.clamp(low, high)));
    let ends = [limit.points.last(), limit.points.first()].into_iter().flatten();
    let back = ends.map(|point| panel.place((point.0, far)));
    drawing.area(limit.points.iter().map(within).chain(back).collect(), PLUM.faint(0.13));
}

/// The limit's own line and its name.
pub(crate) fn bound(panel: &mut Panel, drawing: &mut Drawing, limit: &LimitLine) {
    let Some(first) = limit.points.first() else { return };
    if limit.points.len() == 1 {
        let (x, y) = panel.place(*first);
        let line = vec![((x - BAR / 2.0).max(panel.area.left), y), ((x + BAR / 2.0).min(panel.area.right), y)];
        panel.keep_off((0..=16).map(|i| (x + BAR * (f64::from(i) / 16.0 - 0.5), y)));
        drawing.line(line, LIMIT);
        let aside = if limit.is_floor { -16.0 } else { 18.0 };
        panel.note(drawing, (x + BAR, y + aside), &label(&limit.limit), PLUM);
        return;
    }
    panel.curve(drawing, &limit.points, LIMIT);
    let middle = panel.place(limit.points[limit.points.len() / 2]);
    let aside = if limit.is_floor { -14.0 } else { 14.0 };
    panel.note(drawing, (middle.0, middle.1 + aside), &label(&limit.limit), PLUM);
}
