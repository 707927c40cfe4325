//! Every part against every line, and the packages each port needs.

use std::sync::Arc;

use rayon::prelude::*;

use super::{
    Bill, BillLine, BillPart, Candidate, Check, Checks, Choice, Discharges, Duty, Fit, Fitted, Verdict, bill,
    capacitance_check, cost_per_line, fails_already, left_at_pin, line_checks, passes, recommend,
};
use crate::budget::{Budget, Fault, Figures, IntervalSet, allowed_capacitances, size_bus, size_feed, size_lane};
use crate::model::{Feed, Head, Kind, Lane, Line, Mismatch, Note, Part, PartOnLine};
use crate::resolve::{Resolved, part_on_line};
use crate::transient::{LineDischarge, MissingWord, NotStruck};
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
    /// Whether the line breaks a limit whatever is fitted.
    pub breaks: bool,
}

/// One part on one line.
#[derive(Debug, Clone, PartialEq)]
pub struct PartPick {
    /// Its worst-case capacitance, one line to ground; `None` on a rail, and for a part across a pair on a single line.
    pub capacitance: Option<Farad>,
    /// Upper end of the lowest interval that the line allows with the inductance, resistance and mismatch of this part;
    /// `None` where there is none.
    pub budget: Option<Farad>,
    /// Its checks, its capacitance first.
    pub checks: Vec<Check>,
    /// What the reader should know beside them.
    pub cautions: Vec<Note>,
    /// What was taken where the part or the line does not state it.
    pub guesses: Vec<Note>,
    /// A lane's share of a package.
    pub cost_per_line: Option<f64>,
    /// What a lane takes of a package.
    pub fit: Fit,
    /// What a contact discharge leaves at the pin: the current of a 100 ns pulse in ampere, without a clamp of the chip the
    /// voltage in volt, with its unit. `None` where it is not computed: a part that fails another check is not.
    pub at_pin: Option<(f64, &'static str)>,
}

/// Judges every part on a line.
///
/// The budget of a lane is solved anew with the inductance, resistance and mismatch of each part. A pair takes two channels
/// of one package or, of a part of one channel, two packages; a part stated across the pair alone needs one.
///
/// # Errors
/// As [`allowed_capacitances`] and [`size_feed`].
pub fn pick_line(line: &Line, parts: &[Arc<Part>]) -> Result<LinePick, Fault> {
    pick_line_with(line, parts, &Discharges::default())
}

/// The same with what is known of discharges already.
pub(crate) fn pick_line_with(line: &Line, parts: &[Arc<Part>], discharges: &Discharges) -> Result<LinePick, Fault> {
    let head = &line.head;
    let site = Site { line, discharges };
    let (budget, judged) = match &line.kind {
        Kind::Lane(lane) => (first_end(&allowed_capacitances(lane)?), on_lane(&site, lane, parts)?),
        Kind::Feed(feed) => (size_feed(feed)?.sized.budget.capacitance, on_feed(&site, feed, parts)?),
        Kind::Bus(bus) => {
            let allowed = size_bus(bus).budget.allowed;
            let duty = Duty::of_bus(head, bus).among(parts);
            let judge = |part: &Arc<Part>| {
                let placed = Placed::new(part, false, head);
                judge(&site, part, placed, &duty, Some(&allowed), false)
            };
            (first_end(&allowed), parts.par_iter().map(judge).collect())
        }
        Kind::Rail(rail) => {
            let duty = Duty::of_rail(head, rail).among(parts);
            let judge = |part: &Arc<Part>| judge(&site, part, Placed::default(), &duty, None, false);
            (None, parts.par_iter().map(judge).collect())
        }
    };
    let candidates: Vec<Candidate> = parts
        .iter()
        .zip(&judged)
        .map(|(part, judged): (_, &PartPick)| Candidate {
            part: part.name.clone(),
            checks: judged.checks.clone(),
            cost_per_line: judged.cost_per_line,
            at_pin: judged.at_pin,
        })
        .collect();
    let mut choice = recommend(&candidates);
    let closed = |part: &PartPick| part.checks.first().is_some_and(nothing_allowed);
    let broken = if judged.iter().all(closed) { broken_by_itself(line)? } else { None };
    let breaks = broken.is_some();
    if let Some(why) = broken {
        choice.why = why;
    }
    Ok(LinePick { budget, choice, parts: judged, breaks })
}

/// Whether the line allows no capacitance with the part of this check.
fn nothing_allowed(check: &Check) -> bool {
    check.check == "capacitance" && check.required.is_none() && check.verdict != Verdict::Passes
}

/// What a line breaks as it is stated, whatever is fitted.
fn broken_by_itself(line: &Line) -> Result<Option<String>, Fault> {
    Ok(match &line.kind {
        Kind::Lane(lane) if allowed_capacitances(lane)?.is_empty() => {
            broken(&size_lane(lane, Figures::Nyquist)?.sized.budget)
        }
        Kind::Feed(feed) => broken(&size_feed(feed)?.sized.budget),
        Kind::Bus(bus) => broken(&size_bus(bus).budget),
        Kind::Lane(_) | Kind::Rail(_) => None,
    })
}

fn broken(budget: &Budget) -> Option<String> {
    let alone = budget.limits.iter().filter(|limit| limit.allowed.is_empty());
    let alone: Vec<&str> = alone.map(|limit| limit.figure.word()).collect();
    budget.allowed.is_empty().then(|| match alone.as_slice() {
        [] => "no capacitance keeps every limit of the line: it breaks one whatever is fitted".to_owned(),
        _ => format!("the line breaks {} whatever is fitted", alone.join(", ")),
    })
}

/// What of a part changes the budget of a lane.
type Key = (u64, u64, bool, Option<(bool, u64)>);

fn key(on_line: &PartOnLine) -> Key {
    let mismatch = on_line.mismatch.map(|mismatch| match mismatch {
        Mismatch::Absolute(c) => (true, c.0.to_bits()),
        Mismatch::Share(share) => (false, share.to_bits()),
    });
    let (inductance, resistance) = (on_line.inductance.0, on_line.resistance.0);
    (inductance.to_bits(), resistance.to_bits(), on_line.across, mismatch)
}

fn on_lane(site: &Site<'_>, lane: &Lane, parts: &[Arc<Part>]) -> Result<Vec<PartPick>, Fault> {
    let head = &site.line.head;
    let placed: Vec<Placed> = parts.iter().map(|part| Placed::new(part, lane.differential, head)).collect();
    // Parts that are alike in the circuit share one solution.
    let mut kinds: Vec<(Key, &Arc<Part>, PartOnLine)> = Vec::new();
    for (part, Placed { on_line, .. }) in parts.iter().zip(&placed) {
        for on_line in [*on_line, on_line.and_then(|on_line| split(head, lane, part, on_line))].into_iter().flatten() {
            if kinds.iter().all(|(k, ..)| *k != key(&on_line)) {
                kinds.push((key(&on_line), part, on_line));
            }
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
    let duty = Duty::of_lane(head, lane, false).among(parts);
    let allowed = |on_line: &PartOnLine| {
        let kind = kinds.iter().position(|(k, ..)| *k == key(on_line));
        kind.and_then(|kind| solved.get(kind)).cloned().unwrap_or(IntervalSet::all())
    };
    let judged = parts.par_iter().zip(placed).map(|(part, placed)| {
        let on_line = placed.on_line;
        let mut duty = duty.clone();
        duty.footprint.across = on_line.is_some_and(|on_line| on_line.across);
        let own = on_line.as_ref().map_or(IntervalSet::all(), allowed);
        let mut pick = judge(site, part, placed, &duty, Some(&own), lane.differential);
        let apart = on_line.and_then(|on_line| split(head, lane, part, on_line));
        if pick.fit == Fit::Pair && apart.is_some_and(|apart| within(&allowed(&apart), Some(apart.capacitance))) {
            pick.fit = Fit::Either;
        }
        pick
    });
    Ok(judged.collect())
}

/// A part whose channels do not go into pairs, as it is on a pair that takes one of each of two packages; `None` where the
/// line asks for one package.
fn split(head: &Head, lane: &Lane, part: &Part, on_line: PartOnLine) -> Option<PartOnLine> {
    let one_package = head.demands.needs.channels >= Some(2) || part.across.is_some();
    let odd = lane.differential && channels(part) % 2 == 1;
    (odd && !one_package).then(|| part.in_two_packages(on_line))
}

/// A feed's budget and the peak of its power follow each part.
fn on_feed(site: &Site<'_>, feed: &Feed, parts: &[Arc<Part>]) -> Result<Vec<PartPick>, Fault> {
    let head = &site.line.head;
    parts
        .par_iter()
        .map(|part| {
            let mut feed = feed.clone();
            let placed = Placed::new(part, false, head);
            if let Some(on_line) = &placed.on_line {
                feed.path.fit_part(part, on_line);
            }
            let outcome = size_feed(&feed)?;
            let with = outcome.sized.fitted.as_ref().filter(|_| placed.on_line.is_some());
            let metrics = with.map_or(outcome.sized.absent.band, |fitted| fitted.at.figures.band);
            let duty = Duty::of_feed(head, &feed, metrics.voltage).among(parts);
            Ok(judge(site, part, placed, &duty, Some(&outcome.sized.budget.allowed), false))
        })
        .collect()
}

/// Whether a lane takes two channels of the part.
fn takes_pair(part: &Part, differential: bool) -> bool {
    differential && !part.is_across_alone()
}

/// A part on a line, with what was guessed on the way.
#[derive(Default)]
struct Placed {
    on_line: Option<PartOnLine>,
    guesses: Vec<Note>,
}

impl Placed {
    fn new(part: &Part, differential: bool, head: &Head) -> Placed {
        let Ok(Resolved { value, remarks }) = part_on_line(part, differential, head.voltages()) else {
            return Placed::default();
        };
        Placed { on_line: Some(value), guesses: remarks.iter().map(|remark| remark.note(None)).collect() }
    }
}

/// The line that parts are tried on.
struct Site<'a> {
    line: &'a Line,
    discharges: &'a Discharges,
}

impl Site<'_> {
    /// The line with this part; `None` where no discharge is asked for, or no path is stated.
    fn discharge(&self, part: &Arc<Part>, on_line: Option<PartOnLine>) -> Option<LineDischarge> {
        let demands = &self.line.head.demands;
        let path = self.line.path().filter(|_| demands.contact.is_some() || demands.surge.is_some())?;
        let differential = matches!(&self.line.kind, Kind::Lane(lane) if lane.differential);
        // Nothing limits the capacitance of a rail, and its path takes it.
        let Some(on_line) = on_line.or_else(|| Placed::new(part, differential, &self.line.head).on_line) else {
            let missing = || NotStruck::Missing(part.name.clone(), MissingWord("capacitance"));
            return Some(LineDischarge {
                chip: path.inner_chip().copied().unwrap_or_default(),
                contact: demands.contact.map(|_| Err(missing())),
                surge: demands.surge.map(|_| Err(missing())),
                further_surges: Vec::new(),
            });
        };
        let mut line = self.line.clone();
        line.fit_part(part, &on_line);
        self.discharges.of(&line)
    }
}

/// A part on a line; `allowed` is `None` for a line without limits on its capacitance.
fn judge(
    site: &Site<'_>,
    part: &Arc<Part>,
    Placed { on_line, guesses }: Placed,
    duty: &Duty,
    allowed: Option<&IntervalSet>,
    differential: bool,
) -> PartPick {
    let capacitance = on_line.map(|on_line| on_line.capacitance);
    let needing = allowed.filter(|_| on_line.is_some()).map(|allowed| duty.clone().needing(allowed, capacitance));
    let duty = needing.as_ref().unwrap_or(duty);
    let fitted = Fitted { part: Some(part), path: site.line.path(), ..Fitted::default() };
    let found = line_checks(duty, fitted);
    let first = allowed.map(|allowed| against(allowed, capacitance));
    let fails = fails_already(&found) || first.as_ref().is_some_and(|check| check.verdict == Verdict::Fails);
    let discharge = if fails { None } else { site.discharge(part, on_line) };
    let found: Checks = match &discharge {
        Some(discharge) => line_checks(duty, Fitted { discharge: Some(discharge), ..fitted }),
        None => found,
    };
    let checks: Vec<Check> = first.into_iter().chain(found.checks).collect();
    let fit = Fit::new(passes(&checks), differential, part.is_across_alone());
    let taken = if takes_pair(part, differential) { 2 } else { 1 };
    PartPick {
        capacitance,
        budget: on_line.and(allowed).and_then(first_end),
        cost_per_line: cost_per_line(part.strength.cost, channels(part), taken),
        cautions: found.cautions,
        guesses,
        checks,
        fit,
        at_pin: discharge.as_ref().and_then(left_at_pin),
    }
}

fn against(allowed: &IntervalSet, capacitance: Option<Farad>) -> Check {
    capacitance_check(&allowed.ends(), capacitance.map(|c| c.0))
}

fn within(allowed: &IntervalSet, capacitance: Option<Farad>) -> bool {
    against(allowed, capacitance).verdict == Verdict::Passes
}

/// Channels of a package; 1 where the part states none.
fn channels(part: &Part) -> u32 {
    part.strength.channels.unwrap_or(1)
}

/// The packages of a port: `lines` are the identical lanes of each of its lines and the line with every part.
pub fn port_bill<'a>(lines: impl Iterator<Item = (u32, &'a LinePick)>, parts: &[Arc<Part>]) -> Bill {
    bill_with(lines, parts, |_, _| true)
}

/// The same where each line takes the part recommended for it alone.
pub fn bill_of_recommended<'a>(lines: impl Iterator<Item = (u32, &'a LinePick)>, parts: &[Arc<Part>]) -> Bill {
    bill_with(lines, parts, |line, part| line.choice.recommended == Some(part))
}

fn bill_with<'a>(
    lines: impl Iterator<Item = (u32, &'a LinePick)>,
    parts: &[Arc<Part>],
    may: impl Fn(&LinePick, usize) -> bool,
) -> Bill {
    let fit = |line, (index, part): (usize, &PartPick)| if may(line, index) { part.fit } else { Fit::No };
    let line = |(count, line): (u32, &'a LinePick)| BillLine {
        count,
        fits: line.parts.iter().enumerate().map(|part| fit(line, part)).collect(),
    };
    let lines: Vec<BillLine> = lines.map(line).collect();
    let parts: Vec<BillPart> =
        parts.iter().map(|part| BillPart { channels: channels(part), cost: part.strength.cost }).collect();
    bill(&lines, &parts)
}

fn first_end(allowed: &IntervalSet) -> Option<Farad> {
    let high = allowed.lowest()?.high;
    high.is_finite().then_some(Farad(high))
}
