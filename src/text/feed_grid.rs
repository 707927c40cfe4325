//! The table of the match over the band.

use super::view::{Grid, shared_scale};
use crate::result::{FeedChanges, FeedMetrics, FeedReport};
use crate::units::decimal::{Scale, pair, short, significant};
use crate::words::limits::Capacitances;

/// One feed at one capacitance.
struct State<'a> {
    feed: &'a FeedReport,
    name: &'static str,
    capacitance: Option<String>,
    metrics: &'a FeedMetrics,
    changes: Option<&'a FeedChanges>,
}

/// The table of the match over the band: a row for each state of each feed; none without feeds.
pub(crate) fn grid(feeds: &[FeedReport], capacitances: &[Capacitances], scale: Scale) -> Option<Grid> {
    if feeds.is_empty() {
        return None;
    }
    let states: Vec<State> = feeds.iter().zip(capacitances).flat_map(|(feed, c)| states(feed, c)).collect();
    let band = shared_scale(feeds.iter().flat_map(|feed| feed.band_hz));
    let header = [
        "line".to_owned(),
        format!("band [{}Hz]", band.prefix),
        "protector".to_owned(),
        format!("C [{}F]", scale.prefix),
        "return loss [dB]".to_owned(),
        "VSWR".to_owned(),
        "mismatch loss [dB]".to_owned(),
        "added loss [dB]".to_owned(),
        format!("resonance [{}Hz]", band.prefix),
        "detuning [MHz]".to_owned(),
    ];
    let row = |state: &State| {
        let [low, high] = state.feed.band_hz.map(|f| significant(f / band.factor, 6));
        let metrics = state.metrics;
        let number = |value: Option<f64>| value.map_or("-".to_owned(), |v| significant(v, 4));
        vec![
            state.feed.name.clone(),
            format!("{low}–{high}"),
            state.name.to_owned(),
            state.capacitance.clone().unwrap_or_else(|| "-".to_owned()),
            bounded(state, "return_loss", "no reflection"),
            bounded(state, "vswr", "total"),
            bounded(state, "mismatch_loss", "total"),
            number(state.changes.and_then(|c| c.added_loss_db)),
            metrics.resonance_hz.map_or("-".to_owned(), |f| significant(f / band.factor, 7)),
            number(state.changes.and_then(|c| c.detuning_hz).map(|f| f * 1e-6)),
        ]
    };
    Some(Grid {
        title: "The match over the band, at its worst",
        header: header.to_vec(),
        rows: states.iter().map(row).collect(),
    })
}

fn states<'a>(feed: &'a FeedReport, c: &Capacitances) -> Vec<State<'a>> {
    let state = |name, capacitance, metrics, changes| State { feed, name, capacitance, metrics, changes };
    let fitted = feed.fitted.as_ref();
    let fitted = fitted.map(|f| state("fitted", c.fitted(), &f.metrics, Some(&f.changes)));
    let at_budget = feed.at_budget.as_ref();
    let at_budget =
        at_budget.map(|b| state("at budget", Some(c.largest(b.capacitance_f)), &b.metrics, Some(&b.changes)));
    let absent = state("absent", None, &feed.absent, None);
    std::iter::once(absent).chain(fitted).chain(at_budget).collect()
}

/// A figure that must not seem to cross the bound it is limited by.
fn bounded(state: &State, limit: &str, without: &str) -> String {
    let Some(value) = state.metrics.figure(limit) else {
        return without.to_owned();
    };
    let limits = &state.feed.budget.limits;
    let bound = limits.iter().find(|l| l.limit == limit).and_then(|l| l.bound);
    // At the budget a figure lies on its bound to within the last digits.
    match bound.filter(|_| state.name != "at budget") {
        Some(bound) => pair(value, bound).0.to_string(),
        None => short(value).to_string(),
    }
}
