//! One panel: a frame with axes, curves within it, and texts that keep out of each other's way.

use super::axis::Axis;
use super::canvas::{Anchor, Colour, Drawing, Stroke, Text};
use super::frame::Frame;
use super::marks::Mark;
use super::place::{Rect, Xy};
use super::style::{EDGE, FRAME, GRID, SMALL, WIDTH};
use super::thin::{by_column, clipped};
use super::{font, marks};
use crate::figures::Figure;

/// Height of a line of text.
const LINE: f64 = 15.0;
/// Length of the sample of a line beside its name.
const SAMPLE: f64 = 24.0;

/// A plot in the making.
pub(crate) struct Panel {
    pub(crate) area: Rect,
    pub(crate) x: Axis,
    pub(crate) y: Axis,
    /// Whether values grow downward.
    pub(crate) down: bool,
    /// Points that lie on curves and limits.
    busy: Vec<Xy>,
    taken: Vec<Rect>,
    names: Vec<(f64, String, Stroke)>,
    marks: Vec<Mark>,
}

impl Panel {
    pub(crate) fn new(area: Rect, x: Axis, y: Axis, down: bool) -> Panel {
        Panel { area, x, y, down, busy: Vec::new(), taken: Vec::new(), names: Vec::new(), marks: Vec::new() }
    }

    /// Where a pair of quantities lies.
    pub(crate) fn place(&self, (x, y): (f64, f64)) -> Xy {
        let Rect { left, top, right, bottom } = self.area;
        let up = self.y.share(y);
        let up = if self.down { 1.0 - up } else { up };
        // Far outside is far enough.
        let bounded = |share: f64| share.clamp(-50.0, 50.0);
        (left + bounded(self.x.share(x)) * (right - left), bottom - bounded(up) * (bottom - top))
    }

    /// Grid, ticks and labels; those of the abscissa only where `foot` is set.
    pub(crate) fn frame(&self, drawing: &mut Drawing, foot: bool) {
        let Rect { left, top, right, bottom } = self.area;
        let label =
            |text: String, at: Xy, anchor, upward| Text { text, at, size: SMALL, anchor, colour: Colour::INK, upward };
        let mut free = f64::NEG_INFINITY;
        // The faint ones first, so that lines alike follow each other.
        let mut ticks = self.x.ticks(((right - left) / 80.0) as usize);
        ticks.sort_by_key(|(_, text)| text.is_some());
        for (value, text) in ticks {
            let (x, _) = self.place((value, 0.0));
            let stroke = if text.is_some() { GRID } else { Stroke { width: 0.4, ..GRID } };
            drawing.line(vec![(x, top), (x, bottom)], stroke);
            let Some(text) = text.filter(|_| foot) else { continue };
            let half = font::width(&text, SMALL) / 2.0;
            if x - half > free && x + half < WIDTH - 1.0 {
                free = x + half + 6.0;
                drawing.text(label(text, (x, bottom + 15.0), Anchor::Middle, false));
            }
        }
        let room = 34.0;
        for (value, text) in self.y.ticks(((bottom - top) / 42.0) as usize) {
            let (_, y) = self.place((0.0, value));
            drawing.line(vec![(left, y), (right, y)], GRID);
            let text = font::fit(&text.unwrap_or_default(), SMALL, room);
            drawing.text(label(text, (left - 6.0, y + 4.0), Anchor::End, false));
        }
        let corners = self.area.corners();
        drawing.line(corners.iter().copied().chain(corners.first().copied()).collect(), FRAME);
        if foot {
            let text = font::fit(&self.x.label, SMALL, right - left);
            drawing.text(label(text, ((left + right) / 2.0, bottom + 32.0), Anchor::Middle, false));
        }
        let text = font::fit(&self.y.label, SMALL, bottom - top + 20.0);
        drawing.text(label(text, (left - 45.0, (top + bottom) / 2.0), Anchor::Middle, true));
    }

    /// Tells where a further curve of `figure` belongs; `None` for a panel over the capacitance.
    pub(crate) fn open_to(&self, drawing: &mut Drawing, figure: Option<&'static Figure>) {
        let Rect { left, top, right, bottom } = self.area;
        drawing.frames.push(Frame {
            figure,
            area: [left, top, right, bottom],
            x: self.x.range(),
            y: self.y.range(),
            logarithmic: self.x.is_logarithmic(),
            down: self.down,
        });
    }

    /// A curve, cut at the frame.
    pub(crate) fn curve(&mut self, drawing: &mut Drawing, points: &[(f64, f64)], stroke: Stroke) {
        let placed: Vec<Xy> = points.iter().map(|point| self.place(*point)).collect();
        for run in clipped(&by_column(&placed), &self.area) {
            for pair in run.windows(2) {
                let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
                let steps = ((x1 - x0).hypot(y1 - y0) / 4.0).ceil().clamp(1.0, 500.0);
                let at = |i: f64| (x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps);
                self.busy.extend((0..=steps as usize).map(|i| at(i as f64)));
            }
            drawing.line(run, stroke);
        }
    }

    /// The ground between two abscissas.
    pub(crate) fn band(&self, drawing: &mut Drawing, from: f64, to: f64, colour: Colour) {
        let within = |x: f64| self.place((x, 0.0)).0.clamp(self.area.left, self.area.right);
        let (left, right) = (within(from), within(to));
        if right - left > 0.1 {
            drawing.area(Rect { left, right, ..self.area }.corners(), colour);
        }
    }

    /// A line over the whole height.
    pub(crate) fn upright(&mut self, drawing: &mut Drawing, x: f64, stroke: Stroke) {
        let (x, _) = self.place((x, 0.0));
        if (self.area.left - 0.5..=self.area.right + 0.5).contains(&x) {
            drawing.line(vec![(x, self.area.top), (x, self.area.bottom)], stroke);
            let steps = (self.area.bottom - self.area.top) / 4.0;
            self.busy.extend((0..steps as usize).map(|i| (x, self.area.top + 4.0 * i as f64)));
        }
    }

    /// A line over the whole height, named above the frame.
    pub(crate) fn mark(&mut self, drawing: &mut Drawing, x: f64, name: String, stroke: Stroke) {
        self.upright(drawing, x, stroke);
        let (x, _) = self.place((x, 0.0));
        if (self.area.left - 0.5..=self.area.right + 0.5).contains(&x) {
            self.marks.push(Mark { x, name, hangs: true });
        }
    }

    /// Heads the panel.
    pub(crate) fn head(&mut self, name: String) {
        self.marks.push(Mark { x: (self.area.left + self.area.right) / 2.0, name, hangs: false });
    }

    /// Names a line to the right of the frame, level with its end.
    pub(crate) fn name(&mut self, points: &[(f64, f64)], name: String, stroke: Stroke) {
        let end = points.last().map(|point| self.place(*point).1);
        // Without a point it lies beyond every number, at the foot.
        let y = end.unwrap_or(self.area.bottom).clamp(self.area.top, self.area.bottom);
        self.names.push((y, name, stroke));
    }

    /// Writes the names of the lines and the marks.
    pub(crate) fn finish(&mut self, drawing: &mut Drawing) {
        self.write_names(drawing);
        marks::write(drawing, std::mem::take(&mut self.marks), self.area.top);
    }

    fn write_names(&mut self, drawing: &mut Drawing) {
        let mut names = std::mem::take(&mut self.names);
        names.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (top, bottom) = (self.area.top + 4.0, self.area.bottom - 4.0);
        let line = LINE.min((bottom - top) / (names.len().max(2) - 1) as f64);
        let mut levels: Vec<f64> = Vec::with_capacity(names.len());
        for (y, ..) in &names {
            let least = levels.last().map_or(top, |last| last + line);
            levels.push(y.max(least));
        }
        let mut most = bottom;
        for level in levels.iter_mut().rev() {
            *level = level.min(most);
            most = *level - line;
        }
        let left = self.area.right;
        for ((y, name, stroke), level) in names.into_iter().zip(levels) {
            let leader = Stroke::new(stroke.colour.faint(0.6), 0.8, &[]);
            drawing.line(vec![(left, y), (left + 14.0, level)], leader);
            drawing.line(vec![(left + 14.0, level), (left + 14.0 + SAMPLE, level)], stroke);
            let at = (left + 14.0 + SAMPLE + 5.0, level + 4.0);
            drawing.text(Text {
                text: font::fit(&name, SMALL, WIDTH - EDGE - at.0),
                at,
                size: SMALL,
                anchor: Anchor::Start,
                colour: Colour::INK,
                upward: false,
            });
        }
    }

    /// Writes a text within the frame near a point, where it hides least.
    pub(crate) fn note(&mut self, drawing: &mut Drawing, near: Xy, text: &str, colour: Colour) {
        let text = font::fit(text, SMALL, self.area.right - self.area.left - 12.0);
        let width = font::width(&text, SMALL);
        let Rect { left, top, right, bottom } = self.area;
        let mut best: Option<(f64, Text, Rect)> = None;
        for row in -9..=9 {
            for column in -6..=6 {
                let x = (near.0 - width / 2.0 + f64::from(column) * (width / 2.0 + 8.0) / 2.0)
                    .clamp(left + 5.0, right - 5.0 - width);
                let y = (near.1 + 4.0 + f64::from(row) * 11.0).clamp(top + 14.0, bottom - 6.0);
                let candidate =
                    Text { text: text.clone(), at: (x, y), size: SMALL, anchor: Anchor::Start, colour, upward: false };
                let extent = candidate.extent().widened();
                if self.taken.iter().any(|other| other.overlaps(&extent)) {
                    continue;
                }
                let hidden = self.busy.iter().filter(|point| extent.contains(**point)).count();
                let middle = (x + width / 2.0, y - 4.0);
                let cost = 30.0 * hidden as f64 + (middle.0 - near.0).abs() * 0.3 + (middle.1 - near.1).abs();
                if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                    best = Some((cost, candidate, extent));
                }
            }
        }
        if let Some((_, text, extent)) = best {
            drawing.area(extent.corners(), Colour::PAPER.faint(0.8));
            self.taken.push(extent);
            drawing.text(text);
        }
    }

    /// Writes a text on a line, at the first of these places of the page where it hides no other text and lies within the frame.
    pub(crate) fn note_on(&mut self, drawing: &mut Drawing, places: &[Xy], text: &str, colour: Colour) {
        let half = font::width(text, SMALL) / 2.0;
        let Rect { left, top, right, bottom } = self.area;
        let at = |(x, y): &Xy| {
            let text = text.to_owned();
            let text =
                Text { text, at: (x - half, y + 4.0), size: SMALL, anchor: Anchor::Start, colour, upward: false };
            let extent = text.extent().widened();
            let is_inside = extent.left > left && extent.right < right && extent.top > top && extent.bottom < bottom;
            let is_free = is_inside && self.taken.iter().all(|other| !other.overlaps(&extent));
            is_free.then_some((text, extent))
        };
        if let Some((text, extent)) = places.iter().find_map(at) {
            drawing.area(extent.corners(), Colour::PAPER.faint(0.8));
            self.taken.push(extent);
            drawing.text(text);
        }
    }

    /// Keeps notes off a polyline given in points of the page.
    pub(crate) fn keep_off(&mut self, points: impl IntoIterator<Item = Xy>) {
        self.busy.extend(points);
    }
}
