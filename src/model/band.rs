//! A band of frequencies.

use crate::units::Hertz;

/// A range of frequencies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lowest frequency.
    pub low: Hertz,
    /// Highest frequency.
    pub high: Hertz,
}

impl Band {
    /// The arithmetic middle, where lines of the feed have their reference frequency unless they state one.
    pub fn middle(&self) -> Hertz {
        Hertz(0.5 * (self.low.0 + self.high.0))
    }

    /// Its width.
    pub fn width(&self) -> Hertz {
        Hertz(self.high.0 - self.low.0)
    }
}
