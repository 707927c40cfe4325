//! Sizing many lines at once.

use rayon::prelude::*;

use super::cautions::CAUTIONS;
use super::compose::feed_report;
use super::compose::lane_report;
use super::outcome::{Report, SCHEMA};
use super::slow::{bus_report, rail_report};
use crate::budget::{FeedOutcome, Figures, LaneOutcome, not_computable, size_feed, size_lane};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Bus, Design, Feed, Lane, LineRef, Rail};

/// Called once for each line that is done, from any thread, so that a long run can show how far it is.
pub type LineDone<'a> = &'a (dyn Fn() + Sync);

/// Sizes the lines at these places of [`Design::names`] and reports on them, kind by kind in that order.
///
/// # Errors
/// The lines whose numbers go beyond what can be computed.
pub fn size(
    port: &Design,
    indices: &[usize],
    figures: Figures,
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Report, Vec<Diagnostic>> {
    let sized = Outcomes::new(port, indices, figures, done)?;
    Ok(sized.report(port.title.clone(), sources))
}

/// Lines with their outcomes.
pub(crate) struct Outcomes<'a> {
    pub(crate) lanes: Vec<(&'a Lane, LaneOutcome)>,
    pub(crate) feeds: Vec<(&'a Feed, FeedOutcome)>,
    pub(crate) buses: Vec<&'a Bus>,
    pub(crate) rails: Vec<&'a Rail>,
}

impl<'a> Outcomes<'a> {
    pub(crate) fn new(
        port: &'a Design,
        indices: &[usize],
        figures: Figures,
        done: LineDone<'_>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let (mut lanes, mut feeds, mut buses, mut rails) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for line in indices.iter().filter_map(|index| port.line(*index)) {
            match line {
                LineRef::Lane(lane) => lanes.push(lane),
                LineRef::Feed(feed) => feeds.push(feed),
                LineRef::Bus(bus) => buses.push(bus),
                LineRef::Rail(rail) => rails.push(rail),
            }
        }
        (0..buses.len() + rails.len()).for_each(|_| done());
        let lane = |lane: &Lane| {
            let outcome = size_lane(lane, figures).map_err(|fault| not_computable(LineRef::Lane(lane), fault));
            done();
            outcome
        };
        let feed = |feed: &Feed| {
            let outcome = size_feed(feed).map_err(|fault| not_computable(LineRef::Feed(feed), fault));
            done();
            outcome
        };
        let mut errors = Vec::new();
        let (lanes, feeds) = (outcomes(lanes, lane, &mut errors), outcomes(feeds, feed, &mut errors));
        if errors.is_empty() { Ok(Outcomes { lanes, feeds, buses, rails }) } else { Err(errors) }
    }

    pub(crate) fn report(&self, title: Option<String>, sources: &Sources) -> Report {
        let lane = |(lane, outcome): &(&Lane, LaneOutcome)| lane_report(lane, outcome, sources);
        let feed = |(feed, outcome): &(&Feed, FeedOutcome)| feed_report(feed, outcome, sources);
        Report {
            lanecap: env!("CARGO_PKG_VERSION"),
            schema: SCHEMA,
            title,
            lanes: self.lanes.par_iter().map(lane).collect(),
            feeds: self.feeds.par_iter().map(feed).collect(),
            buses: self.buses.iter().map(|bus| bus_report(bus, sources)).collect(),
            rails: self.rails.iter().map(|rail| rail_report(rail, sources)).collect(),
            cautions: CAUTIONS.to_vec(),
        }
    }
}

/// Each line with its outcome; the errors go to `errors`.
fn outcomes<'a, L: Sync, O: Send>(
    lines: Vec<&'a L>,
    size: impl Fn(&L) -> Result<O, Box<Diagnostic>> + Sync,
    errors: &mut Vec<Diagnostic>,
) -> Vec<(&'a L, O)> {
    let sized: Vec<Result<O, Box<Diagnostic>>> = lines.par_iter().map(|line| size(line)).collect();
    let keep = |(line, result): (&'a L, Result<O, Box<Diagnostic>>)| match result {
        Ok(outcome) => Some((line, outcome)),
        Err(error) => {
            errors.push(*error);
            None
        }
    };
    lines.into_iter().zip(sized).filter_map(keep).collect()
}
