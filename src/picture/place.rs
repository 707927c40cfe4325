//! Where something is drawn: points and boxes.

/// A point: to the right, downward.
pub(crate) type Xy = (f64, f64);

/// An upright rectangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rect {
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) right: f64,
    pub(crate) bottom: f64,
}

impl Rect {
    /// Whether both share more than an edge.
    pub(crate) fn overlaps(&self, other: &Rect) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    pub(crate) fn contains(&self, (x, y): Xy) -> bool {
        self.left <= x && x <= self.right && self.top <= y && y <= self.bottom
    }

    /// With room to either side, as of a text that others keep off.
    pub(crate) fn widened(self) -> Rect {
        Rect { left: self.left - 3.0, right: self.right + 3.0, ..self }
    }

    pub(crate) fn corners(&self) -> Vec<Xy> {
        vec![(self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)]
    }
}
