//! A limit before its line is known.

use crate::diag::Span;
use crate::figures::Figure;
use crate::model::{BusLimit, FeedLimit, LaneLimit, Limit, Over, ProfileRead};
use crate::units::{Ohm, Second};

/// A limit as a sheet states it, before it is known what kind of line takes it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StatedLimit {
    pub(crate) figure: &'static Figure,
    pub(crate) over: Over,
    pub(crate) levels: Option<(f64, f64)>,
    /// The impedance a reflection profile is held against, and how it is read.
    pub(crate) below: Option<Ohm>,
    pub(crate) read: ProfileRead,
    pub(crate) span: Span,
}

impl StatedLimit {
    /// As a limit of a lane.
    pub(crate) fn of_lane(self) -> Option<Limit<LaneLimit>> {
        let read = self.read;
        let of = match (LaneLimit::new(self.figure, self.over.clone()), self.below, &self.over) {
            (Some(LaneLimit::ImpedanceDip(least, _)), ..) => LaneLimit::ImpedanceDip(least, read),
            (None, Some(below), Over::Level(most)) => {
                LaneLimit::ImpedanceExcursion { most: Second(*most), below, rise: read.rise }
            }
            (other, ..) => other?,
        };
        Some(Limit { of, span: Some(self.span) })
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
