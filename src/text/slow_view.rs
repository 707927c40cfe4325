//! What a reader is shown of buses and rails.

use super::view::{
    Grid, Parts, Section, budgets, capacitance_scale, check_grid, notes, of_line, section, shared_scale,
};
use crate::budget::{RISE_LEVELS, rise_factor};
use crate::figures::{BANDWIDTH, BUS_RISE, Figure, TIME_CONSTANT, TOTAL_CAPACITANCE};
use crate::result::{BusMetrics, BusReport, LimitReport, RailReport, Report};
use crate::units::decimal::{Scale, engineering, pair, short};
use crate::words::limits::Capacitances;
use crate::words::line::{FittedLine, Line};
use crate::words::named::named;
use crate::words::verdict::rail_verdict;

/// Title of the main table.
const TITLE: &str = "Buses: largest capacitance of one protector";

/// Tables and sections of the slow lines.
pub(crate) struct SlowView {
    pub(crate) grids: Vec<Grid>,
    pub(crate) sections: Vec<Section>,
}

pub(crate) fn of(report: &Report, parts: Parts) -> SlowView {
    let (buses, rails) = (&report.buses, &report.rails);
    let lines: Vec<Line> = buses.iter().map(BusReport::line).collect();
    let scale = capacitance_scale(&lines);
    let capacitances: Vec<Capacitances> = lines.iter().map(|line| of_line(line, scale)).collect();
    let mut grids = Vec::new();
    if !buses.is_empty() {
        grids.push(budgets(TITLE, &lines, &capacitances, scale, parts));
        grids.push(figures(buses, &capacitances, scale));
    }
    if !rails.is_empty() {
        grids.push(rail_grid(rails));
    }
    let sections = lines.iter().zip(&capacitances).map(|(line, c)| section(line, c));
    SlowView { grids, sections: sections.chain(rails.iter().map(rail_section)).collect() }
}

impl BusReport {
    /// The bus as tables and sentences see it.
    pub(crate) fn line(&self) -> Line<'_> {
        let limits = &self.budget.limits;
        let shared = self.nodes > 1 && self.budget.capacitance_f.is_some();
        let shared = shared.then(|| format!("Each of the {} protectors may have that much.", self.nodes));
        Line {
            name: &self.name,
            count: self.count,
            about: about(self),
            budget: &self.budget,
            fitted: self.fitted.as_ref().map(|fitted| FittedLine {
                capacitance_f: fitted.capacitance_f,
                holds: fitted.holds,
                headroom: &fitted.headroom,
                part: fitted.part.as_deref(),
                checks: &fitted.checks,
            }),
            absent: limits.iter().map(|limit| absent_value(self, limit)).collect(),
            facts: shared.into_iter().collect(),
            defaults: &self.defaults,
            warnings: &self.warnings,
        }
    }
}

/// The figures of each bus absent, fitted and at its budget.
fn figures(buses: &[BusReport], capacitances: &[Capacitances], scale: Scale) -> Grid {
    let states: Vec<(&BusReport, &str, String, &BusMetrics)> =
        buses.iter().zip(capacitances).flat_map(|(bus, c)| states(bus, c)).collect();
    let total = shared_scale(states.iter().map(|(.., m)| m.total_capacitance_f));
    let time = shared_scale(states.iter().filter_map(|(.., m)| m.rise_s));
    let band = shared_scale(states.iter().filter_map(|(.., m)| m.bandwidth_hz));
    let row = |(bus, state, c, metrics): &(&BusReport, &str, String, &BusMetrics)| {
        let cell = |value: Option<f64>, limit: &Figure, scale: Scale| {
            let power = -(scale.factor.log10().round() as i32);
            let Some(value) = value else {
                return "-".to_owned();
            };
            let stated = bus.budget.limits.iter().find(|l| l.limit == limit.word() && l.levels.is_none());
            let bound = stated.and_then(|l| l.bound).filter(|_| *state != "at budget");
            let number = bound.map_or_else(|| short(value), |bound| pair(value, bound).0);
            number.times_ten_to(power).to_string()
        };
        vec![
            bus.name.clone(),
            (*state).to_owned(),
            c.clone(),
            cell(Some(metrics.total_capacitance_f), &TOTAL_CAPACITANCE, total),
            cell(metrics.rise_s, &BUS_RISE, time),
            cell(metrics.time_constant_s, &TIME_CONSTANT, time),
            cell(metrics.bandwidth_hz, &BANDWIDTH, band),
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

/// What a bus is.
fn about(bus: &BusReport) -> String {
    let rate = bus.bit_rate_bps.map_or(String::new(), |rate| format!(", {}", engineering(rate, "b/s")));
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
    let metrics = &bus.absent;
    [
        (&TOTAL_CAPACITANCE, Some(metrics.total_capacitance_f)),
        (&BUS_RISE, metrics.time_constant_s.map(|tau| tau * rise_factor(limit.levels.unwrap_or(RISE_LEVELS)))),
        (&TIME_CONSTANT, metrics.time_constant_s),
        (&BANDWIDTH, metrics.bandwidth_hz),
    ]
    .into_iter()
    .find_map(|(figure, value)| if figure.word() == limit.limit { value } else { None })
}

fn rail_grid(rails: &[RailReport]) -> Grid {
    let row = |rail: &RailReport| {
        let count = |verdict| rail.checks.iter().filter(|check| check.verdict == verdict).count().to_string();
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
        header: ["rail", "count", "voltage", "part", "passed", "failed", "not stated", "verdict"]
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
    let current = rail.current_a.map_or(String::new(), |i| format!(", up to {}", engineering(i, "A")));
    let part = match &rail.part {
        Some(part) => format!("Fitted: the part {}.", named(part)),
        None => "No part is named: nothing is checked. `pick` tries each part of the sheet.".to_owned(),
    };
    Section {
        name: rail.name.clone(),
        verdict: rail_verdict(rail),
        passes: rail.passes(),
        facts: vec![
            format!(
                "{}, {}{current}; no limit on the capacitance.",
                counted(rail.count, rail.port.as_ref()),
                voltage(rail)
            ),
            part,
        ],
        grids: vec![check_grid("Checks of the part", &rail.checks)],
        defaults: notes(&rail.defaults),
        warnings: notes(&rail.warnings),
    }
}
