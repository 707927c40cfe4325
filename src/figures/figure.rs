//! What a figure is.

use super::range::Range;
use crate::units::Dimension;

/// A number that is known of a line, at one capacitance of its protector.
#[derive(Debug, PartialEq)]
pub struct Figure {
    /// Its key in JSON and CSV, with the unit.
    pub key: &'static str,
    /// Its name over a column, without the unit.
    pub title: &'static str,
    /// Its dimension, and the range a bound on it may have.
    pub range: Range,
    /// What stands where there is no number.
    pub without: &'static str,
    /// The limit that bounds it, where there is one.
    pub limit: Option<LimitWord>,
}

/// The limit on a figure.
#[derive(Debug, PartialEq)]
pub struct LimitWord {
    /// The word of the sheet and of the results.
    pub word: &'static str,
    /// The side it bounds.
    pub sense: Sense,
    /// Whether points over frequency make it a mask.
    pub mask: bool,
    /// The lines whose sheets may state it; none for a limit that another word implies.
    pub lines: &'static [LineKind],
    /// What it means.
    pub doc: &'static str,
}

/// The side a limit bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// `<=`.
    AtMost,
    /// `>=`.
    AtLeast,
}

impl Sense {
    /// The comparison of the sheet.
    pub fn sign(self) -> &'static str {
        match self {
            Sense::AtMost => "<=",
            Sense::AtLeast => ">=",
        }
    }

    /// The distance of a value to its bound, positive where the bound is kept.
    pub fn margin(self, value: f64, bound: f64) -> f64 {
        match self {
            Sense::AtMost => bound - value,
            Sense::AtLeast => value - bound,
        }
    }
}

/// A kind of line, in the order of every output.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum LineKind {
    /// A high-speed lane.
    Lane,
    /// An antenna feed.
    Feed,
    /// A slow bus.
    Bus,
    /// A power rail.
    Rail,
}

impl LineKind {
    /// All kinds, in the order of every output.
    pub const ALL: [LineKind; 4] = [LineKind::Lane, LineKind::Feed, LineKind::Bus, LineKind::Rail];

    /// The word of the sheet.
    pub fn word(self) -> &'static str {
        match self {
            LineKind::Lane => "lane",
            LineKind::Feed => "feed",
            LineKind::Bus => "bus",
            LineKind::Rail => "rail",
        }
    }
}

impl Figure {
    /// The word of its limit, or else its key.
    pub fn word(&self) -> &'static str {
        self.limit.as_ref().map_or(self.key, |limit| limit.word)
    }

    /// The side its limit bounds.
    pub fn sense(&self) -> Sense {
        self.limit.as_ref().map_or(Sense::AtMost, |limit| limit.sense)
    }

    /// Whether it must stay at or above its bound.
    pub fn is_floor(&self) -> bool {
        self.sense() == Sense::AtLeast
    }

    /// Its unit in SI: `""` for a share, shown in percent, `"1"` for a plain ratio.
    pub fn unit(&self) -> &'static str {
        match self.range.dimension {
            Dimension::Percent => "",
            Dimension::Number => "1",
            dimension => dimension.symbol(),
        }
    }
}
