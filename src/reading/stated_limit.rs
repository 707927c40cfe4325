//! A limit before its line is known.

use crate::diag::Span;
use crate::figures::Figure;
use crate::model::{BusLimit, FeedLimit, LaneLimit, Limit, Over};

/// A limit as a sheet states it, before it is known what kind of line takes it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StatedLimit {
    pub(crate) figure: &'static Figure,
    pub(crate) over: Over,
    pub(crate) levels: Option<(f64, f64)>,
    pub(crate) span: Span,
}

impl StatedLimit {
    /// As a limit of a lane.
    pub(crate) fn of_lane(self) -> Option<Limit<LaneLimit>> {
        Some(Limit { of: LaneLimit::new(self.figure, self.over)?, span: Some(self.span) })
    }

    /// As a limit of a feed.
    pub(crate) fn of_feed(self) -> Option<Limit<FeedLimit>> {
        Some(Limit { of: FeedLimit::new(self.figure, self.over)?, span: Some(self.span) })
    }

    /// As a limit of a bus.
    pub(crate) fn of_bus(self) -> Option<Limit<BusLimit>> {
        Some(Limit { of: BusLimit::new(self.figure, self.over, self.levels)?, span: Some(self.span) })
    }
}
