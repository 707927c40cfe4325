//! The limits that a picture shows.

use crate::figures::Figure;
use crate::model::{Bounds, Limit};

/// A limit as it is stated, without the points of a mask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounded {
    /// What is bounded.
    pub figure: &'static Figure,
    /// The bound in the figure's unit; `None` for a mask.
    pub level: Option<f64>,
}

/// The limit as it is stated.
pub(crate) fn bounded(limit: &impl Bounds) -> Bounded {
    Bounded { figure: limit.figure(), level: limit.bound() }
}

/// The bound of the first limit on a figure, with the limit as stated; `None` without one.
pub(crate) fn level<B: Bounds>(limits: &[Limit<B>], on: &Figure) -> Option<(f64, Bounded)> {
    let limit = &limits.iter().find(|limit| limit.of.figure() == on)?.of;
    Some((limit.bound()?, bounded(limit)))
}
