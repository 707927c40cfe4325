//! A drawing as a list of shapes and texts.

use super::font;
use super::frame::Frame;
use super::place::{Rect, Xy};
use super::thin::thinned;

/// A colour with its opacity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Colour(pub(crate) u8, pub(crate) u8, pub(crate) u8, pub(crate) f64);

impl Colour {
    /// Text and frames. A page may set its own.
    pub(crate) const INK: Colour = Colour(0x1b, 0x1d, 0x1f, 1.0);
    /// The ground.
    pub(crate) const PAPER: Colour = Colour(0xfe, 0xfe, 0xfd, 1.0);

    /// The same, less opaque.
    pub(crate) fn faint(self, opacity: f64) -> Colour {
        Colour(self.0, self.1, self.2, opacity)
    }

    /// As `#1B1D1F`, without the opacity.
    pub(crate) fn hex(self) -> String {
        format!("#{:02X}{:02X}{:02X}", self.0, self.1, self.2)
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stroke {
    pub(crate) colour: Colour,
    pub(crate) width: f64,
    /// Lengths drawn and left out in turn; empty for an unbroken line.
    pub(crate) dashes: &'static [f64],
}

impl Stroke {
    pub(crate) const fn new(colour: Colour, width: f64, dashes: &'static [f64]) -> Stroke {
        Stroke { colour, width, dashes }
    }
}

/// Where a text hangs on its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

/// A line of text on its baseline.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Text {
    pub(crate) text: String,
    pub(crate) at: Xy,
    pub(crate) size: f64,
    pub(crate) anchor: Anchor,
    pub(crate) colour: Colour,
    /// Turned to read upward.
    pub(crate) upward: bool,
}

impl Text {
    /// The box it takes, ascenders and descenders included. For a text that does not read upward.
    pub(crate) fn extent(&self) -> Rect {
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
pub(crate) enum Shape {
    Line(Vec<Xy>, Stroke),
    Area(Vec<Xy>, Colour),
}

/// A drawing, in points.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Drawing {
    pub(crate) width: f64,
    pub(crate) height: f64,
    /// What it shows, in a sentence.
    pub(crate) title: String,
    pub(crate) shapes: Vec<Shape>,
    /// On top of every shape.
    pub(crate) texts: Vec<Text>,
    /// The panels that a further curve can be put in.
    pub(crate) frames: Vec<Frame>,
}

impl Drawing {
    pub(crate) fn line(&mut self, points: Vec<Xy>, stroke: Stroke) {
        if points.len() > 1 {
            self.shapes.push(Shape::Line(thinned(&points), stroke));
        }
    }

    pub(crate) fn area(&mut self, points: Vec<Xy>, colour: Colour) {
        let points = thinned(&points);
        if points.len() > 2 {
            self.shapes.push(Shape::Area(points, colour));
        }
    }

    pub(crate) fn text(&mut self, text: Text) {
        if !text.text.is_empty() {
            self.texts.push(text);
        }
    }
}
