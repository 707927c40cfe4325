//! Every part against every line, and the packages each port needs.

use std::sync::Arc;

use rayon::prelude::*;

use super::{
    Bill, BillLine, BillPart, Candidate, Check, Choice, Duty, Fit, bill, capacitance_check, checks, cost_per_line,
    passes, recommend,
};
use crate::budget::{Fault, IntervalSet, allowed_capacitances, size_bus, size_feed};
use crate::model::{Feed, Head, Kind, Lane, Line, Note, Part, PartOnLine};
use crate::units::Farad;

/// One line with every part.
#[derive(Debug, Clone, PartialEq)]
pub struct LinePick {
    /// Upper end of the line's lowest allowed interval as the sheet states it; `None` where there is none.
    pub budget: Option<Farad>,
    /// The parts in the order given, as judged on this line.
    pub parts: Vec<PartPick>,
    /// The recommended part and why.
    pub choice: Choice,
}

/// One part on one line.
#[derive(Debug, Clone, PartialEq)]
pub struct PartPick {
    /// Its worst-case capacitance, one line to ground; `None` on a rail, and for a part across a pair on a single line.
    pub capacitance: Option<Farad>,
    /// Its checks, its capacitance first.
    pub checks: Vec<Check>,
    /// What the reader should know beside them.
    pub cautions: Vec<Note>,
    /// A lane's share of a package.
    pub cost_per_line: Option<f64>,
    /// What a lane takes of a package.
    pub fit: Fit,
}

/// Judges every part on a line.
///
/// The budget of a lane is solved anew with the inductance and resistance of each part. A pair takes two channels of
/// one package, so that it needs a part that states two; a part stated across the pair alone needs one.
///
/// # Errors
/// As [`allowed_capacitances`] and [`size_feed`].
pub fn pick_line(line: &Line, parts: &[Arc<Part>]) -> Result<LinePick, Fault> {
    let head = &line.head;
    let (budget, judged) = match &line.kind {
        Kind::Lane(lane) => (first_end(&allowed_capacitances(lane)?), on_lane(head, lane, parts)?),
        Kind::Feed(feed) => (size_feed(feed)?.sized.budget.capacitance, on_feed(head, feed, parts)?),
        Kind::Bus(bus) => {
            let allowed = size_bus(bus).budget.allowed;
            let duty = Duty::of_bus(head, bus);
            let judge = |part: &Arc<Part>| {
                let on_line = part.on_line(false, head.voltages(), |_, _| {});
                judge(part, on_line, &duty, Some(&allowed), false)
            };
            (first_end(&allowed), parts.iter().map(judge).collect())
        }
        Kind::Rail(rail) => {
            let duty = Duty::of_rail(head, rail);
            let judge = |part: &Arc<Part>| judge(part, None, &duty, None, false);
            (None, parts.iter().map(judge).collect())
        }
    };
    let candidates: Vec<Candidate> = parts
        .iter()
        .zip(&judged)
        .map(|(part, judged): (_, &PartPick)| Candidate {
            part: part.name.clone(),
            checks: judged.checks.clone(),
            cost_per_line: judged.cost_per_line,
        })
        .collect();
    Ok(LinePick { budget, choice: recommend(&candidates), parts: judged })
}

/// What of a part changes the budget of a lane.
type Key = (u64, u64, bool, Option<(bool, u64)>);

fn key(part: &Part, on_line: &PartOnLine) -> Key {
    let mismatch = part.mismatch.map(|mismatch| match mismatch {
        crate::model::Mismatch::Absolute(c) => (true, c.0.to_bits()),
        crate::model::Mismatch::Share(share) => (false, share.to_bits()),
    });
    let (inductance, resistance) = (on_line.inductance.0, on_line.resistance.0);
    (inductance.to_bits(), resistance.to_bits(), on_line.across, mismatch)
}

fn on_lane(head: &Head, lane: &Lane, parts: &[Arc<Part>]) -> Result<Vec<PartPick>, Fault> {
    let placed: Vec<Option<PartOnLine>> =
        parts.iter().map(|part| part.on_line(lane.differential, head.voltages(), |_, _| {})).collect();
    // Parts that are alike in the circuit share one solution.
    let mut kinds: Vec<(Key, &Arc<Part>, PartOnLine)> = Vec::new();
    for (part, on_line) in parts.iter().zip(&placed) {
        if let Some(on_line) = on_line.filter(|on_line| kinds.iter().all(|(k, ..)| *k != key(part, on_line))) {
            kinds.push((key(part, &on_line), part, on_line));
        }
    }
    let solved: Vec<IntervalSet> = kinds
        .par_iter()
        .map(|(_, part, on_line)| {
            let mut lane = lane.clone();
            lane.path.fit_part(part, on_line);
            allowed_capacitances(&lane)
        })
        .collect::<Result<_, Fault>>()?;
    let duty = Duty::of_lane(head, lane, false);
    let judged = parts.iter().zip(placed).map(|(part, on_line)| {
        let kind = on_line.and_then(|on_line| kinds.iter().position(|(k, ..)| *k == key(part, &on_line)));
        let allowed = kind.and_then(|kind| solved.get(kind));
        let mut duty = duty.clone();
        duty.footprint.across = on_line.is_some_and(|on_line| on_line.across);
        if takes_pair(part, lane.differential) {
            duty.demands.needs.channels = duty.demands.needs.channels.max(Some(2));
        }
        judge(part, on_line, &duty, Some(allowed.unwrap_or(&IntervalSet::all())), lane.differential)
    });
    Ok(judged.collect())
}

/// A feed's budget and the peak of its power follow each part.
fn on_feed(head: &Head, feed: &Feed, parts: &[Arc<Part>]) -> Result<Vec<PartPick>, Fault> {
    parts
        .par_iter()
        .map(|part| {
            let mut feed = feed.clone();
            let on_line = part.on_line(false, head.voltages(), |_, _| {});
            if let Some(on_line) = &on_line {
                feed.path.fit_part(part, on_line);
            }
            let outcome = size_feed(&feed)?;
            let with = outcome.sized.fitted.as_ref().filter(|_| on_line.is_some());
            let metrics = with.map_or(outcome.sized.absent.band, |fitted| fitted.at.figures.band);
            let duty = Duty::of_feed(head, &feed, metrics.voltage);
            Ok(judge(part, on_line, &duty, Some(&outcome.sized.budget.allowed), false))
        })
        .collect()
}

/// Whether a lane takes two channels of the part.
fn takes_pair(part: &Part, differential: bool) -> bool {
    differential && !part.is_across_alone()
}

/// A part on a line; `allowed` is `None` for a line without limits on its capacitance.
fn judge(
    part: &Part,
    on_line: Option<PartOnLine>,
    duty: &Duty,
    allowed: Option<&IntervalSet>,
    differential: bool,
) -> PartPick {
    let found = checks(duty, part);
    let capacitance = on_line.map(|on_line| on_line.capacitance);
    let first = allowed.map(|allowed| {
        let intervals: Vec<(f64, Option<f64>)> =
            allowed.intervals().iter().map(|i| (i.low, Some(i.high).filter(|high| high.is_finite()))).collect();
        capacitance_check(&intervals, capacitance.map(|c| c.0))
    });
    let checks: Vec<Check> = first.into_iter().chain(found.checks).collect();
    let fit = Fit::new(passes(&checks), differential, part.is_across_alone());
    let taken = if takes_pair(part, differential) { 2 } else { 1 };
    PartPick {
        capacitance,
        cost_per_line: cost_per_line(part.strength.cost, channels(part), taken),
        cautions: found.cautions,
        checks,
        fit,
    }
}

/// Channels of a package; 1 where the part states none.
fn channels(part: &Part) -> u32 {
    part.strength.channels.unwrap_or(1)
}

/// The packages of a port: `lines` are the identical lanes of each of its lines and the line with every part.
pub fn port_bill<'a>(lines: impl Iterator<Item = (u32, &'a LinePick)>, parts: &[Arc<Part>]) -> Bill {
    let lines: Vec<BillLine> =
        lines.map(|(count, line)| BillLine { count, fits: line.parts.iter().map(|part| part.fit).collect() }).collect();
    let parts: Vec<BillPart> =
        parts.iter().map(|part| BillPart { channels: channels(part), cost: part.strength.cost }).collect();
    bill(&lines, &parts)
}

fn first_end(allowed: &IntervalSet) -> Option<Farad> {
    let high = allowed.lowest()?.high;
    high.is_finite().then_some(Farad(high))
}
