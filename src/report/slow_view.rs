//! What a reader is shown of buses and rails.

use super::digits::{pair, short};
use super::limits::Capacitances;
use super::sentences;
use super::verdict::{rail_verdict, tightest, verdict_of};
use super::view::{
    Grid, Section, check_grid, limit_grid, named, notes, of_budget, protector_scale, shared_scale, tightest_cell,
};
use super::{BusMetrics, BusReport, LimitReport, RailReport, Report};
use crate::budget::{RISE_LEVELS, rise_factor};
use crate::model::LimitKind;
use crate::units::{Scale, engineering};

/// Tables and sections of the slow lines.
pub(super) struct SlowView {
    pub(super) grids: Vec<Grid>,
    pub(super) sections: Vec<Section>,
}

pub(super) fn of(report: &Report) -> SlowView {
    let (buses, rails) = (&report.buses, &report.rails);
    let scale = protector_scale(buses.iter().flat_map(|bus| {
        let fitted = bus.fitted.as_ref().map(|fitted| fitted.capacitance_f);
        [bus.budget.capacitance_f, fitted].into_iter().flatten()
    }));
    let capacitances: Vec<Capacitances> = buses
        .iter()
        .map(|bus| of_budget(&bus.budget, bus.fitted.as_ref().map(|f| f.capacitance_f), scale))
        .collect();
    let lines: Vec<(&BusReport, &Capacitances)> = buses.iter().zip(&capacitances).collect();
    let mut grids = Vec::new();
    if !buses.is_empty() {
        grids.push(budgets(&lines, scale));
        grids.push(figures(&lines, scale));
    }
    if !rails.is_empty() {
        grids.push(rail_grid(rails));
    }
    let sections = lines.iter().map(|(bus, c)| bus_section(bus, c));
    SlowView {
        grids,
        sections: sections.chain(rails.iter().map(rail_section)).collect(),
    }
}

fn budgets(lines: &[(&BusReport, &Capacitances)], scale: Scale) -> Grid {
    let unit = format!("[{}F]", scale.prefix);
    let row = |(bus, c): &(&BusReport, &Capacitances)| {
        let headroom = bus.fitted.as_ref().and_then(|fitted| tightest(&fitted.headroom));
        vec![
            bus.name.clone(),
            bus.count.to_string(),
            sentences::budget_cell(&bus.budget, c),
            sentences::set_by_cell(&bus.budget),
            c.fitted().unwrap_or_else(|| "-".to_owned()),
            tightest_cell(headroom),
            verdict_of(&bus.judgement()),
        ]
    };
    Grid {
        title: "Buses: largest capacitance of one protector",
        header: vec![
            "bus".to_owned(),
            "count".to_owned(),
            format!("budget {unit}"),
            "set by".to_owned(),
            format!("fitted {unit}"),
            "tightest headroom".to_owned(),
            "verdict".to_owned(),
        ],
        rows: lines.iter().map(row).collect(),
    }
}

/// The figures of each bus absent, fitted and at its budget.
fn figures(lines: &[(&BusReport, &Capacitances)], scale: Scale) -> Grid {
    let states: Vec<(&BusReport, &str, String, &BusMetrics)> =
        lines.iter().flat_map(|(bus, c)| states(bus, c)).collect();
    let total = shared_scale(states.iter().map(|(.., m)| m.total_capacitance_f));
    let time = shared_scale(states.iter().filter_map(|(.., m)| m.rise_s));
    let band = shared_scale(states.iter().filter_map(|(.., m)| m.bandwidth_hz));
    let row = |(bus, state, c, metrics): &(&BusReport, &str, String, &BusMetrics)| {
        let cell = |value: Option<f64>, limit: LimitKind, scale: Scale| {
            let power = -(scale.factor.log10().round() as i32);
            let Some(value) = value else {
                return "-".to_owned();
            };
            let stated = bus
                .budget
                .limits
                .iter()
                .find(|l| l.limit == limit.word() && l.levels.is_none());
            let bound = stated.and_then(|l| l.bound).filter(|_| *state != "at budget");
            let number = bound.map_or_else(|| short(value), |bound| pair(value, bound).0);
            number.times_ten_to(power).to_string()
        };
        vec![
            bus.name.clone(),
            (*state).to_owned(),
            c.clone(),
            cell(Some(metrics.total_capacitance_f), LimitKind::TotalCapacitance, total),
            cell(metrics.rise_s, LimitKind::RiseTime, time),
            cell(metrics.time_constant_s, LimitKind::TimeConstant, time),
            cell(metrics.bandwidth_hz, LimitKind::Bandwidth, band),
        ]
    };
    Grid {
        title: "Buses: what they charge",
        header: vec![
            "bus".to_owned(),
            "protector".to_owned(),
            format!("C [{}F]", scale.prefix),
            format!("total [{}F]", total.prefix),
            format!("rise 10-90 % [{}s]", time.prefix),
            format!("time constant [{}s]", time.prefix),
            format!("bandwidth [{}Hz]", band.prefix),
        ],
        rows: states.iter().map(row).collect(),
    }
}

fn states<'a>(bus: &'a BusReport, c: &Capacitances) -> Vec<(&'a BusReport, &'static str, String, &'a BusMetrics)> {
    let fitted = bus.fitted.as_ref().map(|f| {
        let shown = c.fitted().unwrap_or_default();
        (bus, "fitted", shown, &f.metrics)
    });
    let at_budget = bus.at_budget.as_ref();
    let at_budget = at_budget.map(|b| (bus, "at budget", c.largest(b.capacitance_f), &b.metrics));
    let absent = (bus, "absent", "-".to_owned(), &bus.absent);
    std::iter::once(absent).chain(fitted).chain(at_budget).collect()
}

fn bus_section(bus: &BusReport, c: &Capacitances) -> Section {
    let fitted = bus.fitted.as_ref();
    let mut facts = vec![bus_line(bus), sentences::budget(&bus.budget, c)];
    if bus.nodes > 1 && bus.budget.capacitance_f.is_some() {
        facts.push(format!("Each of the {} protectors may have that much.", bus.nodes));
    }
    if bus.budget.verdict == "impossible" {
        facts.extend(sentences::why_impossible(&bus.budget, c, |limit| {
            absent_value(bus, limit)
        }));
    }
    if let Some(fitted) = fitted {
        let part = fitted.part.as_ref();
        let part = part.map_or(String::new(), |part| format!(", the part {}", named(part)));
        let value = c.fitted().unwrap_or_default();
        facts.push(format!("Fitted: {value} {}{part}.", c.unit()));
    }
    Section {
        name: bus.name.clone(),
        verdict: verdict_of(&bus.judgement()),
        facts,
        grids: vec![
            limit_grid(&bus.budget, fitted.map(|f| f.headroom.as_slice()), c),
            check_grid(fitted.map_or(&[], |f| &f.checks)),
        ],
        defaults: notes(&bus.defaults),
        warnings: notes(&bus.warnings),
    }
}

fn bus_line(bus: &BusReport) -> String {
    let rate = bus
        .bit_rate_bps
        .map_or(String::new(), |rate| format!(", {}", engineering(rate, "b/s")));
    let charged = match bus.resistance_ohm {
        Some(r) => format!("charged through {}", engineering(r, "ohm")),
        None => "no resistance stated".to_owned(),
    };
    format!(
        "{}{rate}; {charged}; wiring and inputs {}; protectors that share the budget: {}.",
        counted(bus.count, bus.port.as_ref()),
        engineering(bus.other_capacitance_f, "F"),
        bus.nodes
    )
}

fn counted(count: u32, port: Option<&String>) -> String {
    let lines = if count == 1 { "line" } else { "lines" };
    let port = port.map_or(String::new(), |port| format!(" of the port {}", named(port)));
    format!("{count} {lines}{port}")
}

/// The figure of a limit without protectors.
fn absent_value(bus: &BusReport, limit: &LimitReport) -> Option<f64> {
    let kind = LimitKind::ALL.into_iter().find(|kind| kind.word() == limit.limit)?;
    match kind {
        LimitKind::TotalCapacitance => Some(bus.absent.total_capacitance_f),
        LimitKind::RiseTime => {
            let factor = rise_factor(limit.levels.unwrap_or(RISE_LEVELS));
            bus.absent.time_constant_s.map(|tau| tau * factor)
        }
        LimitKind::TimeConstant => bus.absent.time_constant_s,
        LimitKind::Bandwidth => bus.absent.bandwidth_hz,
        _ => None,
    }
}

fn rail_grid(rails: &[RailReport]) -> Grid {
    let row = |rail: &RailReport| {
        let count = |verdict| {
            rail.checks
                .iter()
                .filter(|check| check.verdict == verdict)
                .count()
                .to_string()
        };
        vec![
            rail.name.clone(),
            rail.count.to_string(),
            voltage(rail),
            rail.part.clone().unwrap_or_else(|| "-".to_owned()),
            count("passes"),
            count("fails"),
            count("not stated"),
            rail_verdict(rail),
        ]
    };
    Grid {
        title: "Rails: the checks of their parts",
        header: [
            "rail",
            "count",
            "voltage",
            "part",
            "passed",
            "failed",
            "not stated",
            "verdict",
        ]
        .map(str::to_owned)
        .to_vec(),
        rows: rails.iter().map(row).collect(),
    }
}

fn voltage(rail: &RailReport) -> String {
    match rail.line_voltage_v {
        Some((low, high)) if low == high => engineering(low, "V"),
        Some((low, high)) => format!("{} to {}", engineering(low, "V"), engineering(high, "V")),
        None => "-".to_owned(),
    }
}

fn rail_section(rail: &RailReport) -> Section {
    let current = rail
        .current_a
        .map_or(String::new(), |i| format!(", up to {}", engineering(i, "A")));
    let part = match &rail.part {
        Some(part) => format!("Fitted: the part {}.", named(part)),
        None => "No part is named: nothing is checked. `pick` tries each part of the sheet.".to_owned(),
    };
    Section {
        name: rail.name.clone(),
        verdict: rail_verdict(rail),
        facts: vec![
            format!(
                "{}, {}{current}; no limit on the capacitance.",
                counted(rail.count, rail.port.as_ref()),
                voltage(rail)
            ),
            part,
        ],
        grids: vec![check_grid(&rail.checks)],
        defaults: notes(&rail.defaults),
        warnings: notes(&rail.warnings),
    }
}
