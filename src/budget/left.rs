//! What all limits of a line leave together.

use super::judged::{LimitOutcome, first_end};
use super::{IntervalSet, Verdict};
use crate::figures::Figure;
use crate::units::{Farad, Hertz};

/// Relative distance of two bounds that counts as a tie.
const TIE: f64 = 1e-9;

/// The largest capacitance and what sets it.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// What the limits leave.
    pub verdict: Verdict,
    /// Upper end of the lowest allowed interval, one line to ground, pad excluded; `None` where open or impossible.
    pub capacitance: Option<Farad>,
    /// The least allowed capacitance, 0 unless a window; `None` where impossible.
    pub lowest: Option<Farad>,
    /// The figure whose limit sets the lower end of a window.
    pub lowest_set_by: Option<&'static Figure>,
    /// The budget bought across the pair: half of it. Differential lanes only.
    pub across_pair: Option<Farad>,
    /// The typical value to look for, C/(1 + t), where a spread t is stated.
    pub shop_for: Option<Farad>,
    /// The budget with pad, stub and ground inductance taken as zero.
    pub without_footprint: Option<Farad>,
    /// The figure whose own limit ends at the budget; on a tie the first in sheet order.
    pub set_by: Option<&'static Figure>,
    /// The binding frequency, where that limit is a mask.
    pub set_at: Option<Hertz>,
    /// Every allowed capacitance.
    pub allowed: IntervalSet,
    /// Each limit by itself, in sheet order.
    pub limits: Vec<LimitOutcome>,
}

impl Budget {
    /// What the limits leave of a line; `spread` is that of its capacitance.
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
            Verdict::Window => lowest.and_then(|c| setter(c.0, false)).map(|(limit, _)| limit.figure),
            _ => None,
        };
        Budget {
            verdict,
            capacitance,
            lowest,
            lowest_set_by,
            across_pair: None,
            shop_for: capacitance.zip(spread).map(|(c, t)| Farad(c.0 / (1.0 + t))),
            without_footprint: None,
            set_by: sets.map(|(limit, _)| limit.figure),
            set_at: sets.and_then(|(limit, end)| limit.ends_at.get(end).copied().flatten()),
            allowed: set,
            limits,
        }
    }
}
