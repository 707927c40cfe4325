//! The worst case of a line: what its limits allow at every setting examined.

use super::setting::Judged;
use super::values::Varying;
use crate::budget::{Headroom, IntervalSet, Left, Verdict};
use crate::figures::Figure;
use crate::units::Farad;

/// What the limits of a line allow at every setting examined.
#[derive(Debug, Clone, PartialEq)]
pub struct Worst {
    /// What the limits leave.
    pub verdict: Verdict,
    /// Upper end of the lowest interval; `None` where open or impossible.
    pub capacitance: Option<Farad>,
    /// The least allowed capacitance; `None` where impossible.
    pub lowest: Option<Farad>,
    /// The limit whose own set ends at the capacitance; on a tie the first in sheet order.
    pub set_by: Option<&'static Figure>,
    /// The limit that sets the lower end of a window.
    pub lowest_set_by: Option<&'static Figure>,
    /// Every allowed capacitance.
    pub allowed: IntervalSet,
    /// The values of a setting whose own set ends at the capacitance, in the order of [`Varying::places`]; where nothing is
    /// allowed, of one at which nothing is.
    pub setting: Option<Vec<f64>>,
    /// Those of one whose own set ends at the lower end of a window.
    pub lowest_setting: Option<Vec<f64>>,
    /// Each limit by itself, in sheet order.
    pub limits: Vec<WorstLimit>,
    /// What is fitted, against each limit; `None` where nothing is.
    pub fitted: Option<WorstFitted>,
}

/// The worst case of one limit by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstLimit {
    /// What is bounded.
    pub figure: &'static Figure,
    /// What it leaves.
    pub verdict: Verdict,
    /// Upper end of its lowest interval.
    pub capacitance: Option<Farad>,
    /// The capacitances it allows at every setting examined.
    pub allowed: IntervalSet,
    /// The values of its worst setting, as in [`Worst::setting`].
    pub setting: Option<Vec<f64>>,
}

/// What is fitted, at its worst.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstFitted {
    /// Whether every limit holds at every setting examined.
    pub holds: bool,
    /// Each limit, in sheet order.
    pub limits: Vec<WorstHeadroom>,
}

/// The least distance of what is fitted to one limit.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstHeadroom {
    /// What is bounded.
    pub figure: &'static Figure,
    /// Whether it holds at every setting examined.
    pub holds: bool,
    /// The least distance, as in [`Headroom::margin`].
    pub margin: Option<f64>,
    /// The values at which it is least.
    pub setting: Vec<f64>,
}

impl Worst {
    /// That of these settings; `figures` are those the limits bound. The headroom is that of what is fitted where `fitted`.
    pub(super) fn of(varying: &Varying, figures: &[&'static Figure], examined: &[Judged], fitted: bool) -> Worst {
        let values = |judged: &Judged| varying.at(&judged.point).collect::<Vec<f64>>();
        let sets = intersection(examined, figures.len());
        let left = Left::of(sets.iter());
        // An end of an intersection is an end of one of the sets, to the last digit.
        let ends_at = |judged: &&Judged, limits: &mut dyn Iterator<Item = usize>, c: f64, upper: bool| {
            let mut ends = limits.filter_map(|limit| judged.sets.get(limit)).flat_map(IntervalSet::intervals);
            ends.any(|interval| c == if upper { interval.high } else { interval.low })
        };
        let whole =
            |judged: &Judged| judged.sets.iter().fold(IntervalSet::all(), |l, set| l.intersect(set.intervals()));
        let of = |limits: std::ops::Range<usize>, left: &Left| {
            let found = match left.capacitance {
                Some(c) => examined.iter().find(|judged| ends_at(judged, &mut limits.clone(), c.0, true)),
                None if left.verdict == Verdict::Impossible && limits.len() == 1 => examined.iter().find(|judged| {
                    limits.clone().any(|limit| judged.sets.get(limit).is_some_and(IntervalSet::is_empty))
                }),
                None if left.verdict == Verdict::Impossible => {
                    examined.iter().filter(|judged| !judged.sets.is_empty()).find(|judged| whole(judged).is_empty())
                }
                None => None,
            };
            found.map(values)
        };
        let limits = figures.iter().zip(sets.iter().enumerate()).map(|(figure, (limit, set))| {
            let own = Left::of(std::iter::once(set));
            let setting = of(limit..limit + 1, &own);
            WorstLimit { figure, verdict: own.verdict, capacitance: own.capacitance, allowed: own.allowed, setting }
        });
        let lowest = left.lowest.filter(|_| left.verdict == Verdict::Window);
        let each = 0..figures.len();
        let by = |found: Option<(usize, usize)>| found.and_then(|(limit, _)| figures.get(limit).copied());
        Worst {
            limits: limits.collect(),
            setting: of(each.clone(), &left),
            lowest_setting: lowest
                .and_then(|c| examined.iter().find(|judged| ends_at(judged, &mut each.clone(), c.0, false)))
                .map(values),
            set_by: by(left.set_by),
            lowest_set_by: by(left.lowest_set_by),
            fitted: fitted.then(|| WorstFitted::of(figures, examined, values)),
            verdict: left.verdict,
            capacitance: left.capacitance,
            lowest: left.lowest,
            allowed: left.allowed,
        }
    }

    /// Whether what is fitted holds at every setting examined; with nothing fitted, whether the line needs no protector to
    /// keep its limits at any, and has room for one.
    pub fn passes(&self) -> bool {
        match &self.fitted {
            Some(fitted) => fitted.holds,
            None => !matches!(self.verdict, Verdict::Window | Verdict::Impossible),
        }
    }
}

impl WorstFitted {
    fn of(figures: &[&'static Figure], examined: &[Judged], values: impl Fn(&Judged) -> Vec<f64>) -> WorstFitted {
        let worst = |(limit, figure): (usize, &&'static Figure)| {
            let known = examined.iter().filter_map(|judged| Some((judged, judged.headroom.get(limit)?)));
            let (judged, least) = known.min_by(|(_, a), (_, b)| height(a).total_cmp(&height(b)))?;
            let holds = examined.iter().filter_map(|judged| judged.headroom.get(limit)).all(|headroom| headroom.holds);
            Some(WorstHeadroom { figure, holds, margin: least.margin, setting: values(judged) })
        };
        let limits: Vec<WorstHeadroom> = figures.iter().enumerate().filter_map(worst).collect();
        WorstFitted { holds: limits.iter().all(|limit| limit.holds), limits }
    }
}

/// The margin, one that is broken beyond any number lowest and a perfect match highest.
pub(super) fn height(headroom: &Headroom) -> f64 {
    headroom.margin.unwrap_or(if headroom.holds { f64::INFINITY } else { f64::NEG_INFINITY })
}

/// What each limit allows at every setting whose whole sets are known.
pub(super) fn intersection(examined: &[Judged], limits: usize) -> Vec<IntervalSet> {
    let of = |limit: usize| {
        let sets = examined.iter().filter_map(move |judged| judged.sets.get(limit));
        sets.fold(IntervalSet::all(), |left, set| left.intersect(set.intervals()))
    };
    (0..limits).map(of).collect()
}
