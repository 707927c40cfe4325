//! What the losses over frequency have in common. A loss grows downward.

use super::axis::Axis;
use super::canvas::{Drawing, Rect};
use super::data::{ChartData, Curve, LimitLine, Spectrum};
use super::page::page;
use super::panel::Panel;
use super::style::{HEIGHT, LIMIT, MARK, PLUM, WIDTH, capacitances, name, stroke};
use crate::units::engineering;

/// What sets one loss apart.
pub(super) struct Scheme {
    pub(super) what: &'static str,
    /// Key of the figure.
    pub(super) figure: &'static str,
    /// What a loss beyond any number means.
    pub(super) beyond: &'static str,
    /// The axis reaches to this many dB at least.
    pub(super) least: f64,
    /// The most it shows, from the largest loss at Nyquist and the largest bound.
    pub(super) room: fn(f64, f64) -> f64,
}

/// Width and height of the mark of a limit at one frequency.
const BAR: f64 = 34.0;
const HATCH: f64 = 9.0;

pub(super) fn draw(data: &ChartData, spectrum: &Spectrum, scheme: &Scheme) -> Drawing {
    let mut drawing = page(data, scheme.what);
    let area = Rect {
        left: 66.0,
        top: 72.0,
        right: WIDTH - 190.0,
        bottom: HEIGHT - 46.0,
    };
    let mut panel = Panel::new(area, frequency(spectrum), loss(spectrum, scheme), true);
    for limit in &spectrum.limits {
        shade(&panel, &mut drawing, limit);
    }
    panel.frame(&mut drawing, true);
    panel.open_to(&mut drawing, scheme.figure);
    let nyquist = format!("Nyquist {}", engineering(spectrum.nyquist_hz, "Hz"));
    panel.mark(&mut drawing, spectrum.nyquist_hz, nyquist, MARK);
    let c = capacitances(data);
    for curve in &spectrum.curves {
        panel.curve(&mut drawing, &curve.points, stroke(curve.state));
        let mut name = name(curve.state, &c);
        if curve.points.is_empty() {
            name = format!("{name}: {}", scheme.beyond);
        }
        panel.name(&curve.points, name, stroke(curve.state));
    }
    for limit in &spectrum.limits {
        bound(&mut panel, &mut drawing, limit);
    }
    panel.finish(&mut drawing);
    drawing
}

fn frequency(spectrum: &Spectrum) -> Axis {
    let all = || {
        spectrum
            .curves
            .iter()
            .flat_map(|curve| &curve.points)
            .map(|point| point.0)
    };
    let limits = spectrum
        .limits
        .iter()
        .flat_map(|limit| &limit.points)
        .map(|point| point.0);
    let low = all().fold(f64::INFINITY, f64::min);
    let high = all().chain(limits).fold(0.0, f64::max);
    let low = if low.is_finite() && spectrum.logarithmic {
        low
    } else {
        0.0
    };
    Axis::new("frequency", "Hz", low, high, spectrum.logarithmic)
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
    let high = most
        .min((scheme.room)(nyquist, bound).max(scheme.least))
        .max(1.08 * bound);
    let low = points().map(|point| point.1).fold(0.0, f64::min);
    // Round-off is no gain.
    let low = if low > -0.01 { 0.0 } else { low };
    Axis::new(scheme.what, "dB", low, high, false).rounded(8)
}

/// The side that a limit forbids. Losses grow downward: a floor forbids what lies above it.
pub(super) fn shade(panel: &Panel, drawing: &mut Drawing, limit: &LimitLine) {
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
pub(super) fn bound(panel: &mut Panel, drawing: &mut Drawing, limit: &LimitLine) {
    let Some(first) = limit.points.first() else { return };
    if limit.points.len() == 1 {
        let (x, y) = panel.place(*first);
        let line = vec![
            ((x - BAR / 2.0).max(panel.area.left), y),
            ((x + BAR / 2.0).min(panel.area.right), y),
        ];
        panel.keep_off((0..=16).map(|i| (x + BAR * (f64::from(i) / 16.0 - 0.5), y)));
        drawing.line(line, LIMIT);
        let aside = if limit.is_floor { -16.0 } else { 18.0 };
        panel.note(drawing, (x + BAR, y + aside), &limit.label, PLUM);
        return;
    }
    panel.curve(drawing, &limit.points, LIMIT);
    let middle = panel.place(limit.points[limit.points.len() / 2]);
    let aside = if limit.is_floor { -14.0 } else { 14.0 };
    panel.note(drawing, (middle.0, middle.1 + aside), &limit.label, PLUM);
}
