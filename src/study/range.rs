//! The values of one address for which a line holds with what is fitted.

use rayon::prelude::*;

use super::held::{Best, Breaks, End, Holding, NoRange};
use super::sensitivity::is_capacitance;
use super::sweep::Over;
use crate::budget::{Budget, Fault, Interval, Verdict, budget_of};
use crate::model::{Address, AddressedValue, Line, Owner, ValueName};
use crate::parts::{self, Discharges, discharge_checks};
use crate::resolve::{least_place, place_at_protector};
use crate::units::Farad;

/// Values looked at, evenly, beside the stated one; a discharge is looked at at every so many of them.
const VALUES: u32 = 400;
const STRIDE: usize = 8;
/// Halvings of what an end lies in, and sections of what the best value lies in.
const HALVINGS: usize = 60;
const SECTIONS: usize = 40;
/// How closely the best value is known, of the range it lies in.
const BEST: f64 = 1e-7;
/// Budgets that differ by less than this share are alike.
const ALIKE: f64 = 1e-9;

/// From where to where a value of a line is searched for, where that is not asked for: what the traces allow of a place or of
/// a neck; otherwise from 0, or a tenth of the value where 0 is not allowed, to ten times the value.
pub fn usual_range(line: &Line, of: &AddressedValue) -> Option<(f64, f64)> {
    let traces = || place_at_protector(line.path()?);
    match of.address.value {
        ValueName::Place => {
            let least = line.path().map_or(0.0, |path| least_place(path).0);
            traces().map(|(_, sum)| (least, sum.0 - least))
        }
        ValueName::NeckLength => traces().map(|(outer, sum)| (0.0, outer.0.min(sum.0 - outer.0))),
        _ => {
            let value = of.nominal.filter(|value| *value > 0.0)?;
            let low = if of.range.low <= 0.0 { 0.0 } else { (value / 10.0).max(of.range.low) };
            Some((low, (10.0 * value).min(of.range.high)))
        }
    }
}

/// Whether a value is the protector's own capacitance: its set is that of the budget.
pub fn is_budget(line: &Line, of: &Address) -> bool {
    matches!(of.owner, Owner::Element(_)) && is_capacitance(line, of)
}

/// The values of one address for which a line holds with what is fitted: its limits, and the checks of what a discharge
/// leaves where one is stated. `of` is searched between its two ends; the protector's own capacitance everywhere where
/// `all` is set.
///
/// 401 values, evenly, and the stated one are looked at: an interval narrower than 1/400 of the range may be missed; what a
/// discharge leaves is looked at at every eighth of them and wherever the limits begin or cease to hold. Ends are
/// halved down to 1e-6 of themselves where the limit is exact at its frequency, 1e-4 where it is a search in time or a
/// discharge. The set of the protector's own capacitance is that of the budget.
///
/// # Errors
/// [`NoRange`] where the line is a rail or nothing is fitted; [`Fault`] where the line as stated cannot be computed.
pub fn holding(line: &Line, of: &Over, all: bool) -> Result<Result<Holding, NoRange>, Fault> {
    let fitted = line.fitted();
    let Some(stated) = budget_of(line, fitted)? else { return Ok(Err(NoRange::NoLimits)) };
    if is_budget(line, &of.of.address) {
        let to = Some(of.to).filter(|_| !all);
        return Ok(Ok(of_budget(&stated, fitted, (if all { 0.0 } else { of.from }, to))));
    }
    if fitted.is_none() {
        return Ok(Err(NoRange::NothingFitted));
    }
    let demands = &line.head.demands;
    let discharges = Discharges::default();
    let struck = (demands.contact.is_some() || demands.surge.is_some()).then(|| {
        let discharge = discharges.of(line);
        discharge.is_some_and(|discharge| discharge.struck().is_some() || discharge.surged().is_some())
    });
    let search = Search { line, address: &of.of.address, discharges, struck };
    Ok(Ok(search.run(of, fitted)))
}

/// The set of a budget within what is searched.
fn of_budget(budget: &Budget, fitted: Option<Farad>, (from, to): (f64, Option<f64>)) -> Holding {
    let most = to.unwrap_or(f64::INFINITY);
    let set = budget.allowed.intersect(&[Interval { low: from, high: most }]);
    let beyond = |c: f64| budget.limits.iter().find(|limit| !limit.allowed.contains(c)).map(|limit| limit.figure);
    let end = |value: f64, away: f64| {
        let figure = [1e-9, 1e-6].iter().find_map(|share| beyond(value * (1.0 + away * share)));
        figure.map(|figure| End { value, breaks: Breaks::Limit(figure) })
    };
    let mut ends = Vec::new();
    for interval in set.intervals() {
        ends.extend(end(interval.low, -1.0).filter(|_| interval.low > from));
        ends.extend(end(interval.high, 1.0).filter(|_| interval.high < most));
    }
    let breaks = fitted.and_then(|fitted| beyond(fitted.0)).map(Breaks::Limit);
    let verdict = budget.verdict;
    let best = budget.capacitance.map(|budget| Best { value: budget.0, budget, verdict, window_beyond: false });
    Holding { fitted, searched: (from, to), intervals: set.ends(), ends, best, breaks, struck: None }
}

/// A line whose value is searched.
struct Search<'a> {
    line: &'a Line,
    address: &'a Address,
    discharges: Discharges,
    struck: Option<bool>,
}

/// A line at one value, by its limits.
#[derive(Clone)]
struct Seen {
    value: f64,
    breaks: Option<Breaks>,
    left: Option<(Verdict, Farad)>,
}

impl Search<'_> {
    fn run(&self, of: &Over, fitted: Option<Farad>) -> Holding {
        let mut values = of.values(VALUES);
        values.extend(of.of.nominal.filter(|value| of.from < *value && *value < of.to));
        values.sort_by(f64::total_cmp);
        values.dedup();
        let limited: Vec<Seen> = values.into_par_iter().map(|value| self.limited(value).0).collect();
        let seen = if self.struck == Some(true) { self.struck_among(&limited, of.of.nominal) } else { limited.clone() };
        let turns: Vec<(usize, bool)> = seen
            .windows(2)
            .enumerate()
            .filter(|(_, pair)| pair[0].breaks.is_none() != pair[1].breaks.is_none())
            .map(|(index, pair)| (index, pair[0].breaks.is_none()))
            .collect();
        let end = |(index, falls): &(usize, bool)| {
            let (good, bad) =
                if *falls { (&seen[*index], &seen[*index + 1]) } else { (&seen[*index + 1], &seen[*index]) };
            self.end(good.value, bad)
        };
        let ends: Vec<End> = turns.par_iter().filter_map(end).collect();
        let mut intervals = Vec::new();
        let mut low = seen.first().filter(|first| first.breaks.is_none()).map(|first| first.value);
        for end in &ends {
            match low.take() {
                Some(low) => intervals.push((low, Some(end.value))),
                None => low = Some(end.value),
            }
        }
        intervals.extend(low.zip(seen.last()).map(|(low, last)| (low, Some(last.value))));
        let nominal = of.of.nominal;
        Holding {
            fitted,
            searched: (of.from, Some(of.to)),
            intervals,
            ends,
            best: self.best(&limited, nominal),
            breaks: nominal.and_then(|nominal| self.breaks(nominal)),
            struck: self.struck,
        }
    }

    /// Those values that break a limit, and of the others those at which a discharge was looked at.
    fn struck_among(&self, limited: &[Seen], nominal: Option<f64>) -> Vec<Seen> {
        let holds = |index: usize| limited.get(index).is_some_and(|seen| seen.breaks.is_none());
        let is_looked_at = |index: usize| {
            let end = index == 0 || !holds(index - 1) || !holds(index + 1);
            end || index % STRIDE == 0 || Some(limited[index].value) == nominal
        };
        let looked = (0..limited.len()).into_par_iter().filter(|index| !holds(*index) || is_looked_at(*index));
        let struck = looked.map(|index| {
            let seen = limited[index].clone();
            let breaks = seen.breaks.or_else(|| self.breaks(seen.value));
            Seen { breaks, ..seen }
        });
        struck.collect()
    }

    /// What breaks at a value: its limits first, then what a discharge leaves.
    fn breaks(&self, value: f64) -> Option<Breaks> {
        let (seen, line) = self.limited(value);
        seen.breaks.or_else(|| self.strike(&line?))
    }

    /// The line at a value, by its limits alone.
    fn limited(&self, value: f64) -> (Seen, Option<Line>) {
        let no_line = |why: String| (Seen { value, breaks: Some(Breaks::NoLine(why)), left: None }, None);
        let line = match self.line.with_values([(self.address, value)]) {
            Ok(line) => line,
            Err(fault) => return no_line(fault.to_string()),
        };
        let budget = match budget_of(&line, line.fitted()) {
            Ok(Some(budget)) => budget,
            Ok(None) => return no_line("it has no limits".to_owned()),
            Err(fault) => return no_line(fault.to_string()),
        };
        let broken = budget.limits.iter().find(|limit| limit.fitted.is_none_or(|headroom| !headroom.holds));
        let breaks = broken.map(|limit| Breaks::Limit(limit.figure));
        (Seen { value, breaks, left: budget.capacitance.map(|c| (budget.verdict, c)) }, Some(line))
    }

    /// The first check of a discharge that fails.
    fn strike(&self, line: &Line) -> Option<Breaks> {
        let discharge = self.discharges.of(line).filter(|_| self.struck == Some(true))?;
        let mut checks = discharge_checks(line, &discharge).into_iter();
        let fails = checks.find(|check| check.verdict == parts::Verdict::Fails)?;
        Some(Breaks::Check(fails.name()))
    }

    /// The end between a value that holds and one that does not.
    fn end(&self, mut good: f64, bad: &Seen) -> Option<End> {
        let (mut bad, mut breaks) = (bad.value, bad.breaks.clone()?);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (good + bad);
            if (bad - good).abs() <= breaks.tolerance() * good.abs() || middle == good || middle == bad {
                break;
            }
            match self.breaks(middle) {
                None => good = middle,
                Some(why) => (bad, breaks) = (middle, why),
            }
        }
        Some(End { value: good, breaks })
    }

    /// The value of the largest budget, of those with room from zero where there are any; the stated one where no other is
    /// better.
    fn best(&self, seen: &[Seen], nominal: Option<f64>) -> Option<Best> {
        let worth = |left: Option<(Verdict, Farad)>| {
            let (verdict, budget) = left?;
            Some((verdict == Verdict::Bounded, budget.0, verdict))
        };
        let best = |seen: &Seen| worth(seen.left).map(|(bounded, budget, _)| (bounded, budget));
        let mut top: Option<usize> = None;
        for (index, one) in seen.iter().enumerate() {
            if let Some(new) = best(one) {
                let old = top.and_then(|top| best(&seen[top]));
                let is_better = old.is_none_or(|old| (new.0, new.1) > (old.0, old.1));
                top = if is_better { Some(index) } else { top };
            }
        }
        let top = top?;
        let window_beyond = seen
            .iter()
            .filter_map(best)
            .any(|(bounded, most)| !bounded && best(&seen[top]).is_some_and(|own| own.0 && most > own.1));
        let stated = seen.iter().find(|one| Some(one.value) == nominal);
        let is_alike = |one: &&Seen| {
            best(one).zip(best(&seen[top])).is_some_and(|(own, top)| own.0 == top.0 && own.1 >= top.1 * (1.0 - ALIKE))
        };
        if let Some(stated) = stated.filter(is_alike) {
            return stated.left.map(|(verdict, budget)| Best { value: stated.value, budget, verdict, window_beyond });
        }
        let around = [top.saturating_sub(1), top, (top + 1).min(seen.len() - 1)].map(|index| seen[index].value);
        let at = |value: f64| {
            let line = self.line.with_values([(self.address, value)]).ok()?;
            let budget = budget_of(&line, None).ok()??;
            worth(budget.capacitance.map(|c| (budget.verdict, c)))
        };
        let mut found = (around[1], worth(seen[top].left)?);
        let [mut low, _, mut high] = around;
        const GOLDEN: f64 = 0.381_966_011_250_105_2;
        for _ in 0..SECTIONS {
            if high - low <= BEST * (around[2] - around[0]) {
                break;
            }
            let right = high - found.0 > found.0 - low;
            let side = if right { high } else { low };
            let value = found.0 + GOLDEN * (side - found.0);
            match at(value).filter(|own| (own.0, own.1) > (found.1.0, found.1.1)) {
                Some(own) => {
                    if right {
                        low = found.0
                    } else {
                        high = found.0
                    }
                    found = (value, own);
                }
                None if right => high = value,
                None => low = value,
            }
        }
        let (value, (_, budget, verdict)) = found;
        Some(Best { value, budget: Farad(budget), verdict, window_beyond })
    }
}
