//! The plane at which a lane's reflection is seen.

use std::fmt;

use crate::model::{Element, PathElement};

/// Where the return loss is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PortPlane {
    /// Just outside the connector of this number.
    OutsideConnector(usize),
    /// At the `plane` element of this number.
    AtPlane(usize),
    /// At the outer end, before its pad capacitance.
    OuterEnd,
}

impl fmt::Display for PortPlane {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PortPlane::OutsideConnector(number) => write!(f, "outside element {number}, connector"),
            PortPlane::AtPlane(number) => write!(f, "at element {number}, plane"),
            PortPlane::OuterEnd => f.write_str("outer end"),
        }
    }
}

impl PortPlane {
    /// The port plane of a path and the index of the element it stands before.
    pub(super) fn of(elements: &[PathElement], protector: usize) -> (Self, usize) {
        if let Some(at) = elements.iter().position(|e| matches!(e.element, Element::Plane)) {
            return (PortPlane::AtPlane(elements[at].number), at);
        }
        let outside = &elements[..protector];
        match outside.iter().rposition(|e| matches!(e.element, Element::Connector { .. })) {
            Some(at) => (PortPlane::OutsideConnector(elements[at].number), at),
            None => (PortPlane::OuterEnd, 0),
        }
    }
}
