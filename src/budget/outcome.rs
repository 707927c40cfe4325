//! The budget of a lane and its figures absent, fitted and at the budget.

use super::limits::{Circuit, allowed, first_end};
use super::timed::worst_eye_penalty;
use super::{Fault, Headroom, IntervalSet, LimitOutcome};
use crate::model::{Lane, LimitKind};
use crate::network::{Chain, ChainPoint, PortPlane};
use crate::response::{Case, LossChanges, LossMetrics, NotSettled, Pair, TimeMetrics, lane_droop};
use crate::units::{Farad, Hertz, Second};

/// Relative distance of two bounds that counts as a tie.
const TIE: f64 = 1e-9;

/// What the limits leave.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// 0 is allowed, up to the budget.
    Bounded,
    /// 0 is not allowed, but an interval above it is.
    Window,
    /// Every capacitance is allowed.
    Unbounded,
    /// No capacitance is allowed.
    Impossible,
}

impl Verdict {
    /// The word of the results.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Bounded => "bounded",
            Verdict::Window => "window",
            Verdict::Unbounded => "unbounded",
            Verdict::Impossible => "impossible",
        }
    }

    fn of(set: &IntervalSet) -> Self {
        match set.lowest() {
            None => Verdict::Impossible,
            Some(_) if set.is_all() => Verdict::Unbounded,
            Some(lowest) if lowest.low == 0.0 => Verdict::Bounded,
            Some(_) => Verdict::Window,
        }
    }
}

/// The largest capacitance and what sets it.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// What the limits leave.
    pub verdict: Verdict,
    /// Upper end of the lowest allowed interval, one line to ground, pad excluded; `None` where open or impossible.
    pub capacitance: Option<Farad>,
    /// The least allowed capacitance, 0 unless a window; `None` where impossible.
    pub lowest: Option<Farad>,
    /// The limit that sets the lower end of a window.
    pub lowest_set_by: Option<LimitKind>,
    /// The budget bought across the pair: half of it. Differential lanes only.
    pub across_pair: Option<Farad>,
    /// The typical value to look for, C/(1 + t), where a spread t is stated.
    pub shop_for: Option<Farad>,
    /// The budget with pad, stub and ground inductance taken as zero.
    pub without_footprint: Option<Farad>,
    /// The limit whose own set ends at the budget; on a tie the first in sheet order.
    pub set_by: Option<LimitKind>,
    /// The binding frequency, where that limit is a mask.
    pub set_at: Option<Hertz>,
    /// Every allowed capacitance.
    pub allowed: IntervalSet,
    /// Each limit by itself, in sheet order.
    pub limits: Vec<LimitOutcome>,
}

impl<J> FittedOutcome<J> {
    /// The verdict of the limits at the fitted capacitance, whose figures are `judged`.
    pub(super) fn new(judged: J, limits: &[LimitOutcome]) -> Self {
        let headroom: Vec<Headroom> = limits.iter().filter_map(|limit| limit.fitted).collect();
        FittedOutcome { judged, holds: headroom.iter().all(|h| h.holds), headroom }
    }
}

/// A lane at one capacitance, at the Nyquist frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// One line to ground, pad excluded.
    pub capacitance: Farad,
    /// Its losses.
    pub metrics: LossMetrics,
    /// What it changes against absent.
    pub changes: LossChanges,
    /// Its time domain.
    pub time: TimeMetrics,
    /// What changes there.
    pub time_changes: TimeChanges,
    /// How unlike the two lines of its pair are, where the part states a mismatch.
    pub unlike: Option<Unlike>,
}

/// What a capacitance changes against absent, in the time domain.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TimeChanges {
    /// 1 − EH/EH(absent); `None` where the eye is closed before the protector.
    pub worst_eye_penalty: Option<f64>,
    /// Added 10–90 % rise time.
    pub added_rise: Option<Second>,
}

/// A pair whose lines have different capacitances, at the Nyquist frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unlike {
    /// 20 log10 |S_cd21|; `None` for a perfectly symmetric pair.
    pub conversion: Option<f64>,
    /// Difference of the phase delays.
    pub skew: Second,
}

/// Which figures are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figures {
    /// Those at the Nyquist frequency, and whatever the limits ask for.
    Nyquist,
    /// The time domain as well.
    All,
}

/// A line with its fitted protector; `J` are its figures.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedOutcome<J = Judged> {
    /// The figures.
    pub judged: J,
    /// Whether every limit holds.
    pub holds: bool,
    /// The distance to each limit, in sheet order.
    pub headroom: Vec<Headroom>,
}

/// Everything the limits of a lane say about the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneOutcome {
    /// Where the return loss is seen.
    pub port_plane: PortPlane,
    /// Without protector and footprint, at the Nyquist frequency.
    pub absent: LossMetrics,
    /// The same in the time domain.
    pub absent_time: TimeMetrics,
    /// A figure of the time domain that does not settle and is left out.
    pub not_settled: Option<NotSettled>,
    /// Droop of the path's series capacitances over a run of five symbols.
    pub droop: Option<f64>,
    /// With the capacitance the protector states, where it does.
    pub fitted: Option<FittedOutcome>,
    /// With the budget, where there is a finite one.
    pub at_budget: Option<Judged>,
    /// The budget.
    pub budget: Budget,
}

/// Sizes a lane: its figures absent, fitted and at the budget, and the budget.
///
/// # Errors
/// [`Fault`] where the chain overflows at a frequency of a limit, nothing passes it at Nyquist, a mask would need too
/// many frequencies, or a figure that a limit asks for does not settle.
pub fn size_lane(lane: &Lane, figures: Figures) -> Result<LaneOutcome, Fault> {
    let chain = Chain::new(lane);
    let [nyquist, bare_nyquist] = at_nyquist(lane, &chain)?;
    let mut circuit = Circuit::new(lane, &chain, &nyquist);
    let fitted = lane.path.protector().and_then(|p| p.fitted);
    let mut limits = Vec::with_capacity(lane.limits.len());
    for limit in &lane.limits {
        limits.push(LimitOutcome::new(limit, &mut circuit, fitted)?);
    }
    let spread = lane.path.protector().and_then(|p| p.spread);
    let mut budget = Budget::new(limits, spread);
    budget.across_pair = budget.capacitance.filter(|_| lane.differential).map(|c| Farad(c.0 / 2.0));
    if !chain.has_no_footprint() {
        budget.without_footprint = bare_budget(lane, &chain.without_footprint(), &bare_nyquist)?;
    }
    let (absent_time, mut not_settled) = time_metrics(&mut circuit, figures, Case::Absent);
    let mut judge = |c: Farad| -> Result<Judged, Fault> {
        let mut judged = judge(lane, &nyquist, c)?;
        let (time, fault) = time_metrics(&mut circuit, figures, Case::With(c.0));
        not_settled = not_settled.or(fault);
        judged.time = time;
        judged.time_changes = TimeChanges {
            worst_eye_penalty: worst_eye_penalty(absent_time.eye_height, time.eye_height),
            added_rise: time.rise.zip(absent_time.rise).map(|(with, absent)| Second(with - absent)),
        };
        Ok(judged)
    };
    let fitted = fitted.map(|c| judge(c).map(|judged| FittedOutcome::new(judged, &budget.limits))).transpose()?;
    let at_budget = budget.capacitance.map(&mut judge).transpose()?;
    Ok(LaneOutcome {
        port_plane: chain.port_plane(),
        absent: LossMetrics::of(&nyquist.absent),
        absent_time,
        not_settled,
        droop: lane_droop(lane, &chain),
        fitted,
        at_budget,
        budget,
    })
}

fn time_metrics(circuit: &mut Circuit<'_>, figures: Figures, case: Case) -> (TimeMetrics, Option<NotSettled>) {
    match figures {
        Figures::Nyquist => (TimeMetrics::default(), None),
        Figures::All => circuit.time().metrics(case),
    }
}

/// The chain at Nyquist with its footprint and without.
fn at_nyquist(lane: &Lane, chain: &Chain) -> Result<[ChainPoint; 2], Fault> {
    let points = chain.at_both(lane.nyquist());
    let passes = |point: &ChainPoint| point.is_finite() && point.absent.transfer.norm_sqr() > 0.0;
    if points.iter().all(passes) { Ok(points) } else { Err(Fault::NotFinite(lane.nyquist())) }
}

fn judge(lane: &Lane, nyquist: &ChainPoint, capacitance: Farad) -> Result<Judged, Fault> {
    let scattering = nyquist.at(capacitance.0);
    if !scattering.is_finite() {
        return Err(Fault::NotFinite(nyquist.frequency));
    }
    Ok(Judged {
        capacitance,
        metrics: LossMetrics::of(&scattering),
        changes: LossChanges::between(&nyquist.absent, &scattering),
        time: TimeMetrics::default(),
        time_changes: TimeChanges::default(),
        unlike: lane.path.protector().and_then(|p| p.mismatch).map(|mismatch| {
            let pair = Pair::new(&nyquist.s21, capacitance.0, mismatch.at(capacitance.0));
            Unlike { conversion: pair.conversion_db(), skew: Second(pair.skew_s(nyquist.frequency.0)) }
        }),
    })
}

impl Budget {
    /// What the limits leave of a single-ended line without a footprint; `spread` is that of the capacitance.
    pub(super) fn new(limits: Vec<LimitOutcome>, spread: Option<f64>) -> Self {
        let set = limits.iter().fold(IntervalSet::all(), |set, limit| set.intersect(limit.allowed.intervals()));
        let verdict = Verdict::of(&set);
        let capacitance = first_end(&set);
        let lowest = set.lowest().map(|i| Farad(i.low));
        let end_of = |limit: &LimitOutcome, c: f64, upper: bool| {
            let mut ends = limit.allowed.intervals().iter().map(|i| if upper { i.high } else { i.low });
            ends.position(|end| (end - c).abs() <= TIE * c)
        };
        let setter = |c: f64, upper: bool| limits.iter().find_map(|limit| Some((limit, end_of(limit, c, upper)?)));
        let sets = capacitance.and_then(|c| setter(c.0, true));
        let lowest_set_by = match verdict {
            Verdict::Window => lowest.and_then(|c| setter(c.0, false)).map(|(limit, _)| limit.kind),
            _ => None,
        };
        Budget {
            verdict,
            capacitance,
            lowest,
            lowest_set_by,
            across_pair: None,
            shop_for: capacitance.zip(spread).map(|(c, t)| Farad(c.0 / (1.0 + t))),
            without_footprint: capacitance,
            set_by: sets.map(|(limit, _)| limit.kind),
            set_at: sets.and_then(|(limit, end)| limit.ends_at.get(end).copied().flatten()),
            allowed: set,
            limits,
        }
    }
}

fn bare_budget(lane: &Lane, chain: &Chain, nyquist: &ChainPoint) -> Result<Option<Farad>, Fault> {
    Ok(first_end(&allowed_by_all(lane, chain, nyquist)?))
}

/// Every capacitance that all limits of a lane allow, and nothing else of [`size_lane`].
///
/// # Errors
/// As [`size_lane`].
pub fn allowed_capacitances(lane: &Lane) -> Result<IntervalSet, Fault> {
    let chain = Chain::new(lane);
    let [nyquist, _] = at_nyquist(lane, &chain)?;
    allowed_by_all(lane, &chain, &nyquist)
}

fn allowed_by_all(lane: &Lane, chain: &Chain, nyquist: &ChainPoint) -> Result<IntervalSet, Fault> {
    let mut circuit = Circuit::new(lane, chain, nyquist);
    let mut set = IntervalSet::all();
    for limit in &lane.limits {
        set = set.intersect(allowed(limit, &mut circuit)?.intervals());
    }
    Ok(set)
}
