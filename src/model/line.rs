//! One line of a port: what every kind has, and what only its own has.

use std::sync::Arc;

use super::{Bus, Demands, Feed, Lane, Note, Part, Rail};
use crate::diag::Span;
use crate::figures::LineKind;
use crate::units::{Farad, Volt};

/// A line, or several that are alike.
#[derive(Debug, Clone)]
pub struct Line {
    /// What a line of any kind has.
    pub head: Head,
    /// What it is.
    pub kind: Kind,
}

impl Line {
    /// The part at its protector, where one is named.
    pub fn part(&self) -> Option<&Arc<Part>> {
        match &self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => path.protector()?.part.as_ref(),
            Kind::Bus(Bus { part, .. }) | Kind::Rail(Rail { part, .. }) => part.as_ref(),
        }
    }

    /// The word of its kind.
    pub fn word(&self) -> &'static str {
        self.kind.line_kind().word()
    }

    /// Judges this capacitance instead of the one the sheet states, without the part's name; a rail has none.
    pub fn fit(&mut self, capacitance: Farad) {
        match &mut self.kind {
            Kind::Lane(Lane { path, .. }) | Kind::Feed(Feed { path, .. }) => path.fit(capacitance),
            Kind::Bus(bus) => {
                bus.fitted = Some(capacitance);
                bus.part = None;
            }
            Kind::Rail(_) => {}
        }
    }
}

/// What a line of any kind has.
#[derive(Debug, Clone)]
pub struct Head {
    /// Its name.
    pub name: String,
    /// Where the name stands.
    pub span: Span,
    /// The connector it belongs to.
    pub port: Option<String>,
    /// How many identical lines there are; a pair counts once.
    pub count: u32,
    /// Range of its working voltage.
    pub voltage: Option<VoltageRange>,
    /// What it meets and asks for.
    pub demands: Demands,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}

impl Head {
    /// The head of one line of this name, of which nothing else is known.
    pub fn new(name: impl Into<String>) -> Head {
        Head {
            name: name.into(),
            span: Span::default(),
            port: None,
            count: 1,
            voltage: None,
            demands: Demands::default(),
            defaults: Vec::new(),
            warnings: Vec::new(),
        }
    }
}

/// What a line is, with what only its own kind has.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub enum Kind {
    /// A high-speed lane.
    Lane(Lane),
    /// An antenna feed.
    Feed(Feed),
    /// A slow bus.
    Bus(Bus),
    /// A power rail.
    Rail(Rail),
}

impl Kind {
    /// The kind alone.
    pub fn line_kind(&self) -> LineKind {
        match self {
            Kind::Lane(_) => LineKind::Lane,
            Kind::Feed(_) => LineKind::Feed,
            Kind::Bus(_) => LineKind::Bus,
            Kind::Rail(_) => LineKind::Rail,
        }
    }
}

/// A range of voltages, low to high.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VoltageRange {
    /// Lowest voltage.
    pub low: Volt,
    /// Highest voltage.
    pub high: Volt,
}
