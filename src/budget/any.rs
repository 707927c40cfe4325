//! The budget of a line of any kind.

use super::bus::bus_budget;
use super::feed::feed_budget;
use super::lane::lane_budget;
use super::{Budget, Fault};
use crate::model::{Kind, Line};
use crate::units::Farad;

/// What the limits of a line leave, with the distance of a `fitted` capacitance to each, and nothing else of its sizing: the
/// same sets as [`size_lane`](super::size_lane), [`size_feed`](super::size_feed) and [`size_bus`](super::size_bus). `None` for
/// a rail, which has no limits.
///
/// # Errors
/// As [`size_lane`](super::size_lane) and [`size_feed`](super::size_feed).
pub fn budget_of(line: &Line, fitted: Option<Farad>) -> Result<Option<Budget>, Fault> {
    Ok(match &line.kind {
        Kind::Lane(lane) => Some(lane_budget(lane, fitted)?),
        Kind::Feed(feed) => Some(feed_budget(feed, fitted)?),
        Kind::Bus(bus) => Some(bus_budget(bus, fitted)),
        Kind::Rail(_) => None,
    })
}
