//! The working of a bus and of a rail.

use std::f64::consts::TAU;

use super::write::{finish, heading, line};
use crate::budget::{RISE_LEVELS, largest_total, rise_factor};
use crate::diag::{inert, shorten};
use crate::model::{Bound, Bus, Limit, LimitKind};
use crate::result::{BusReport, Check, RailReport};
use crate::units::decimal::digits_apart;
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{picofarad, real};

/// The working of a bus: its capacitances, and each limit solved for the capacitance of one protector.
pub fn explain_bus(bus: &Bus, report: &BusReport, cautions: &[&str]) -> String {
    let mut text = String::new();
    let name = inert(&shorten(&report.name, 80));
    heading(&mut text, &format!("{name}: the working"), '=');
    heading(&mut text, "1  What charges", '-');
    line(&mut text, "  C_tot = C_wiring + C_inputs + n C, with C of one protector to ground");
    for (symbol, value) in [("C_wiring", bus.wiring), ("C_inputs", bus.inputs)] {
        line(&mut text, &format!("  {symbol} = {}", picofarad(value.0)));
    }
    line(&mut text, &format!("  n = {} protectors", bus.nodes));
    match bus.resistance() {
        Some(r) => line(&mut text, &format!("  R = {}", si(r.0, "ohm"))),
        None => line(&mut text, "  no resistance is stated: nothing is said of rise and bandwidth"),
    }
    heading(&mut text, "2  The limits", '-');
    if bus.limits.is_empty() {
        line(&mut text, "  none: any capacitance will do");
    }
    for limit in &bus.limits {
        limit_working(&mut text, bus, limit);
    }
    heading(&mut text, "3  The budget", '-');
    let budget = &report.budget;
    match (budget.capacitance_f, budget.set_by) {
        (Some(c), Some(by)) => line(&mut text, &format!("  C <= {}, the least of them, set by {by}", picofarad(c))),
        _ => line(&mut text, &format!("  {}", budget.verdict)),
    }
    heading(&mut text, "4  The figures", '-');
    let states = [
        Some(("absent", 0.0, report.absent)),
        report.fitted.as_ref().map(|f| ("fitted", f.capacitance_f, f.metrics)),
        report.at_budget.map(|b| ("at budget", b.capacitance_f, b.metrics)),
    ];
    for (state, c, metrics) in states.into_iter().flatten() {
        line(&mut text, &format!("  {state}: C = {}", picofarad(c)));
        line(
            &mut text,
            &format!(
                "    C_tot = {} + {} * {} = {}",
                picofarad(bus.other_capacitance().0),
                bus.nodes,
                picofarad(c),
                picofarad(metrics.total_capacitance_f)
            ),
        );
        if let (Some(tau), Some(rise)) = (metrics.time_constant_s, metrics.rise_s) {
            line(&mut text, &format!("    tau = R C_tot = {}", si(tau, "s")));
            line(&mut text, &format!("    rise, 10 % to 90 % = ln 9 tau = {}", si(rise, "s")));
        }
        if let Some(f) = metrics.bandwidth_hz {
            line(&mut text, &format!("    bandwidth = 1/(2 pi tau) = {}", si(f, "Hz")));
        }
    }
    checks(&mut text, report.fitted.as_ref().map_or(&[], |f| &f.checks));
    finish(&mut text, &report.defaults, &report.warnings, cautions);
    text
}

/// One limit: its formula with numbers, and the share of one protector.
fn limit_working(text: &mut String, bus: &Bus, limit: &Limit) {
    let Bound::Level(level) = limit.bound else { return };
    let word = limit.kind.word();
    let charge = bus.resistance().map_or(0.0, |r| r.0);
    let formula = match limit.kind {
        LimitKind::TotalCapacitance => format!("C_tot <= {}", picofarad(level)),
        LimitKind::RiseTime => {
            let (low, high) = limit.levels.unwrap_or(RISE_LEVELS);
            let factor = rise_factor((low, high));
            format!(
                "C_tot <= t/(R ln((1 - {low})/(1 - {high}))) = {} s/({} ohm * {})",
                real(level),
                real(charge),
                real(factor)
            )
        }
        LimitKind::TimeConstant => format!("C_tot <= tau/R = {} s/{} ohm", real(level), real(charge)),
        _ => format!("C_tot <= 1/(2 pi R f) = 1/({} * {} ohm * {} Hz)", real(TAU), real(charge), real(level)),
    };
    line(text, &format!("  {word}: {formula}"));
    let Some(largest) = largest_total(limit, bus.resistance()) else {
        return;
    };
    let other = bus.other_capacitance().0;
    line(text, &format!("    = {}", picofarad(largest.0)));
    line(
        text,
        &format!(
            "    C <= ({} - {})/{} = {}",
            picofarad(largest.0),
            picofarad(other),
            bus.nodes,
            picofarad((largest.0 - other) / f64::from(bus.nodes))
        ),
    );
}

/// The working of a rail: the checks of its part.
pub fn explain_rail(report: &RailReport, cautions: &[&str]) -> String {
    let mut text = String::new();
    let name = inert(&shorten(&report.name, 80));
    heading(&mut text, &format!("{name}: the working"), '=');
    line(&mut text, "  A rail has no limit on its capacitance: only its part is checked.");
    if let Some((low, high)) = report.line_voltage_v {
        line(&mut text, &format!("  line voltage {} to {}", si(low, "V"), si(high, "V")));
    }
    match &report.part {
        Some(part) => line(&mut text, &format!("  part \"{}\"", inert(&shorten(part, 80)))),
        None => line(&mut text, "  no part is named"),
    }
    checks(&mut text, &report.checks);
    finish(&mut text, &report.defaults, &report.warnings, cautions);
    text
}

/// The checks of a part, each with its two numbers.
pub(crate) fn checks(text: &mut String, checks: &[Check]) {
    if checks.is_empty() {
        return;
    }
    heading(text, "The checks of the part", '-');
    for check in checks {
        let numbers = match (check.required, check.available) {
            (Some(required), Some(available)) => {
                let (available, required) = digits_apart(available, required);
                format!(": required {required} {0}, available {available} {0}", check.unit)
            }
            (Some(required), None) => format!(": required {} {}", real(required), check.unit),
            _ => String::new(),
        };
        let margin = check.margin.map_or(String::new(), |m| format!(", margin {} %", real(100.0 * m)));
        line(text, &format!("  {}{numbers}{margin}: {}", check.check, check.verdict));
    }
}
