//! Which settings of a line are examined for its worst case.

use rayon::prelude::*;

use super::descent::descend;
use super::fault::StudyFault;
use super::points::{ALL_VERTICES, beside, inner, some_vertices, vertices};
use super::setting::{Asked, Effort, Judged};
use super::worst::{height, intersection};
use crate::budget::{IntervalSet, Left};
use crate::units::Farad;

/// Points inside the cube, and vertices beyond those by the sign of each value's effect.
const INNER: usize = 256;
const VERTICES: usize = 1024;
/// The same where a setting takes long, and the whole budgets worked out there.
const FEW_INNER: usize = 64;
const FEW_VERTICES: usize = 64;
const WHOLE: usize = 16;
/// How often that is done at most.
const ROUNDS: usize = 3;
/// Bad settings a search starts from; fewer where a line is made anew for each setting.
const STARTS: usize = 10;
const FEW_STARTS: usize = 3;

/// What a search makes as low as it gets.
#[derive(Debug, Clone, Copy)]
enum Goal {
    /// The upper end of the lowest interval from this capacitance up; of one limit, or of all.
    Upper(Option<usize>, f64),
    /// The least capacitance, from below; of one limit, or of all.
    Lower(Option<usize>),
    /// The distance to this limit.
    Margin(usize),
}

impl Goal {
    fn height(self, judged: &Judged) -> f64 {
        let set = |limit: Option<usize>| match limit {
            Some(limit) => judged.sets.get(limit).cloned().unwrap_or(IntervalSet::all()),
            None => judged.sets.iter().fold(IntervalSet::all(), |left, set| left.intersect(set.intervals())),
        };
        match self {
            Goal::Upper(limit, from) => {
                let set = set(limit);
                let lowest = set.intervals().iter().find(|interval| interval.high >= from);
                lowest.map_or(f64::NEG_INFINITY, |interval| interval.high)
            }
            Goal::Lower(limit) => set(limit).lowest().map_or(f64::NEG_INFINITY, |lowest| -lowest.low),
            Goal::Margin(limit) => judged.headroom.get(limit).map_or(f64::INFINITY, height),
        }
    }
}

/// What is asked at a point.
type Ask<'f> = &'f (dyn Fn(&mut Asked<'_>, &[f64]) -> Result<Judged, StudyFault> + Sync);

/// The settings examined for the worst case, the one of the sheet first.
///
/// # Errors
/// A setting at which the line cannot be computed.
pub(super) fn examine(asked: &Asked<'_>, effort: Effort) -> Result<Vec<Judged>, StudyFault> {
    let nominal = asked.varying.nominal();
    let first = asked.clone().judge(&nominal)?;
    if effort == Effort::Time {
        return in_time(asked, first);
    }
    let judge: Ask<'_> = &|asked, point| asked.judge(point);
    let starts = if asked.is_fast() { STARTS } else { FEW_STARTS };
    let (limits, directions) = (first.sets.len(), nominal.len());
    let margins = (0..first.headroom.len()).map(Goal::Margin);
    let uppers = || (0..limits).map(Some).chain([None]).map(|limit| Goal::Upper(limit, 0.0));
    let mut examined = vec![first];
    let mut points = inner(directions, INNER);
    if directions <= ALL_VERTICES {
        points.extend(vertices(directions));
    } else {
        points.extend(some_vertices(directions, VERTICES));
        let around = each(asked, beside(&nominal), judge)?;
        points.extend(margins.clone().chain(uppers()).map(|goal| worse_vertex(&around, goal)));
        examined.extend(around);
    }
    examined.extend(each(asked, points, judge)?);
    // The upper end is looked for above the lower one, so that goes first.
    let from = |examined: &[Judged], limit| {
        let lows = examined.iter().map(|judged| -Goal::Lower(limit).height(judged));
        lows.filter(|low| low.is_finite()).fold(0.0, f64::max)
    };
    let windows = (0..limits).map(Some).chain([None]).filter(|limit| from(&examined, *limit) > 0.0);
    let goals: Vec<Goal> = windows.map(Goal::Lower).chain(margins).collect();
    examined.extend(search(asked, &examined, &goals, starts, judge)?);
    let above = |limit| Goal::Upper(limit, from(&examined, limit));
    let goals: Vec<Goal> = (0..limits).map(Some).chain([None]).map(above).collect();
    examined.extend(search(asked, &examined, &goals, starts, judge)?);
    Ok(examined)
}

/// As [`examine`], where a setting takes long: by the distance to the limits of what is fitted, or else of the budget at the
/// values of the sheet, and whole budgets at the worst settings alone; then again by the distance of what those left, at both
/// ends, until that stands.
fn in_time(asked: &Asked<'_>, first: Judged) -> Result<Vec<Judged>, StudyFault> {
    let limits = first.sets.len();
    let fitted = !first.headroom.is_empty();
    let mut examined = vec![first];
    let mut looked = Vec::new();
    if fitted {
        let (own, whole) = at_margins(asked, &examined[0].point, limits, None)?;
        examined.extend(whole);
        looked = own;
    }
    let mut known = (f64::NAN, f64::NAN);
    for _ in 0..ROUNDS {
        let left = Left::of(intersection(&examined, limits).iter());
        let (high, low) = (left.capacitance.map(|c| c.0), left.lowest.map(|c| c.0).filter(|low| *low > 0.0));
        let ends = (high.unwrap_or(f64::INFINITY), low.unwrap_or(0.0));
        if ends == known {
            break;
        }
        known = ends;
        let point = examined[0].point.clone();
        for c in [high, low].into_iter().flatten() {
            examined.extend(at_margins(asked, &point, limits, Some(Farad(c)))?.1);
        }
        if high.is_none() && low.is_none() && !fitted {
            examined.extend(at_margins(asked, &point, limits, Some(Farad(0.0)))?.1);
        }
    }
    examined.extend(looked);
    Ok(examined)
}

/// The settings looked at for the distance of what is fitted, or else of `c`, to each limit; and what the limits allow at the
/// worst of them.
fn at_margins(
    asked: &Asked<'_>,
    nominal: &[f64],
    limits: usize,
    c: Option<Farad>,
) -> Result<(Vec<Judged>, Vec<Judged>), StudyFault> {
    let quick: Ask<'_> = &|asked, point| asked.headroom(point, c);
    let directions = nominal.len();
    let margins: Vec<Goal> = (0..limits).map(Goal::Margin).collect();
    let mut points = inner(directions, FEW_INNER);
    let mut looked = each(asked, beside(nominal), quick)?;
    if directions <= FEW_VERTICES.ilog2() as usize {
        points.extend(vertices(directions));
    } else {
        for goal in &margins {
            // Every value at its worse end, and the other way round: reflections may add up at either.
            let worse = worse_vertex(&looked, *goal);
            points.push(worse.iter().map(|end| 1.0 - end).collect());
            points.push(worse);
        }
        points.extend(some_vertices(directions, FEW_VERTICES));
    }
    looked.extend(each(asked, points, quick)?);
    looked.extend(search(asked, &looked, &margins, FEW_STARTS, quick)?);
    let mut worst: Vec<Vec<f64>> = Vec::new();
    let ranked: Vec<Vec<usize>> = margins.iter().map(|goal| by_height(&looked, *goal)).collect();
    for rank in 0..looked.len() {
        for order in &ranked {
            let point = &looked[order[rank]].point;
            if worst.len() < WHOLE && !worst.contains(point) {
                worst.push(point.clone());
            }
        }
    }
    let whole = each(asked, worst, &|asked, point| asked.judge(point))?;
    Ok((looked, whole))
}

/// What is known at each of these points, in parallel.
fn each(asked: &Asked<'_>, points: Vec<Vec<f64>>, ask: Ask<'_>) -> Result<Vec<Judged>, StudyFault> {
    points.into_par_iter().map_init(|| asked.clone(), |asked, point| ask(asked, &point)).collect()
}

/// Every point that a search for each of these goals asks about, from the worst `starts` known.
fn search(
    asked: &Asked<'_>,
    known: &[Judged],
    goals: &[Goal],
    starts: usize,
    ask: Ask<'_>,
) -> Result<Vec<Judged>, StudyFault> {
    let mut jobs: Vec<(Goal, &Judged)> = Vec::new();
    for goal in goals {
        let mut from: Vec<&Judged> = Vec::with_capacity(starts);
        for index in by_height(known, *goal) {
            let judged = &known[index];
            let new = from.iter().all(|other| other.point != judged.point) && goal.height(judged) < f64::INFINITY;
            if new && from.len() < starts {
                from.push(judged);
            }
            if from.len() == starts {
                break;
            }
        }
        jobs.extend(from.into_iter().map(|start| (*goal, start)));
    }
    let found: Result<Vec<Vec<Judged>>, StudyFault> = jobs
        .into_par_iter()
        .map_init(
            || asked.clone(),
            |asked, (goal, start)| {
                let mut seen = Vec::new();
                descend(&start.point, goal.height(start), |point| {
                    let judged = ask(asked, point)?;
                    let height = goal.height(&judged);
                    seen.push(judged);
                    Ok::<_, StudyFault>(height)
                })?;
                Ok(seen)
            },
        )
        .collect();
    Ok(found?.into_iter().flatten().collect())
}

/// The indices of what is known, the lowest first.
fn by_height(known: &[Judged], goal: Goal) -> Vec<usize> {
    let heights: Vec<f64> = known.iter().map(|judged| goal.height(judged)).collect();
    let mut order: Vec<usize> = (0..known.len()).collect();
    order.sort_by(|a, b| heights[*a].total_cmp(&heights[*b]));
    order
}

/// The vertex at which each value has the worse of its two ends; `around` are the points of [`beside`].
fn worse_vertex(around: &[Judged], goal: Goal) -> Vec<f64> {
    let worse = |pair: &[Judged]| match pair {
        [low, high] if goal.height(low) < goal.height(high) => 0.0,
        _ => 1.0,
    };
    around.chunks(2).map(worse).collect()
}
