//! Antenna feeds as results.

use super::keys::Keys;
use super::line::LineResult;
use super::outcome::Kind;
use super::remarks::{LineRemarks, stated};
use crate::budget::{Fault, FeedOutcome, size_feed};
use crate::diag::Sources;
use crate::model::{Band, Feed, Head};
use crate::parts::{Checks, Duty, Fitted, line_checks};
use crate::transient::LineDischarge;
use crate::units::Ohm;

/// An antenna feed.
pub type FeedResult = LineResult<FeedAbout, FeedOutcome>;

/// What is stated of a feed alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedAbout {
    /// Reference impedance.
    pub reference: Ohm,
    /// The frequencies in use.
    pub band: Band,
}

impl Kind for FeedResult {
    fn stated<K: Keys>(this: Option<&Self>, to: &mut K) {
        let about = this.map(|feed| &feed.about);
        to.number("reference_ohm", about.map(|feed| feed.reference.0));
        to.ends("band_hz", about.map(|feed| (feed.band.low.0, feed.band.high.0)));
    }

    fn found<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("bode_fano_return_loss_db", this.and_then(|feed| feed.outcome.bode_fano));
    }
}

/// Sizes a feed, and checks its part at the highest voltage with it.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub(super) fn size(
    head: &Head,
    feed: &Feed,
    discharge: Option<LineDischarge>,
    sources: &Sources,
) -> Result<FeedResult, Fault> {
    let outcome = size_feed(feed)?;
    let part = feed.path.protector().and_then(|p| p.part.as_ref());
    let sized = &outcome.sized;
    let fitted = sized.fitted.as_ref().map(|fitted| &fitted.at);
    let with = Fitted {
        part: part.map(AsRef::as_ref),
        path: Some(&feed.path),
        discharge: discharge.as_ref(),
        left_out: discharge.is_none(),
    };
    let checked = fitted.map_or_else(Checks::default, |at| {
        let duty = Duty::of_feed(head, feed, at.figures.band.voltage);
        line_checks(&duty.needing(&sized.budget.allowed, Some(at.capacitance)), with)
    });
    Ok(LineResult {
        head: LineRemarks { part, checked, discharge, found: Vec::new() }.head(head, sources),
        about: FeedAbout { reference: feed.reference, band: feed.band },
        limits: stated(&feed.limits, sources),
        outcome,
    })
}
