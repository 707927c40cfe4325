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
        let Left { verdict, capacitance, lowest, set_by, lowest_set_by, allowed } =
            Left::of(limits.iter().map(|limit| &limit.allowed));
        let figure = |(limit, _): (usize, usize)| limits.get(limit).map(|limit| limit.figure);
        let set_at = set_by.and_then(|(limit, end)| limits.get(limit)?.ends_at.get(end).copied().flatten());
        Budget {
            verdict,
            capacitance,
            lowest,
            lowest_set_by: lowest_set_by.and_then(figure),
            across_pair: None,
            shop_for: capacitance.zip(spread).map(|(c, t)| Farad(c.0 / (1.0 + t))),
            without_footprint: None,
            set_by: set_by.and_then(figure),
            set_at,
            allowed,
            limits,
        }
    }
}

/// What the sets of several limits leave together.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// In one of five ways.
    pub verdict: Verdict,
    /// Upper end of the lowest interval; `None` where open or impossible.
    pub capacitance: Option<Farad>,
    /// The least capacitance; `None` where impossible.
    pub lowest: Option<Farad>,
    /// Whose own set ends there, by its index, and with which of its intervals; on a tie the first.
    pub set_by: Option<(usize, usize)>,
    /// The same of the lower end of a window.
    pub lowest_set_by: Option<(usize, usize)>,
    /// Every allowed capacitance.
    pub allowed: IntervalSet,
}

impl Left {
    /// What these leave.
    pub fn of<'s>(sets: impl Iterator<Item = &'s IntervalSet> + Clone) -> Left {
        let allowed = sets.clone().fold(IntervalSet::all(), |left, set| left.intersect(set.intervals()));
        let verdict = Verdict::of(&allowed);
        let capacitance = first_end(&allowed);
        let lowest = allowed.lowest().map(|i| Farad(i.low));
        let end_of = |set: &IntervalSet, c: f64, upper: bool| {
            let mut ends = set.intervals().iter().map(|i| if upper { i.high } else { i.low });
            ends.position(|end| (end - c).abs() <= TIE * c)
        };
        let setter = |c: Farad, upper: bool| {
            sets.clone().enumerate().find_map(|(index, set)| Some((index, end_of(set, c.0, upper)?)))
        };
        let lowest_set_by = lowest.filter(|_| verdict == Verdict::Window).and_then(|c| setter(c, false));
        let set_by = capacitance.and_then(|c| setter(c, true));
        Left { verdict, capacitance, lowest, set_by, lowest_set_by, allowed }
    }
}
