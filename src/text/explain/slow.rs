//! The working of a bus and of a rail.

use std::f64::consts::TAU;

use super::circuit::{blocks, of_line};
use super::write::{Last, finish, heading, list, say, titled};
use crate::budget::{RISE_LEVELS, largest_total, rise_factor};
use crate::diag::{inert, shorten};
use crate::model::{Bounds, Bus, BusLimit};
use crate::parts::Check;
use crate::result::{BusResult, RailResult};
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{picofarad, real};
use crate::units::decimal::{estimated_pair, pair};

/// The working of a bus: its capacitances, and each limit solved for the capacitance of one protector.
pub(crate) fn explain_bus(bus: &Bus, result: &BusResult, last: &Last<'_>) -> String {
    let mut text = titled(&result.head.name);
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
    of_line(&mut text, last.values);
    blocks(&mut text, last.values);
    heading(&mut text, "2  The limits", '-');
    if bus.limits.is_empty() {
        say!(text, "  none: any capacitance will do");
    }
    for limit in &bus.limits {
        limit_working(&mut text, bus, &limit.of);
    }
    heading(&mut text, "3  The budget", '-');
    let budget = result.budget();
    match (budget.capacitance, budget.set_by) {
        (Some(c), Some(by)) => say!(text, "  C <= {}, the least of them, set by {}", picofarad(c.0), by.word()),
        _ => say!(text, "  {}", budget.verdict.word()),
    }
    heading(&mut text, "4  The figures", '-');
    for state in result.states() {
        let (c, metrics) = (picofarad(state.capacitance.map_or(0.0, |c| c.0)), state.figures);
        let (other, total) = (picofarad(bus.other_capacitance().0), picofarad(metrics.total.0));
        say!(text, "  {}: C = {c}", state.protector.word());
        say!(text, "    C_tot = {other} + {} * {c} = {total}", bus.nodes);
        if let (Some(tau), Some(rise)) = (metrics.time_constant, metrics.rise) {
            say!(text, "    tau = R C_tot = {}", si(tau.0, "s"));
            say!(text, "    rise, 10 % to 90 % = ln 9 tau = {}", si(rise.0, "s"));
        }
        if let Some(f) = metrics.bandwidth {
            say!(text, "    bandwidth = 1/(2 pi tau) = {}", si(f.0, "Hz"));
        }
    }
    checks(&mut text, result.fitted().map_or(&[], |_| &result.head.checks));
    finish(&mut text, &result.head, last);
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
pub(crate) fn explain_rail(result: &RailResult, last: &Last<'_>) -> String {
    let mut text = titled(&result.head.name);
    say!(text, "  A rail has no limit on its capacitance: only its part is checked.");
    if let Some(range) = result.voltage {
        say!(text, "  line voltage {} to {}", si(range.low.0, "V"), si(range.high.0, "V"));
    }
    match &result.head.part {
        Some(part) => say!(text, "  part \"{}\"", inert(&shorten(part, 80))),
        None => say!(text, "  no part is named"),
    }
    checks(&mut text, &result.head.checks);
    finish(&mut text, &result.head, last);
    text
}

/// The checks of a part, each with its two numbers.
pub(crate) fn checks(text: &mut String, checks: &[Check]) {
    let row = |check: &Check| {
        let numbers = match (check.required, check.available) {
            (Some(required), Some(available)) => {
                let (available, required) = match check.is_estimate() {
                    true => estimated_pair(available, required),
                    false => pair(available, required),
                };
                format!(": required {required} {0}, available {available} {0}", check.unit)
            }
            (Some(required), None) => format!(": required {} {}", real(required), check.unit),
            _ => String::new(),
        };
        let margin = check.margin.map_or(String::new(), |m| format!(", margin {} %", real(100.0 * m)));
        let why = check.why.as_deref().map_or(String::new(), |why| format!(" ({})", inert(why)));
        format!("{}{numbers}{margin}: {}{why}", check.name(), check.verdict.word())
    };
    list(text, "The checks of the part", checks.iter().map(row));
}
