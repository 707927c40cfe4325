//! What is said of a line in sentences.

use super::limits;
use super::limits::{Capacitances, title};
use super::line::Line;
use super::named::named;
use super::tolerances;
use crate::budget::{Headroom, Verdict};
use crate::figures::WORST_EYE_PENALTY;
use crate::result::tightest;
use crate::units::decimal::significant;

/// The budget as the cell of a table, without its unit.
pub(crate) fn budget_cell(line: &Line<'_>, c: &Capacitances) -> String {
    let budget = line.budget;
    c.left(budget.verdict, budget.capacitance, budget.lowest)
}

/// What sets the budget: both ends of a window, the binding frequency of a mask.
pub(crate) fn set_by_cell(line: &Line<'_>) -> String {
    let budget = line.budget;
    let Some(upper) = budget.set_by else {
        return "-".to_owned();
    };
    let at = limits::at(budget.set_at);
    match budget.lowest_set_by {
        Some(lower) => format!("{} below, {}{at} above", title(lower), title(upper)),
        None => format!("{}{at}", title(upper)),
    }
}

/// The tightest limit with its headroom; where another one sets the budget, how far what is fitted lies below that, with
/// the headroom of the limit that sets it.
pub(crate) fn headroom_cell(line: &Line<'_>) -> String {
    let Some((fitted, tightest)) = line.fitted.zip(tightest(line.headroom())) else {
        return "-".to_owned();
    };
    let own = |h: &Headroom| {
        let [_, value, margin] = limits::headroom(h);
        if margin.is_empty() { value } else { margin }
    };
    let budget = line.budget;
    let setter = line.headroom().iter().find(|h| Some(h.figure) == budget.set_by);
    if let (true, Some(setter), Some(most)) = (tightest.holds, setter, budget.capacitance) {
        // On an island above the budget another limit decides.
        if setter.figure != tightest.figure && fitted.capacitance < most.0 {
            let below = significant(100.0 * (1.0 - fitted.capacitance / most.0), 2);
            return format!("{below} % below the budget ({}), {}", title(setter.figure), own(setter));
        }
    }
    format!("{} {}", title(tightest.figure), own(tightest))
}

/// What the line is, what its budget means and what it costs.
pub(crate) fn facts(line: &Line<'_>, c: &Capacitances) -> Vec<String> {
    let mut facts = vec![line.about.clone(), budget(line, c)];
    let budget = line.budget;
    let unit = c.unit();
    if let Some(across) = budget.across_pair {
        facts.push(format!("Bought across the pair: {} {unit}.", c.largest(across.0)));
    }
    if let Some(typical) = budget.shop_for {
        let value = c.largest(typical.0);
        facts.push(format!("With the stated spread, look for a typical value of at most {value} {unit}."));
    }
    if let Some(bare) = budget.without_footprint.filter(|bare| Some(*bare) != budget.capacitance) {
        let value = c.largest(bare.0);
        facts.push(format!(
            "Without pad, stub and ground inductance of the footprint the budget would be {value} {unit}."
        ));
    }
    if budget.verdict == Verdict::Impossible {
        facts.extend(why_impossible(line, c));
    }
    if let Some(fitted) = &line.fitted {
        let value = c.fitted().unwrap_or_default();
        let part = fitted.part.map_or(String::new(), |part| format!(", the part {}", named(part)));
        facts.push(format!("Fitted: {value} {unit}{part}."));
    }
    facts.extend(line.head.tolerance.iter().flat_map(|tolerance| tolerances::facts(tolerance, c)));
    facts.extend(line.facts.iter().cloned());
    facts
}

fn budget(line: &Line<'_>, c: &Capacitances) -> String {
    let budget = line.budget;
    let unit = c.unit();
    let set_by = budget.set_by.map_or("-".to_owned(), title);
    match (budget.verdict, budget.capacitance, budget.lowest) {
        (Verdict::Window, Some(high), Some(low)) => {
            let (low, high) = c.range(low.0, high.0);
            let below = budget.lowest_set_by.map_or("a limit".to_owned(), title);
            format!("Needs {low} to {high} {unit}: below, {below} breaks; above, {set_by} breaks.")
        }
        (Verdict::Unbounded, ..) => "No limit bounds the capacitance.".to_owned(),
        (Verdict::Impossible, ..) => "No capacitance keeps every limit.".to_owned(),
        (verdict, Some(high), _) => {
            let at = limits::at(budget.set_at);
            let mut said = match verdict {
                Verdict::NoRoom => format!("No room for a protector: {set_by}{at} is used up without one."),
                _ => format!("Tolerates up to {} {unit}, set by {set_by}{at}.", c.largest(high.0)),
            };
            if budget.allowed.intervals().len() > 1 {
                said.push_str(&format!(" Allowed: {}.", c.intervals(&budget.allowed)));
            }
            said
        }
        (other, ..) => format!("Budget: {}.", other.word()),
    }
}

/// Which limits leave no room, at which state, and by how much.
fn why_impossible(line: &Line<'_>, c: &Capacitances) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for (stated, limit) in line.limits().filter(|(_, limit)| !limit.holds_absent()) {
        if limit.figure == &WORST_EYE_PENALTY && limit.absent.value.is_none() {
            said.push(format!("{} {}.", title(limit.figure), limits::closed_eye(line.eye_height)));
            continue;
        }
        let by = limit.absent.value.zip(stated.bound).map_or(String::new(), |(value, bound)| {
            let short = limits::signed(limit.figure, (value - bound).abs());
            let (value, bound) = limits::against(limit.figure, value, bound);
            format!(": {value} against {bound}, {} off", short.trim_start_matches('+'))
        });
        said.push(format!("{} breaks already with the protector absent{by}.", title(limit.figure)));
    }
    let limits = &line.budget.limits;
    for limit in limits.iter().filter(|limit| limit.holds_absent() && !limit.holds_at_zero()) {
        said.push(format!(
            "{} holds with the protector absent and breaks with the empty footprint (C = 0).",
            title(limit.figure)
        ));
    }
    if limits.iter().all(|limit| !limit.allowed.is_empty()) {
        let each = limits.iter().map(|limit| format!("{} allows {}", title(limit.figure), c.intervals(&limit.allowed)));
        let each: Vec<String> = each.collect();
        said.push(format!("What the limits allow has nothing in common: {}.", each.join("; ")));
    }
    said
}
