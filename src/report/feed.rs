//! An antenna feed as a result, and its table.

use serde::Serialize;

use super::digits::{pair, short};
use super::limits::Capacitances;
use super::view::{Grid, shared_scale};
use super::{AtBudget, Budget, Fitted, Note};
use crate::units::{Scale, significant};

/// One antenna feed.
#[derive(Debug, Clone, Serialize)]
pub struct FeedReport {
    /// Name of the feed.
    pub name: String,
    /// Connector it belongs to.
    pub port: Option<String>,
    /// Identical feeds.
    pub count: u32,
    /// Reference impedance.
    pub reference_ohm: f64,
    /// Lowest and highest frequency of the band.
    pub band_hz: [f64; 2],
    /// Without protector and footprint.
    pub absent: FeedMetrics,
    /// With the fitted capacitance.
    pub fitted: Option<Fitted<FeedMetrics, FeedChanges>>,
    /// With the budget.
    pub at_budget: Option<AtBudget<FeedMetrics, FeedChanges>>,
    /// The budget.
    pub budget: Budget,
    /// The return loss that no lossless match can exceed all over the band, where it is known.
    pub bode_fano_return_loss_db: Option<f64>,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}

/// What is measured of a feed at one capacitance, at its worst over the band.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FeedMetrics {
    /// −20 log10 |Γ|; `None` for a perfect match.
    pub return_loss_db: Option<f64>,
    /// |Γ|; 0 for a perfect match.
    pub reflection: f64,
    /// (1 + |Γ|)/(1 − |Γ|); `None` for a total reflection.
    pub vswr: Option<f64>,
    /// −10 log10(1 − |Γ|²); `None` for a total reflection.
    pub mismatch_loss_db: Option<f64>,
    /// Loss of the power into the antenna's resistance against the power available.
    pub transducer_loss_db: Option<f64>,
    /// Frequency of least reflection; `None` without a resonator, and where it is lost.
    pub resonance_hz: Option<f64>,
}

impl FeedMetrics {
    /// The figure that the limit of this word bounds, where it is one of these.
    pub(super) fn figure(&self, limit: &str) -> Option<f64> {
        match limit {
            "return_loss" => self.return_loss_db,
            "vswr" => self.vswr,
            "mismatch_loss" => self.mismatch_loss_db,
            _ => None,
        }
    }
}

/// What the protector changes of a feed, against absent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FeedChanges {
    /// Worst transducer loss minus the worst one without protector.
    pub added_loss_db: Option<f64>,
    /// Shift of the frequency of least reflection, down is negative.
    pub detuning_hz: Option<f64>,
    /// How a coil would tune it back; `None` without a resonance or a capacitance.
    pub retune: Option<Retune>,
}

/// Coils that tune a feed back, an estimate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Retune {
    /// To ground at the protector.
    pub shunt_inductance_h: f64,
    /// In series, half to either side of the protector.
    pub series_inductance_h: f64,
    /// The E24 value nearest to the shunt coil.
    pub nearest_e24_h: f64,
    /// Worst return loss of the band with that coil; `None` for a perfect match.
    pub return_loss_db: Option<f64>,
    /// Shift of the frequency of least reflection with that coil.
    pub detuning_hz: Option<f64>,
    /// Whether every limit holds with that coil.
    pub holds: bool,
}

/// One feed at one capacitance.
struct State<'a> {
    feed: &'a FeedReport,
    name: &'static str,
    capacitance: Option<String>,
    metrics: &'a FeedMetrics,
    changes: Option<&'a FeedChanges>,
}

/// The table of the match over the band: a row for each state of each feed; none without feeds.
pub(super) fn grid(feeds: &[FeedReport], capacitances: &[Capacitances], scale: Scale) -> Option<Grid> {
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
