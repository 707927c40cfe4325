//! The limits of a line of any kind, and nothing else of its size.

use super::bus::{allowed_by_bus, judge_bus};
use super::feed::{allowed_by_feed, judge_feed};
use super::lane::{allowed_capacitances, judge_lane, lane_headroom};
use super::{Budget, Fault, Headroom, IntervalSet, LimitOutcome};
use crate::model::{Kind, Line};
use crate::units::Farad;

/// What each limit of a line does by itself, with the distance of what is fitted; none of a rail.
///
/// # Errors
/// As [`size_lane`](super::size_lane) and [`size_feed`](super::size_feed).
pub fn judge_line(line: &Line) -> Result<Vec<LimitOutcome>, Fault> {
    judged(line, line.fitted())
}

/// What the limits of a line leave, with the distance of a `fitted` capacitance to each; `None` of a rail.
///
/// # Errors
/// As [`judge_line`].
pub fn budget_of(line: &Line, fitted: Option<Farad>) -> Result<Option<Budget>, Fault> {
    if matches!(line.kind, Kind::Rail(_)) {
        return Ok(None);
    }
    Ok(Some(Budget::new(judged(line, fitted)?, None)))
}

fn judged(line: &Line, fitted: Option<Farad>) -> Result<Vec<LimitOutcome>, Fault> {
    match &line.kind {
        Kind::Lane(lane) => judge_lane(lane, fitted),
        Kind::Feed(feed) => judge_feed(feed, fitted),
        Kind::Bus(bus) => Ok(judge_bus(bus, fitted)),
        Kind::Rail(_) => Ok(Vec::new()),
    }
}

/// Every capacitance that all limits of a line allow; all of them of a rail.
///
/// # Errors
/// As [`judge_line`].
pub fn allowed_by_line(line: &Line) -> Result<IntervalSet, Fault> {
    match &line.kind {
        Kind::Lane(lane) => allowed_capacitances(lane),
        Kind::Feed(feed) => allowed_by_feed(feed),
        Kind::Bus(bus) => Ok(allowed_by_bus(bus)),
        Kind::Rail(_) => Ok(IntervalSet::all()),
    }
}

/// The distance of a capacitance to each limit of a line, where the sets that limits in time allow are not asked for.
///
/// # Errors
/// As [`judge_line`].
pub fn line_headroom(line: &Line, c: Farad) -> Result<Vec<Headroom>, Fault> {
    let judged = match &line.kind {
        Kind::Lane(lane) => return lane_headroom(lane, c),
        Kind::Feed(feed) => judge_feed(feed, Some(c))?,
        Kind::Bus(bus) => judge_bus(bus, Some(c)),
        Kind::Rail(_) => Vec::new(),
    };
    Ok(judged.into_iter().filter_map(|limit| limit.fitted).collect())
}
