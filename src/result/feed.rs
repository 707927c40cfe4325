//! An antenna feed as a result.

use serde::Serialize;

use super::outcome::{AtBudget, Budget, Fitted, Note};

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
    pub(crate) fn figure(&self, limit: &str) -> Option<f64> {
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
