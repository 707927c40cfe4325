//! Lanes as results, and what every kind of line has in its results.

use serde::Serialize;

/// Version of the layout of the JSON.
pub const SCHEMA: u32 = 1;

/// One lane.
#[derive(Debug, Clone, Serialize)]
pub struct LaneReport {
    /// Name of the lane.
    pub name: String,
    /// Connector it belongs to.
    pub port: Option<String>,
    /// Identical lanes.
    pub count: u32,
    /// Line code.
    pub modulation: &'static str,
    /// Symbol rate.
    pub symbol_rate_bd: f64,
    /// Nyquist frequency.
    pub nyquist_hz: f64,
    /// Reference impedance as stated.
    pub reference_ohm: f64,
    /// Whether it is a pair.
    pub differential: bool,
    /// Where the return loss is seen, e.g. `outside element 3, connector`.
    pub port_plane: String,
    /// `driver` or `receiver`.
    pub outer_end: &'static str,
    /// Without protector and footprint.
    pub absent: Metrics,
    /// With the fitted capacitance.
    pub fitted: Option<Fitted>,
    /// With the budget.
    pub at_budget: Option<AtBudget>,
    /// The budget.
    pub budget: Budget,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}

/// What is measured of a lane at one capacitance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Metrics {
    /// −20 log10 |S21| at Nyquist.
    pub insertion_loss_db: Option<f64>,
    /// −20 log10 |S11| at Nyquist, at the port plane; `None` for a perfect match.
    pub return_loss_db: Option<f64>,
    /// |S11|; 0 for a perfect match.
    pub reflection: f64,
    /// −20 log10 |S22| at Nyquist; `None` for a perfect match.
    pub return_loss_inner_db: Option<f64>,
    /// |H(f_N)|.
    pub nyquist_amplitude: f64,
    /// Worst-pattern eye height, relative to the ideal eye.
    pub eye_height: Option<f64>,
    /// Worst-pattern eye width in unit intervals.
    pub eye_width_ui: Option<f64>,
    /// 10–90 % rise time of the step at the receiver.
    pub rise_s: Option<f64>,
    /// Lowest impedance of the reflection profile, in the sheet's own ohms.
    pub impedance_dip_ohm: Option<f64>,
}

/// What the protector changes, against absent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Changes {
    /// IL − IL(absent) at Nyquist.
    pub added_loss_db: Option<f64>,
    /// Loss of the fundamental at Nyquist, as a ratio.
    pub eye_penalty: f64,
    /// Loss of the worst-pattern eye height, as a ratio.
    pub worst_eye_penalty: Option<f64>,
    /// Added 10–90 % rise time.
    pub added_rise_s: Option<f64>,
    /// Conversion to common mode at Nyquist in negative dB, where the part states a mismatch; `None` without, and for a
    /// perfectly symmetric pair.
    pub mode_conversion_db: Option<f64>,
    /// Skew between the two lines at Nyquist, where the part states a mismatch.
    pub skew_s: Option<f64>,
    /// Droop over a run of five symbols, where the path has a series capacitance.
    pub droop: Option<f64>,
}

/// The line with its fitted protector; `M` is what is measured of it and `C` what changes.
#[derive(Debug, Clone, Serialize)]
pub struct Fitted<M = Metrics, C = Changes> {
    /// The judged capacitance, one line to ground, pad excluded.
    pub capacitance_f: f64,
    /// The metrics.
    #[serde(flatten)]
    pub metrics: M,
    /// The changes.
    #[serde(flatten)]
    pub changes: C,
    /// Whether every limit holds.
    pub holds: bool,
    /// Distance to each limit.
    pub headroom: Vec<Headroom>,
    /// The part named.
    pub part: Option<String>,
    /// Its survival checks.
    pub checks: Vec<Check>,
}

/// Distance to one limit.
#[derive(Debug, Clone, Serialize)]
pub struct Headroom {
    /// Word of the limit.
    pub limit: &'static str,
    /// The metric; at its worst frequency for a mask.
    pub value: Option<f64>,
    /// The bound; at the worst frequency for a mask.
    pub bound: Option<f64>,
    /// In the limit's unit, positive when it holds.
    pub margin: Option<f64>,
    /// Whether it holds.
    pub holds: bool,
    /// The worst frequency of a mask.
    pub at_hz: Option<f64>,
}

/// One survival check of a part.
#[derive(Debug, Clone, Serialize)]
pub struct Check {
    /// What is checked.
    pub check: &'static str,
    /// What the line asks for.
    pub required: Option<f64>,
    /// What the part offers.
    pub available: Option<f64>,
    /// Unit of both.
    pub unit: &'static str,
    /// Relative margin, positive when it passes.
    pub margin: Option<f64>,
    /// `passes`, `fails` or `not stated`.
    pub verdict: &'static str,
}

/// The line at its budget.
#[derive(Debug, Clone, Serialize)]
pub struct AtBudget<M = Metrics, C = Changes> {
    /// The budget.
    pub capacitance_f: f64,
    /// The metrics.
    #[serde(flatten)]
    pub metrics: M,
    /// The changes.
    #[serde(flatten)]
    pub changes: C,
}

/// The largest capacitance and what sets it.
#[derive(Debug, Clone, Serialize)]
pub struct Budget {
    /// `bounded`, `window`, `unbounded` or `impossible`.
    pub verdict: &'static str,
    /// The budget, one line to ground, pad excluded.
    pub capacitance_f: Option<f64>,
    /// The least allowed capacitance: 0 unless a window.
    pub lowest_f: Option<f64>,
    /// The limit that sets it, for a window.
    pub lowest_set_by: Option<&'static str>,
    /// The same capacitance bought across the pair.
    pub across_pair_f: Option<f64>,
    /// The typical value to look for, given the spread.
    pub shop_for_f: Option<f64>,
    /// The budget with a footprint of nothing.
    pub without_footprint_f: Option<f64>,
    /// The limit that sets the budget.
    pub set_by: Option<&'static str>,
    /// Its binding frequency, for a mask.
    pub set_at_hz: Option<f64>,
    /// All allowed capacitances; an upper end of `None` is open.
    pub intervals_f: Vec<(f64, Option<f64>)>,
    /// Each limit on its own.
    pub limits: Vec<LimitReport>,
}

/// One limit's own bound on the capacitance.
#[derive(Debug, Clone, Serialize)]
pub struct LimitReport {
    /// Word of the limit.
    pub limit: &'static str,
    /// The bound; `None` for a mask.
    pub bound: Option<f64>,
    /// Points of a mask: bound, frequency in hertz.
    pub points: Option<Vec<(f64, f64)>>,
    /// What it allows by itself.
    pub intervals_f: Vec<(f64, Option<f64>)>,
    /// Upper end of its lowest interval; `None` where open or empty.
    pub capacitance_f: Option<f64>,
    /// Binding frequency of a mask.
    pub at_hz: Option<f64>,
    /// Levels a rise time is measured between, where the limit states its own: shares of the step.
    pub levels: Option<(f64, f64)>,
    /// Whether it holds without protector and footprint.
    pub holds_absent: bool,
    /// Whether it holds with the empty footprint.
    pub holds_at_zero: bool,
    /// Line of the sheet that states it.
    pub line: Option<u32>,
}

/// A remark.
#[derive(Debug, Clone, Serialize)]
pub struct Note {
    /// Stable identifier.
    pub code: &'static str,
    /// The remark.
    pub text: String,
    /// Line of the sheet it speaks of.
    pub line: Option<u32>,
}
