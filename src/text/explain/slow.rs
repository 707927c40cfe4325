//! The working of a bus and of a rail.

use std::f64::consts::TAU;

use super::write::{finish, heading, list, say, titled};
use crate::budget::{RISE_LEVELS, largest_total, rise_factor};
use crate::diag::{inert, shorten};
use crate::model::{Bounds, Bus, BusLimit};
use crate::result::{BusReport, Check, RailReport};
use crate::units::decimal::digits_apart;
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{picofarad, real};

/// The working of a bus: its capacitances, and each limit solved for the capacitance of one protector.
pub fn explain_bus(bus: &Bus, report: &BusReport, cautions: &[&str]) -> String {
    let mut text = titled(&report.name);
    heading(&mut text, "1  What charges", '-');
    say!(text, "  C_tot = C_wiring + C_inputs + n C, with C of one protector to ground");
    for (symbol, value) in [("C_wiring", bus.wiring), ("C_inputs", bus.inputs)] {
        say!(text, "  {symbol} = {}", picofarad(value.0));
    }
    say!(text, "  n = {} protectors", bus.nodes);
    match bus.resistance() {
        Some(r) => say!(text, "  R = {}", si(r.0, "ohm")),
        None => say!(text, "  no resistance is stated: nothing is said of rise and bandwidth"),
    }
    heading(&mut text, "2  The limits", '-');
    if bus.limits.is_empty() {
        say!(text, "  none: any capacitance will do");
    }
    for limit in &bus.limits {
        limit_working(&mut text, bus, &limit.of);
    }
    heading(&mut text, "3  The budget", '-');
    match (report.budget.capacitance_f, report.budget.set_by) {
        (Some(c), Some(by)) => say!(text, "  C <= {}, the least of them, set by {by}", picofarad(c)),
        _ => say!(text, "  {}", report.budget.verdict),
    }
    heading(&mut text, "4  The figures", '-');
    let states = [
        Some(("absent", 0.0, report.absent)),
        report.fitted.as_ref().map(|f| ("fitted", f.capacitance_f, f.metrics)),
        report.at_budget.map(|b| ("at budget", b.capacitance_f, b.metrics)),
    ];
    for (state, c, metrics) in states.into_iter().flatten() {
        let (other, total) = (picofarad(bus.other_capacitance().0), picofarad(metrics.total_capacitance_f));
        let c = picofarad(c);
        say!(text, "  {state}: C = {c}");
        say!(text, "    C_tot = {other} + {} * {c} = {total}", bus.nodes);
        if let (Some(tau), Some(rise)) = (metrics.time_constant_s, metrics.rise_s) {
            say!(text, "    tau = R C_tot = {}", si(tau, "s"));
            say!(text, "    rise, 10 % to 90 % = ln 9 tau = {}", si(rise, "s"));
        }
        if let Some(f) = metrics.bandwidth_hz {
            say!(text, "    bandwidth = 1/(2 pi tau) = {}", si(f, "Hz"));
        }
    }
    checks(&mut text, report.fitted.as_ref().map_or(&[], |f| &f.checks));
    finish(&mut text, &report.defaults, &report.warnings, cautions);
    text
}

/// One limit: its formula with numbers, and the share of one protector.
fn limit_working(text: &mut String, bus: &Bus, limit: &BusLimit) {
    let charge = real(bus.resistance().map_or(0.0, |r| r.0));
    let formula = match *limit {
        BusLimit::Total(most) => format!("C_tot <= {}", picofarad(most.0)),
        BusLimit::Rise { most, levels } => {
            let (low, high) = levels.unwrap_or(RISE_LEVELS);
            let (most, factor) = (real(most.0), real(rise_factor((low, high))));
            format!("C_tot <= t/(R ln((1 - {low})/(1 - {high}))) = {most} s/({charge} ohm * {factor})")
        }
        BusLimit::TimeConstant(most) => format!("C_tot <= tau/R = {} s/{charge} ohm", real(most.0)),
        BusLimit::Bandwidth(least) => {
            format!("C_tot <= 1/(2 pi R f) = 1/({} * {charge} ohm * {} Hz)", real(TAU), real(least.0))
        }
    };
    say!(text, "  {}: {formula}", limit.figure().word());
    let Some(largest) = largest_total(limit, bus.resistance()) else { return };
    let other = bus.other_capacitance().0;
    let each = picofarad((largest.0 - other) / f64::from(bus.nodes));
    let (largest, other) = (picofarad(largest.0), picofarad(other));
    say!(text, "    = {largest}");
    say!(text, "    C <= ({largest} - {other})/{} = {each}", bus.nodes);
}

/// The working of a rail: the checks of its part.
pub fn explain_rail(report: &RailReport, cautions: &[&str]) -> String {
    let mut text = titled(&report.name);
    say!(text, "  A rail has no limit on its capacitance: only its part is checked.");
    if let Some((low, high)) = report.line_voltage_v {
        say!(text, "  line voltage {} to {}", si(low, "V"), si(high, "V"));
    }
    match &report.part {
        Some(part) => say!(text, "  part \"{}\"", inert(&shorten(part, 80))),
        None => say!(text, "  no part is named"),
    }
    checks(&mut text, &report.checks);
    finish(&mut text, &report.defaults, &report.warnings, cautions);
    text
}

/// The checks of a part, each with its two numbers.
pub(crate) fn checks(text: &mut String, checks: &[Check]) {
    let row = |check: &Check| {
        let numbers = match (check.required, check.available) {
            (Some(required), Some(available)) => {
                let (available, required) = digits_apart(available, required);
                format!(": required {required} {0}, available {available} {0}", check.unit)
            }
            (Some(required), None) => format!(": required {} {}", real(required), check.unit),
            _ => String::new(),
        };
        let margin = check.margin.map_or(String::new(), |m| format!(", margin {} %", real(100.0 * m)));
        format!("{}{numbers}{margin}: {}", check.check, check.verdict)
    };
    list(text, "The checks of the part", checks.iter().map(row));
}
