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

    /// The reference plane just outside this element.
    pub(super) fn before(place: Option<&PathElement>) -> Self {
        match place.map(|place| (&place.element, place.number)) {
            Some((Element::Plane, number)) => ReferencePlane::AtPlane(number),
            Some((Element::Connector { .. }, number)) => ReferencePlane::OutsideConnector(number),
            _ => ReferencePlane::OuterEnd,
        }
    }
}
