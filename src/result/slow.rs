//! Buses and rails as results.

use serde::Serialize;

use super::outcome::{Budget, Check, Headroom, Note};

/// One slow bus.
#[derive(Debug, Clone, Serialize)]
pub struct BusReport {
    /// Name of the bus.
    pub name: String,
    /// Connector it belongs to.
    pub port: Option<String>,
    /// Identical lines.
    pub count: u32,
    /// Bit rate, where stated; it enters no figure.
    pub bit_rate_bps: Option<f64>,
    /// The resistance it charges through, where stated.
    pub resistance_ohm: Option<f64>,
    /// Wiring and inputs.
    pub other_capacitance_f: f64,
    /// Protectors that share the budget.
    pub nodes: u32,
    /// Without protectors.
    pub absent: BusMetrics,
    /// With the fitted capacitance.
    pub fitted: Option<BusFitted>,
    /// With the budget.
    pub at_budget: Option<BusAtBudget>,
    /// The budget, of one protector.
    pub budget: Budget,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}

/// What is measured of a bus at one capacitance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BusMetrics {
    /// Wiring, inputs and all protectors.
    pub total_capacitance_f: f64,
    /// 10–90 % rise time.
    pub rise_s: Option<f64>,
    /// Resistance times capacitance.
    pub time_constant_s: Option<f64>,
    /// −3 dB bandwidth.
    pub bandwidth_hz: Option<f64>,
}

/// A bus with its fitted protectors.
#[derive(Debug, Clone, Serialize)]
pub struct BusFitted {
    /// The judged capacitance of one protector.
    pub capacitance_f: f64,
    /// The metrics.
    #[serde(flatten)]
    pub metrics: BusMetrics,
    /// Whether every limit holds.
    pub holds: bool,
    /// Distance to each limit; of a rise time between the limit's own levels.
    pub headroom: Vec<Headroom>,
    /// The part named.
    pub part: Option<String>,
    /// Its survival checks.
    pub checks: Vec<Check>,
}

/// A bus at its budget.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct BusAtBudget {
    /// The budget.
    pub capacitance_f: f64,
    /// The metrics.
    #[serde(flatten)]
    pub metrics: BusMetrics,
}

/// One power rail.
#[derive(Debug, Clone, Serialize)]
pub struct RailReport {
    /// Name of the rail.
    pub name: String,
    /// Connector it belongs to.
    pub port: Option<String>,
    /// Identical lines.
    pub count: u32,
    /// Lowest and highest voltage.
    pub line_voltage_v: Option<(f64, f64)>,
    /// What it can supply, where stated.
    pub current_a: Option<f64>,
    /// The part named.
    pub part: Option<String>,
    /// Its survival checks.
    pub checks: Vec<Check>,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}
