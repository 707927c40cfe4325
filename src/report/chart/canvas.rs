//! A drawing as a list of shapes, and its way onto any of the backends.

use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontDesc, FontStyle, FontTransform, RGBAColor, ShapeStyle, TextStyle};
use plotters_backend::{DrawingBackend, DrawingErrorKind};

use super::Frame;
use super::font;

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

    fn rgba(self) -> RGBAColor {
        RGBAColor(self.0, self.1, self.2, self.3)
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

    pub(super) fn corners(&self) -> Vec<Xy> {
        vec![
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        ]
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
        Rect {
            left,
            top: self.at.1 - 0.8 * self.size,
            right: left + width,
            bottom: self.at.1 + 0.25 * self.size,
        }
    }
}

/// One shape.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    Line(Vec<Xy>, Stroke),
    Area(Vec<Xy>, Colour),
    Text(Text),
}

/// A drawing, in points.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawing {
    pub(super) width: f64,
    pub(super) height: f64,
    /// What it shows, in a sentence.
    pub(super) title: String,
    pub(super) shapes: Vec<Shape>,
    /// The panels that a further curve can be put in.
    pub(super) frames: Vec<Frame>,
}

impl Drawing {
    pub(super) fn line(&mut self, points: Vec<Xy>, stroke: Stroke) {
        if points.len() > 1 {
            self.shapes.push(Shape::Line(points, stroke));
        }
    }

    pub(super) fn area(&mut self, points: Vec<Xy>, colour: Colour) {
        if points.len() > 2 {
            self.shapes.push(Shape::Area(points, colour));
        }
    }

    pub(super) fn text(&mut self, text: Text) {
        if !text.text.is_empty() {
            self.shapes.push(Shape::Text(text));
        }
    }
}

/// How a backend understands the size and place of a text.
#[derive(Debug, Clone, Copy)]
pub(super) struct TextRule {
    /// Its size for an em of 1.
    pub(super) size: f64,
    /// From its upper anchor down to the baseline, in em.
    pub(super) baseline: f64,
}

/// Draws every shape, `scale` backend units to a point.
pub(super) fn paint<B: DrawingBackend>(
    drawing: &Drawing,
    backend: &mut B,
    scale: f64,
    rule: TextRule,
) -> Result<(), DrawingErrorKind<B::ErrorType>> {
    let place = |(x, y): Xy| ((x * scale).round() as i32, (y * scale).round() as i32);
    for shape in &drawing.shapes {
        match shape {
            Shape::Line(points, stroke) => {
                let style = ShapeStyle {
                    color: stroke.colour.rgba(),
                    filled: false,
                    stroke_width: (stroke.width * scale).round().max(1.0) as u32,
                };
                for piece in pieces(points, stroke.dashes) {
                    let mut path: Vec<_> = piece.into_iter().map(place).collect();
                    path.dedup();
                    if path.len() > 1 {
                        backend.draw_path(path, &style)?;
                    }
                }
            }
            Shape::Area(points, colour) => {
                let mut path: Vec<_> = points.iter().copied().map(place).collect();
                path.dedup();
                backend.fill_polygon(path, &colour.rgba())?;
            }
            Shape::Text(text) => draw_text(text, backend, scale, rule)?,
        }
    }
    Ok(())
}

fn draw_text<B: DrawingBackend>(
    text: &Text,
    backend: &mut B,
    scale: f64,
    rule: TextRule,
) -> Result<(), DrawingErrorKind<B::ErrorType>> {
    let up = rule.baseline * text.size;
    let (x, y) = text.at;
    let (at, transform) = if text.upward {
        ((x - up, y), FontTransform::Rotate270)
    } else {
        ((x, y - up), FontTransform::None)
    };
    let horizontal = match text.anchor {
        Anchor::Start => HPos::Left,
        Anchor::Middle => HPos::Center,
        Anchor::End => HPos::Right,
    };
    let font = FontDesc::new(
        plotters::style::FontFamily::Name(font::FAMILY),
        text.size * scale * rule.size,
        FontStyle::Normal,
    );
    let colour = text.colour.rgba();
    let style = TextStyle::from(font.transform(transform))
        .color(&colour)
        .pos(Pos::new(horizontal, VPos::Top));
    let place = ((at.0 * scale).round() as i32, (at.1 * scale).round() as i32);
    backend.draw_text(&text.text, &style, place)
}

/// The drawn pieces of a broken line.
fn pieces(points: &[Xy], dashes: &[f64]) -> Vec<Vec<Xy>> {
    let Some(first) = points.first().filter(|_| dashes.iter().sum::<f64>() > 0.0) else {
        return vec![points.to_vec()];
    };
    let mut done = Vec::new();
    let mut piece = vec![*first];
    let (mut which, mut left) = (0, dashes[0]);
    for pair in points.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        let length = (x1 - x0).hypot(y1 - y0);
        let mut gone = 0.0;
        while length - gone > left {
            gone += left;
            let share = gone / length;
            let at = (x0 + share * (x1 - x0), y0 + share * (y1 - y0));
            if which % 2 == 0 {
                piece.push(at);
                done.push(std::mem::take(&mut piece));
            }
            piece = vec![at];
            which = (which + 1) % dashes.len();
            left = dashes[which];
        }
        left -= length - gone;
        if which % 2 == 0 {
            piece.push((x1, y1));
        }
    }
    if which % 2 == 0 && piece.len() > 1 {
        done.push(piece);
    }
    done
}
