//! What each value of a line does to its budget, and what would buy more.

use rayon::prelude::*;

use super::out::{Out, all, without};
use crate::budget::{Budget, Fault, Verdict, budget_of};
use crate::figures::Figure;
use crate::model::{Address, AddressedValue, Line, Owner, PathElement, ValueName};
use crate::units::{Dimension, Farad};

/// The step of a value without a tolerance, of itself.
const STEP: f64 = 0.1;
/// The step of the protector's place in metre.
const PLACE_STEP: f64 = 1e-3;
/// The step of a derivative, of the value: of a budget that is exact, and of one that is searched for in time.
const FINE: [f64; 2] = [1e-4, 5e-3];
/// Gains below this share of the budget are none.
const NO_GAIN: f64 = 1e-6;

/// What the values of a line do to its budget.
#[derive(Debug, Clone)]
pub struct Sensitivity {
    /// The budget of the line as stated; each limit with its distance at [`Sensitivity::at`].
    pub budget: Budget,
    /// The capacitance at which limits are looked at: the fitted one, else the budget.
    pub at: Option<Farad>,
    /// Each stated value, in the order of the sheet.
    pub values: Vec<Moved>,
    /// Whatever can be taken out.
    pub without: Vec<Without>,
    /// Whatever wins, in falling gain.
    pub ranking: Vec<Gain>,
    /// Each limit, in the order of the sheet, with the value that moves it most.
    pub limits: Vec<MovedLimit>,
}

/// A value with what a step of it does.
#[derive(Debug, Clone, PartialEq)]
pub struct Moved {
    /// Its address.
    pub address: Address,
    /// What it measures.
    pub dimension: Dimension,
    /// As stated, in SI.
    pub value: f64,
    /// The step: its tolerance, else a tenth of it; 1 mm of a place.
    pub step: f64,
    /// A step down; `None` where the value leaves its range, or nothing can be computed there.
    pub down: Option<Stepped>,
    /// A step up.
    pub up: Option<Stepped>,
    /// Derivative of the budget at the stated value in farad per unit; `None` without a budget.
    pub derivative: Option<f64>,
}

/// A line with another value.
#[derive(Debug, Clone, PartialEq)]
pub struct Stepped {
    /// The value.
    pub value: f64,
    /// What is left then.
    pub verdict: Verdict,
    /// The budget then.
    pub budget: Option<Farad>,
    /// The distance to each limit at [`Sensitivity::at`].
    margins: Vec<Option<f64>>,
}

/// A line with something taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct Without {
    /// What is taken out.
    pub out: Out,
    /// What is left then.
    pub verdict: Verdict,
    /// The budget then.
    pub budget: Option<Farad>,
    /// By how much the budget grows; `None` where there is none before or after.
    pub gain: Option<Farad>,
}

/// A change that wins.
#[derive(Debug, Clone, PartialEq)]
pub struct Gain {
    /// What is changed.
    pub of: Out,
    /// How.
    pub change: Change,
    /// The value as stated; `None` of what is taken out.
    pub from: Option<f64>,
    /// The budget then; `None` where nothing bounds it.
    pub budget: Option<Farad>,
    /// By how much it grows; `None` with the budget.
    pub gain: Option<Farad>,
}

/// A change of one thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// A step down, to this value of this dimension.
    Down(f64, Dimension),
    /// A step up.
    Up(f64, Dimension),
    /// Taken out.
    Out,
}

impl Change {
    /// The word of the results.
    pub fn word(self) -> &'static str {
        match self {
            Change::Down(..) => "down",
            Change::Up(..) => "up",
            Change::Out => "out",
        }
    }
}

/// A limit with the value that moves it most.
#[derive(Debug, Clone, PartialEq)]
pub struct MovedLimit {
    /// What is bounded.
    pub figure: &'static Figure,
    /// The distance to it at [`Sensitivity::at`]; `None` at a perfect match, and where there is no such capacitance.
    pub margin: Option<f64>,
    /// The value whose step moves it most; `None` where none moves it.
    pub address: Option<Address>,
    /// By how much, with its sign; the larger of both steps.
    pub change: Option<f64>,
}

impl Sensitivity {
    /// Of a lane, a feed or a bus; `None` of a rail.
    ///
    /// Every setting is a line of its own, made by [`Line::with_values`]: two for the steps of a value, two for its
    /// derivative, one for whatever is taken out.
    ///
    /// # Errors
    /// [`Fault`] where the line as it is stated cannot be computed.
    pub fn of(line: &Line) -> Result<Option<Sensitivity>, Fault> {
        let Some(start) = Start::of(line)? else { return Ok(None) };
        let mut values = start.steps();
        values.par_iter_mut().for_each(|moved| moved.derivative = start.derivative(moved));
        let without = start.without();
        let ranking = start.ranking(&values, &without);
        let limits = start.limits(&values);
        Ok(Some(Sensitivity { at: start.at, budget: start.budget, values, without, ranking, limits }))
    }
}

/// What of a line wins most; empty of a rail.
///
/// # Errors
/// As [`Sensitivity::of`].
pub fn gains(line: &Line) -> Result<Vec<Gain>, Fault> {
    let Some(start) = Start::of(line)? else { return Ok(Vec::new()) };
    Ok(start.ranking(&start.steps(), &start.without()))
}

/// A line as stated.
struct Start<'a> {
    line: &'a Line,
    budget: Budget,
    at: Option<Farad>,
}

impl<'a> Start<'a> {
    fn of(line: &'a Line) -> Result<Option<Self>, Fault> {
        let fitted = line.fitted();
        let Some(mut budget) = budget_of(line, fitted)? else { return Ok(None) };
        let at = fitted.or(budget.capacitance);
        if fitted.is_none() && at.is_some() {
            budget = budget_of(line, at)?.unwrap_or(budget);
        }
        Ok(Some(Start { line, budget, at }))
    }

    /// The line with another value; `None` where that is none or cannot be computed.
    fn stepped(&self, address: &Address, value: f64) -> Option<Stepped> {
        let line = self.line.with_values([(address, value)]).ok()?;
        let budget = budget_of(&line, self.at).ok()??;
        let margins = budget.limits.iter().map(|limit| limit.fitted?.margin).collect();
        Some(Stepped { value, verdict: budget.verdict, budget: budget.capacitance, margins })
    }

    /// Each stated value with its steps.
    fn steps(&self) -> Vec<Moved> {
        let stated = |value: &AddressedValue| Some((value.nominal?, step(value)?));
        let values = self.line.head.values.iter().filter(|value| value.address.value != ValueName::Rate);
        let values: Vec<_> = values.filter_map(|value| Some((value, stated(value)?))).collect();
        let moved = |(of, (value, step)): &(&AddressedValue, (f64, f64))| {
            let to = |to: f64| self.stepped(&of.address, to).filter(|_| *step > 0.0);
            Moved {
                address: of.address.clone(),
                dimension: of.range.dimension,
                value: *value,
                step: *step,
                down: to(value - step),
                up: to(value + step),
                derivative: None,
            }
        };
        values.par_iter().map(moved).collect()
    }

    /// By a central difference; where there is a budget on one side alone, by that side.
    fn derivative(&self, moved: &Moved) -> Option<f64> {
        let here = self.budget.capacitance?.0;
        let in_time = self.budget.limits.iter().any(|limit| limit.figure.is_in_time());
        let size = if moved.value == 0.0 { smallest(moved.dimension) } else { moved.value.abs() };
        let fine = size * FINE[usize::from(in_time)];
        let at = |value: f64| Some(self.stepped(&moved.address, value)?.budget?.0);
        match (at(moved.value - fine), at(moved.value + fine)) {
            (Some(low), Some(high)) => Some((high - low) / (2.0 * fine)),
            (None, Some(high)) => Some((high - here) / fine),
            (Some(low), None) => Some((here - low) / fine),
            (None, None) => None,
        }
    }

    fn without(&self) -> Vec<Without> {
        let found = |out: &Out| {
            let budget = budget_of(&without(self.line, out)?, None).ok()??;
            let gain = self.budget.capacitance.zip(budget.capacitance).map(|(before, after)| after - before);
            Some(Without { out: out.clone(), verdict: budget.verdict, budget: budget.capacitance, gain })
        };
        all(self.line).par_iter().filter_map(found).collect()
    }

    /// Whatever wins: unbounded first, then in falling gain. Where nothing is allowed before, all of a budget is won.
    fn ranking(&self, values: &[Moved], without: &[Without]) -> Vec<Gain> {
        if self.budget.verdict == Verdict::Unbounded {
            return Vec::new();
        }
        let before = self.budget.capacitance.unwrap_or(Farad::ZERO);
        let gain = |of: &Out, (from, change): (Option<f64>, Change), verdict: Verdict, budget: Option<Farad>| {
            let open = budget.is_none() && verdict != Verdict::Impossible;
            let gain = budget.map(|after| after - before).filter(|gain| gain.0 > NO_GAIN * before.0);
            (open || gain.is_some()).then(|| Gain { of: of.clone(), change, from, budget, gain })
        };
        let mut found: Vec<Gain> = Vec::new();
        for moved in values {
            let of = Out::Value(moved.address.clone());
            let down = moved.down.as_ref().map(|at| (Change::Down(at.value, moved.dimension), at));
            let up = moved.up.as_ref().map(|at| (Change::Up(at.value, moved.dimension), at));
            let both = [down, up].into_iter().flatten();
            found.extend(both.filter_map(|(change, at)| gain(&of, (Some(moved.value), change), at.verdict, at.budget)));
        }
        found.extend(without.iter().filter_map(|own| gain(&own.out, (None, Change::Out), own.verdict, own.budget)));
        let key = |gain: &Gain| gain.gain.map_or(f64::INFINITY, |gain| gain.0);
        found.sort_by(|a, b| key(b).total_cmp(&key(a)));
        found
    }

    fn limits(&self, values: &[Moved]) -> Vec<MovedLimit> {
        let own = |of: &Moved| is_capacitance(self.line, &of.address);
        let moved = |index: usize, figure: &'static Figure, margin: Option<f64>| {
            let mut most: Option<(&Moved, f64)> = None;
            for value in values.iter().filter(|value| !own(value)) {
                for step in [&value.down, &value.up].into_iter().flatten() {
                    let after = step.margins.get(index).copied().flatten();
                    let Some(change) = after.zip(margin).map(|(after, before)| after - before) else { continue };
                    if change.abs() > most.map_or(0.0, |(_, most)| most.abs()) {
                        most = Some((value, change));
                    }
                }
            }
            let address = most.map(|(value, _)| value.address.clone());
            MovedLimit { figure, margin, address, change: most.map(|(_, change)| change) }
        };
        let limits = self.budget.limits.iter().enumerate();
        limits.map(|(index, limit)| moved(index, limit.figure, limit.fitted.and_then(|h| h.margin))).collect()
    }
}

/// The step of a value: its stated tolerance, else a tenth of it.
fn step(value: &AddressedValue) -> Option<f64> {
    let stated = value.tolerance.as_ref().filter(|tolerance| tolerance.stated);
    Some(match stated {
        _ if value.address.value == ValueName::Place => PLACE_STEP,
        Some(tolerance) => (tolerance.high - tolerance.low) / 2.0,
        None => STEP * value.nominal?.abs(),
    })
}

/// What counts as small of a dimension, where nothing is stated.
fn smallest(of: Dimension) -> f64 {
    match of {
        Dimension::Capacitance => 1e-12,
        Dimension::Inductance => 1e-9,
        Dimension::Time => 1e-12,
        Dimension::Length => 1e-3,
        _ => 1.0,
    }
}

/// Whether an address is the capacitance of what is fitted at the protector: of the protector itself, or of its part.
pub(super) fn is_capacitance(line: &Line, address: &Address) -> bool {
    address.value == ValueName::Capacitance
        && match &address.owner {
            Owner::Element(number) => line.element(*number).is_some_and(PathElement::is_protector),
            Owner::Part(name) => line.part().is_some_and(|part| part.name == *name),
            Owner::Line | Owner::Laminate(_) => false,
        }
}
