//! What is said of a line in sentences.

use super::limits;
use super::limits::{Capacitances, title};
use super::line::Line;
use super::named::named;
use crate::figures::*;
use crate::result::{FeedReport, LaneReport, LimitReport, Retune};
use crate::units::{engineering, significant};

/// The budget as the cell of a table, without its unit.
pub(crate) fn budget_cell(line: &Line<'_>, c: &Capacitances) -> String {
    let budget = line.budget;
    match (budget.verdict, budget.capacitance_f, budget.lowest_f) {
        ("window", Some(high), Some(low)) => {
            let (low, high) = c.range(low, high);
            format!("{low} to {high}")
        }
        (_, Some(high), _) => c.largest(high),
        ("unbounded", ..) => "no bound".to_owned(),
        _ => "none".to_owned(),
    }
}

/// What sets the budget: both ends of a window, the binding frequency of a mask.
pub(crate) fn set_by_cell(line: &Line<'_>) -> String {
    let budget = line.budget;
    let Some(upper) = budget.set_by else {
        return "-".to_owned();
    };
    let at = limits::at(budget.set_at_hz);
    match budget.lowest_set_by {
        Some(lower) => format!("{} below, {}{at} above", title(lower), title(upper)),
        None => format!("{}{at}", title(upper)),
    }
}

/// What the line is, what its budget means and what it costs.
pub(crate) fn facts(line: &Line<'_>, c: &Capacitances) -> Vec<String> {
    let mut facts = vec![line.about.clone(), budget(line, c)];
    let budget = line.budget;
    let unit = c.unit();
    if let Some(across) = budget.across_pair_f {
        facts.push(format!("Bought across the pair: {} {unit}.", c.largest(across)));
    }
    if let Some(typical) = budget.shop_for_f {
        let value = c.largest(typical);
        facts.push(format!("With the stated spread, look for a typical value of at most {value} {unit}."));
    }
    if let Some(bare) = budget.without_footprint_f.filter(|bare| Some(*bare) != budget.capacitance_f) {
        let value = c.largest(bare);
        facts.push(format!(
            "Without pad, stub and ground inductance of the footprint the budget would be {value} {unit}."
        ));
    }
    if budget.verdict == "impossible" {
        facts.extend(why_impossible(line, c));
    }
    if let Some(fitted) = &line.fitted {
        let value = c.fitted().unwrap_or_default();
        let part = fitted.part.as_ref().map_or(String::new(), |part| format!(", the part {}", named(part)));
        facts.push(format!("Fitted: {value} {unit}{part}."));
    }
    facts.extend(line.facts.iter().cloned());
    facts
}

/// What a lane is.
pub(crate) fn about_lane(lane: &LaneReport) -> String {
    let kind = match (lane.differential, lane.count) {
        (true, 1) => "pair",
        (true, _) => "pairs",
        (false, 1) => "line",
        (false, _) => "lines",
    };
    let differential = if lane.differential { " differential" } else { "" };
    let port = lane.port.as_ref().map_or(String::new(), |port| format!(" of the port {}", named(port)));
    format!(
        "{} {kind}{port}, {} at {}, Nyquist {}; reference {}{differential}; return loss seen {}; outer end: {}.",
        lane.count,
        lane.modulation,
        engineering(lane.symbol_rate_bd, "Bd"),
        engineering(lane.nyquist_hz, "Hz"),
        engineering(lane.reference_ohm, "ohm"),
        if lane.port_plane == "outer end" { "at the outer end" } else { &lane.port_plane },
        lane.outer_end,
    )
}

/// What a feed is.
pub(crate) fn about_feed(feed: &FeedReport) -> String {
    let kind = if feed.count == 1 { "antenna feed" } else { "antenna feeds" };
    let port = feed.port.as_ref().map_or(String::new(), |port| format!(" of the port {}", named(port)));
    let [low, high] = feed.band_hz.map(|f| engineering(f, "Hz"));
    format!(
        "{} {kind}{port}, {low} to {high}; the match is seen by the radio in {}.",
        feed.count,
        engineering(feed.reference_ohm, "ohm")
    )
}

/// Coils that tune a feed back, and what no match can exceed.
pub(crate) fn feed_facts(feed: &FeedReport) -> Vec<String> {
    let retune = |retune: &Retune, place: &str| {
        let holds = if retune.holds { "every limit holds" } else { "a limit breaks" };
        let match_left = retune
            .return_loss_db
            .map_or("no reflection".to_owned(), |db| format!("a return loss of {} dB", significant(db, 4)));
        format!(
            "To tune back {place} (estimate): {} to ground at the protector, nearest E24 value {}, with which {holds}, at \
             {match_left}; a direct voltage on the line needs a DC block; or {} in series, half to either side.",
            engineering(retune.shunt_inductance_h, "H"),
            engineering(retune.nearest_e24_h, "H"),
            engineering(retune.series_inductance_h, "H"),
        )
    };
    let fitted = feed.fitted.as_ref().and_then(|f| f.changes.retune.as_ref());
    let at_budget = feed.at_budget.as_ref().and_then(|b| b.changes.retune.as_ref());
    let bound = feed.bode_fano_return_loss_db.map(|db| {
        format!(
            "No lossless match can hold more than {} dB of return loss all over the band (Bode and Fano).",
            significant(db, 4)
        )
    });
    let fitted = fitted.map(|coil| retune(coil, "the fitted capacitance"));
    let at_budget = at_budget.map(|coil| retune(coil, "the budget"));
    [fitted, at_budget, bound].into_iter().flatten().collect()
}

fn budget(line: &Line<'_>, c: &Capacitances) -> String {
    let budget = line.budget;
    let unit = c.unit();
    let set_by = budget.set_by.map_or("-".to_owned(), title);
    match (budget.verdict, budget.capacitance_f, budget.lowest_f) {
        ("window", Some(high), Some(low)) => {
            let (low, high) = c.range(low, high);
            let below = budget.lowest_set_by.map_or("a limit".to_owned(), title);
            format!("Needs {low} to {high} {unit}: below, {below} breaks; above, {set_by} breaks.")
        }
        ("unbounded", ..) => "No limit bounds the capacitance.".to_owned(),
        ("impossible", ..) => "No capacitance keeps every limit.".to_owned(),
        (_, Some(high), _) => {
            let at = limits::at(budget.set_at_hz);
            let mut said = format!("Tolerates up to {} {unit}, set by {set_by}{at}.", c.largest(high));
            if budget.intervals_f.len() > 1 {
                said.push_str(&format!(" Allowed: {}.", c.intervals(&budget.intervals_f)));
            }
            said
        }
        (other, ..) => format!("Budget: {other}."),
    }
}

/// Which limits leave no room, at which state, and by how much.
fn why_impossible(line: &Line<'_>, c: &Capacitances) -> Vec<String> {
    let limits = &line.budget.limits;
    let mut said: Vec<String> = Vec::new();
    let values = line.absent.iter().copied().chain(std::iter::repeat(None));
    for (limit, value) in limits.iter().zip(values).filter(|(limit, _)| !limit.holds_absent) {
        let by = value.zip(limit.bound).map_or(String::new(), |(value, bound)| {
            let short = limits::signed(limit.limit, (value - bound).abs());
            let (value, bound) = limits::against(limit.limit, value, bound);
            format!(": {value} against {bound}, {} off", short.trim_start_matches('+'))
        });
        said.push(format!("{} breaks already with the protector absent{by}.", title(limit.limit)));
    }
    for limit in limits.iter().filter(|limit| limit.holds_absent && !limit.holds_at_zero) {
        said.push(format!(
            "{} holds with the protector absent and breaks with the empty footprint (C = 0).",
            title(limit.limit)
        ));
    }
    if limits.iter().all(|limit| !limit.intervals_f.is_empty()) {
        let each =
            limits.iter().map(|limit| format!("{} allows {}", title(limit.limit), c.intervals(&limit.intervals_f)));
        let each: Vec<String> = each.collect();
        said.push(format!("What the limits allow has nothing in common: {}.", each.join("; ")));
    }
    said
}

/// The metric of a limit without protector, where it is known at the frequency of the limit.
pub(crate) fn absent_value(lane: &LaneReport, limit: &LimitReport) -> Option<f64> {
    let figure = FIGURES.iter().copied().find(|figure| figure.word() == limit.limit)?;
    if [&INSERTION_LOSS, &RETURN_LOSS, &RETURN_LOSS_INNER, &EYE_HEIGHT, &IMPEDANCE_DIP].contains(&figure) {
        return match figure {
            f if f == &INSERTION_LOSS => lane.absent.insertion_loss_db,
            f if f == &RETURN_LOSS => lane.absent.return_loss_db,
            f if f == &RETURN_LOSS_INNER => lane.absent.return_loss_inner_db,
            f if f == &EYE_HEIGHT => lane.absent.eye_height,
            _ => lane.absent.impedance_dip_ohm,
        };
    }
    [&ADDED_LOSS, &EYE_PENALTY, &WORST_EYE_PENALTY, &ADDED_RISE].contains(&figure).then_some(0.0)
}
