//! A drawing as a list of shapes and texts.

use super::font;
use super::frame::Frame;
use super::thin::thinned;

/// A point: to the right, downward.
pub(super) type Xy = (f64, f64);

/// A colour with its opacity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Colour(pub(super) u8, pub(super) u8, pub(super) u8, pub(super) f64);

impl Colour {
    /// Text and frames. A page may set its own.
    pub(super) const INK: Colour = Colour(0x1b, 0x1d, 0x1f, 1.0);
    /// The ground.
    pub(super) const PAPER: Colour = Colour(0xfe, 0xfe, 0xfd, 1.0);

    /// The same, less opaque.
    pub(super) fn faint(self, opacity: f64) -> Colour {
        Colour(self.0, self.1, self.2, opacity)
    }

    /// As `#1B1D1F`, without the opacity.
    pub(super) fn hex(self) -> String {
        format!("#{:02X}{:02X}{:02X}", self.0, self.1, self.2)
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stroke {
    pub(super) colour: Colour,
    pub(super) width: f64,
    /// Lengths drawn and left out in turn; empty for an unbroken line.
    pub(super) dashes: &'static [f64],
}

impl Stroke {
    pub(super) const fn new(colour: Colour, width: f64, dashes: &'static [f64]) -> Stroke {
        Stroke { colour, width, dashes }
    }
}

/// Where a text hangs on its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// A line of text on its baseline.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Text {
    pub(super) text: String,
    pub(super) at: Xy,
    pub(super) size: f64,
    pub(super) anchor: Anchor,
    pub(super) colour: Colour,
    /// Turned to read upward.
    pub(super) upward: bool,
}

/// An upright rectangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rect {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Rect {
    /// Whether both share more than an edge.
    pub(super) fn overlaps(&self, other: &Rect) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    pub(super) fn contains(&self, (x, y): Xy) -> bool {
        self.left <= x && x <= self.right && self.top <= y && y <= self.bottom
    }

    /// With room to either side, as of a text that others keep off.
    pub(super) fn widened(self) -> Rect {
        Rect { left: self.left - 3.0, right: self.right + 3.0, ..self }
    }

    pub(super) fn corners(&self) -> Vec<Xy> {
        vec![(self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)]
    }
}

impl Text {
    /// The box it takes, ascenders and descenders included. For a text that does not read upward.
    pub(super) fn extent(&self) -> Rect {
        let width = font::width(&self.text, self.size);
        let left = match self.anchor {
            Anchor::Start => self.at.0,
            Anchor::Middle => self.at.0 - width / 2.0,
            Anchor::End => self.at.0 - width,
        };
        Rect { left, top: self.at.1 - 0.8 * self.size, right: left + width, bottom: self.at.1 + 0.25 * self.size }
    }
}

/// A line or an area.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    Line(Vec<Xy>, Stroke),
    Area(Vec<Xy>, Colour),
}

/// A drawing, in points.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawing {
    pub(super) width: f64,
    pub(super) height: f64,
    /// What it shows, in a sentence.
    pub(super) title: String,
    pub(super) shapes: Vec<Shape>,
    /// On top of every shape.
    pub(super) texts: Vec<Text>,
    /// The panels that a further curve can be put in.
    pub(super) frames: Vec<Frame>,
}

impl Drawing {
    pub(super) fn line(&mut self, points: Vec<Xy>, stroke: Stroke) {
        if points.len() > 1 {
            self.shapes.push(Shape::Line(thinned(&points), stroke));
        }
    }

    pub(super) fn area(&mut self, points: Vec<Xy>, colour: Colour) {
        let points = thinned(&points);
        if points.len() > 2 {
            self.shapes.push(Shape::Area(points, colour));
        }
    }

    pub(super) fn text(&mut self, text: Text) {
        if !text.text.is_empty() {
            self.texts.push(text);
        }
    }
}
