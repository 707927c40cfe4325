//! The numbers of a picture from the line alone.

use super::band::feed_chart_data;
use super::data::{ChartData, Show};
use super::gather::chart_data;
use crate::budget::{Fault, Figures, size_feed, size_lane};
use crate::model::{Feed, Lane};

/// The numbers of one picture of a lane of this name.
///
/// # Errors
/// [`Fault`] where its numbers go beyond what can be computed.
pub fn charted(name: &str, lane: &Lane, show: Show) -> Result<ChartData, Fault> {
    chart_data(name, lane, &size_lane(lane, Figures::Nyquist)?, show)
}

/// The numbers of the picture of a feed of this name.
///
/// # Errors
/// [`Fault`] where its numbers go beyond what can be computed.
pub fn charted_feed(name: &str, feed: &Feed) -> Result<ChartData, Fault> {
    feed_chart_data(name, feed, &size_feed(feed)?)
}
