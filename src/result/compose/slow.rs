//! A bus and a rail as they are reported.

use super::shared::{budget_report, check_reports, headroom, notes};
use crate::budget;
use crate::budget::{BusOutcome, size_bus};
use crate::diag::Sources;
use crate::model::{Bus, Head, Rail};
use crate::parts::{Duty, checks};
use crate::result::outcome::Check;
use crate::result::slow::{BusAtBudget, BusFitted, BusMetrics, BusReport, RailReport};

/// Sizes a bus and reports on it.
pub(crate) fn bus_report(head: &Head, bus: &Bus, sources: &Sources) -> BusReport {
    let outcome = size_bus(bus);
    let found = bus.part.as_ref().map(|part| checks(&Duty::of_bus(head, bus), part)).unwrap_or_default();
    let mut warnings = notes(&head.warnings, sources);
    warnings.extend(notes(&found.cautions, sources));
    BusReport {
        name: head.name.clone(),
        port: head.port.clone(),
        count: head.count,
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
        defaults: notes(&head.defaults, sources),
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
pub(crate) fn rail_report(head: &Head, rail: &Rail, sources: &Sources) -> RailReport {
    let found = rail.part.as_ref().map(|part| checks(&Duty::of_rail(head), part)).unwrap_or_default();
    let mut warnings = notes(&head.warnings, sources);
    warnings.extend(notes(&found.cautions, sources));
    RailReport {
        name: head.name.clone(),
        port: head.port.clone(),
        count: head.count,
        line_voltage_v: head.voltage.map(|range| (range.low.0, range.high.0)),
        current_a: rail.current.map(|i| i.0),
        part: rail.part.as_ref().map(|part| part.name.clone()),
        checks: check_reports(&found.checks),
        defaults: notes(&head.defaults, sources),
        warnings,
    }
}
