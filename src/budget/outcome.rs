//! The budget of a lane and its figures absent, fitted and at the budget.

use super::limits::{allowed, first_end};
use super::{Fault, Headroom, IntervalSet, LimitOutcome};
use crate::model::{Lane, LimitKind};
use crate::network::{Chain, ChainPoint, PortPlane};
use crate::response::{LossChanges, LossMetrics};
use crate::units::{Farad, Hertz};

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

/// A lane at one capacitance, at the Nyquist frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// One line to ground, pad excluded.
    pub capacitance: Farad,
    /// Its losses.
    pub metrics: LossMetrics,
    /// What it changes against absent.
    pub changes: LossChanges,
}

/// A lane with its fitted protector.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedOutcome {
    /// The figures.
    pub judged: Judged,
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
    /// With the capacitance the protector states, where it does.
    pub fitted: Option<FittedOutcome>,
    /// With the budget, where there is a finite one.
    pub at_budget: Option<Judged>,
    /// The budget.
    pub budget: Budget,
}

/// Sizes a lane: its figures at Nyquist absent, fitted and at the budget, and the budget.
///
/// # Errors
/// [`Fault`] where the chain overflows at a frequency of a limit, nothing passes it at Nyquist, or a mask would need too
/// many frequencies.
pub fn size_lane(lane: &Lane) -> Result<LaneOutcome, Fault> {
    let chain = Chain::new(lane);
    let [nyquist, bare_nyquist] = at_nyquist(lane, &chain)?;
    let fitted = lane.path.protector().and_then(|p| p.fitted);
    let limits = lane
        .limits
        .iter()
        .map(|limit| LimitOutcome::new(limit, &chain, &nyquist, fitted));
    let limits = limits.collect::<Result<Vec<_>, _>>()?;
    let set = limits.iter().fold(IntervalSet::all(), |set, limit| {
        set.intersect(limit.allowed.intervals())
    });
    let budget = budget(lane, &chain, &bare_nyquist, set, limits)?;
    let fitted = match fitted {
        None => None,
        Some(c) => {
            let headroom: Vec<Headroom> = budget.limits.iter().filter_map(|limit| limit.fitted).collect();
            let holds = headroom.iter().all(|h| h.holds);
            Some(FittedOutcome {
                judged: judge(&nyquist, c)?,
                holds,
                headroom,
            })
        }
    };
    Ok(LaneOutcome {
        port_plane: chain.port_plane(),
        absent: LossMetrics::of(&nyquist.absent),
        fitted,
        at_budget: budget.capacitance.map(|c| judge(&nyquist, c)).transpose()?,
        budget,
    })
}

/// The chain at Nyquist with its footprint and without.
fn at_nyquist(lane: &Lane, chain: &Chain) -> Result<[ChainPoint; 2], Fault> {
    let points = chain.at_both(lane.nyquist());
    let passes = |point: &ChainPoint| point.is_finite() && point.absent.transfer.norm_sqr() > 0.0;
    if points.iter().all(passes) {
        Ok(points)
    } else {
        Err(Fault::NotFinite(lane.nyquist()))
    }
}

fn judge(nyquist: &ChainPoint, capacitance: Farad) -> Result<Judged, Fault> {
    let scattering = nyquist.at(capacitance.0);
    if !scattering.is_finite() {
        return Err(Fault::NotFinite(nyquist.frequency));
    }
    Ok(Judged {
        capacitance,
        metrics: LossMetrics::of(&scattering),
        changes: LossChanges::between(&nyquist.absent, &scattering),
    })
}

fn budget(
    lane: &Lane,
    chain: &Chain,
    bare_nyquist: &ChainPoint,
    set: IntervalSet,
    limits: Vec<LimitOutcome>,
) -> Result<Budget, Fault> {
    let verdict = Verdict::of(&set);
    let capacitance = first_end(&set);
    let lowest = set.lowest().map(|i| Farad(i.low));
    let end_of = |limit: &LimitOutcome, c: f64, upper: bool| {
        let mut ends = limit
            .allowed
            .intervals()
            .iter()
            .map(|i| if upper { i.high } else { i.low });
        ends.position(|end| (end - c).abs() <= TIE * c)
    };
    let setter = |c: f64, upper: bool| limits.iter().find_map(|limit| Some((limit, end_of(limit, c, upper)?)));
    let sets = capacitance.and_then(|c| setter(c.0, true));
    let lowest_set_by = match verdict {
        Verdict::Window => lowest.and_then(|c| setter(c.0, false)).map(|(limit, _)| limit.kind),
        _ => None,
    };
    let spread = lane.path.protector().and_then(|p| p.spread);
    let without_footprint = if chain.has_no_footprint() {
        capacitance
    } else {
        bare_budget(lane, &chain.without_footprint(), bare_nyquist)?
    };
    Ok(Budget {
        verdict,
        capacitance,
        lowest,
        lowest_set_by,
        across_pair: capacitance.filter(|_| lane.differential).map(|c| Farad(c.0 / 2.0)),
        shop_for: capacitance.zip(spread).map(|(c, t)| Farad(c.0 / (1.0 + t))),
        without_footprint,
        set_by: sets.map(|(limit, _)| limit.kind),
        set_at: sets.and_then(|(limit, end)| limit.ends_at.get(end).copied().flatten()),
        allowed: set,
        limits,
    })
}

fn bare_budget(lane: &Lane, chain: &Chain, nyquist: &ChainPoint) -> Result<Option<Farad>, Fault> {
    let mut set = IntervalSet::all();
    for limit in &lane.limits {
        set = set.intersect(allowed(limit, chain, nyquist)?.intervals());
    }
    Ok(first_end(&set))
}
