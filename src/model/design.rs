//! Everything a sheet describes.

use std::sync::Arc;

use super::{Address, AddressedValue, Feed, Head, Kind, Lane, Line, Part};
use crate::diag::{Diagnostic, Severity};
use crate::units::{Dimension, Farad};

/// Everything a sheet describes.
#[derive(Debug, Clone, Default)]
pub struct Design {
    /// The sheet's title.
    pub title: Option<String>,
    /// The lines by kind: lanes, feeds, buses, rails; each kind in sheet order. A line is known by its place here.
    pub lines: Vec<Line>,
    /// Parts, in sheet order.
    pub parts: Vec<Arc<Part>>,
    /// The values of all parts and laminates that have an address, in sheet order.
    pub values: Vec<AddressedValue>,
    /// The values that are others than the sheet's, in the order they were asked for.
    pub set: Vec<SetValue>,
}

/// A value that is another than the sheet's.
#[derive(Debug, Clone, PartialEq)]
pub struct SetValue {
    /// The line; `None` for a value of a part or a laminate.
    pub line: Option<String>,
    /// Its address.
    pub address: Address,
    /// The value, in the SI unit of its dimension.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// What the sheet states; `None` where it states nothing.
    pub stated: Option<f64>,
}

impl Design {
    /// The names of all lines, in their order.
    pub fn names(&self) -> Vec<&str> {
        self.lines.iter().map(|line| line.head.name.as_str()).collect()
    }

    /// The high-speed lanes.
    pub fn lanes(&self) -> impl Iterator<Item = (&Head, &Lane)> {
        self.lines.iter().filter_map(|line| match &line.kind {
            Kind::Lane(lane) => Some((&line.head, lane)),
            _ => None,
        })
    }

    /// The antenna feeds.
    pub fn feeds(&self) -> impl Iterator<Item = (&Head, &Feed)> {
        self.lines.iter().filter_map(|line| match &line.kind {
            Kind::Feed(feed) => Some((&line.head, feed)),
            _ => None,
        })
    }

    /// The warnings of its lines, in the order of their places.
    pub fn warnings(&self) -> Vec<Diagnostic> {
        let heads = self.lines.iter().map(|line| &line.head);
        let notes = heads.flat_map(|head| head.warnings.iter().map(move |note| (head.span, note)));
        let mut warnings: Vec<Diagnostic> = notes
            .map(|(line, note)| Diagnostic {
                severity: Severity::Warning,
                ..Diagnostic::error(note.code, note.span.unwrap_or(line), note.text.clone())
            })
            .collect();
        warnings.sort_by_key(|warning| warning.primary.0);
        warnings
    }

    /// Judges this capacitance on every line instead of the one the sheet states; a rail has none.
    pub fn fit(&mut self, capacitance: Farad) {
        self.lines.iter_mut().for_each(|line| line.fit(capacitance));
    }
}
