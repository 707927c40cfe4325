//! Buses and rails: from the port to the report.

use serde::Serialize;

use super::compose::{budget_report, check_reports, headroom, notes};
use super::outcome::{Budget, Check, Headroom, Note};
use crate::budget;
use crate::budget::{BusOutcome, size_bus};
use crate::diag::Sources;
use crate::model::{Bus, Rail};
use crate::parts::{Demand, Rating, checks};

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

/// Sizes a bus and reports on it.
pub(crate) fn bus_report(bus: &Bus, sources: &Sources) -> BusReport {
    let outcome = size_bus(bus);
    let found =
        bus.part.as_ref().map(|part| checks(&Demand::of_bus(bus), &Rating::of(part, false))).unwrap_or_default();
    let mut warnings = notes(&bus.warnings, sources);
    warnings.extend(notes(&found.cautions, sources));
    BusReport {
        name: bus.name.clone(),
        port: bus.port.clone(),
        count: bus.count,
        bit_rate_bps: bus.rate,
        resistance_ohm: bus.resistance().map(|r| r.0),
        other_capacitance_f: bus.other_capacitance().0,
        nodes: bus.nodes,
        absent: metrics(&outcome.absent),
        fitted: fitted(bus, &outcome, check_reports(&found.checks)),
        at_budget: outcome
            .at_budget
            .map(|at| BusAtBudget { capacitance_f: at.capacitance.0, metrics: metrics(&at.figures) }),
        budget: budget_report(&bus.limits, &outcome.budget, sources),
        defaults: notes(&bus.defaults, sources),
        warnings,
    }
}

fn fitted(bus: &Bus, outcome: &BusOutcome, checks: Vec<Check>) -> Option<BusFitted> {
    let fitted = outcome.fitted.as_ref()?;
    Some(BusFitted {
        capacitance_f: fitted.at.capacitance.0,
        metrics: metrics(&fitted.at.figures),
        holds: fitted.holds,
        headroom: fitted.headroom.iter().map(headroom).collect(),
        part: bus.part.as_ref().map(|part| part.name.clone()),
        checks,
    })
}

fn metrics(metrics: &budget::BusFigures) -> BusMetrics {
    BusMetrics {
        total_capacitance_f: metrics.total.0,
        rise_s: metrics.rise.map(|t| t.0),
        time_constant_s: metrics.time_constant.map(|t| t.0),
        bandwidth_hz: metrics.bandwidth.map(|f| f.0),
    }
}

/// Checks the part of a rail and reports on it.
pub(crate) fn rail_report(rail: &Rail, sources: &Sources) -> RailReport {
    let found =
        rail.part.as_ref().map(|part| checks(&Demand::of_rail(rail), &Rating::of(part, false))).unwrap_or_default();
    let mut warnings = notes(&rail.warnings, sources);
    warnings.extend(notes(&found.cautions, sources));
    RailReport {
        name: rail.name.clone(),
        port: rail.port.clone(),
        count: rail.count,
        line_voltage_v: rail.line_voltage.map(|range| (range.low.0, range.high.0)),
        current_a: rail.current.map(|i| i.0),
        part: rail.part.as_ref().map(|part| part.name.clone()),
        checks: check_reports(&found.checks),
        defaults: notes(&rail.defaults, sources),
        warnings,
    }
}
