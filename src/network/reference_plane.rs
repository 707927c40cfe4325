//! The plane at which a lane's reflection is seen: the port plane of the sheet and of the results.

use std::fmt;

use crate::model::{Element, PathElement};

/// Where the return loss is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReferencePlane {
    /// Just outside the connector of this number.
    OutsideConnector(usize),
    /// At the `plane` element of this number.
    AtPlane(usize),
    /// At the outer end, before its pad capacitance.
    OuterEnd,
}

impl fmt::Display for ReferencePlane {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReferencePlane::OutsideConnector(number) => write!(f, "outside element {number}, connector"),
            ReferencePlane::AtPlane(number) => write!(f, "at element {number}, plane"),
            ReferencePlane::OuterEnd => f.write_str("outer end"),
        }
    }
}

impl ReferencePlane {
    /// The number of the element it stands before; `None` at the outer end.
    pub fn element(self) -> Option<usize> {
        match self {
            ReferencePlane::OutsideConnector(number) | ReferencePlane::AtPlane(number) => Some(number),
            ReferencePlane::OuterEnd => None,
        }
    }

    /// The reference plane of a path and the index of the element it stands before.
    pub fn of(elements: &[PathElement], protector: usize) -> (Self, usize) {
        if let Some(at) = elements.iter().position(|e| matches!(e.element, Element::Plane)) {
            return (ReferencePlane::AtPlane(elements[at].number), at);
        }
        let outside = &elements[..protector];
        match outside.iter().rposition(|e| matches!(e.element, Element::Connector { .. })) {
            Some(at) => (ReferencePlane::OutsideConnector(elements[at].number), at),
            None => (ReferencePlane::OuterEnd, 0),
        }
    }
}
