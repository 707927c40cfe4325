//! The numbers of a picture from the line alone.

use super::band::feed_chart_data;
use super::data::{ChartData, Show};
use super::gather::chart_data;
use crate::budget::{Figures, not_computable, size_feed, size_lane};
use crate::diag::Diagnostic;
use crate::model::{Feed, Lane, LineRef};

/// The numbers of one picture of a lane.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub fn charted(lane: &Lane, show: Show) -> Result<ChartData, Box<Diagnostic>> {
    let data = size_lane(lane, Figures::Nyquist).and_then(|outcome| chart_data(lane, &outcome, show));
    data.map_err(|fault| not_computable(LineRef::Lane(lane), fault))
}

/// The numbers of the picture of a feed.
///
/// # Errors
/// The feed, where its numbers go beyond what can be computed.
pub fn charted_feed(feed: &Feed) -> Result<ChartData, Box<Diagnostic>> {
    let data = size_feed(feed).and_then(|outcome| feed_chart_data(feed, &outcome));
    data.map_err(|fault| not_computable(LineRef::Feed(feed), fault))
}
