//! Sizing any line: its figures absent, fitted and at the budget, and the budget.

use super::judged::{Headroom, LimitOutcome, first_end};
use super::{Budget, IntervalSet};
use crate::model::{Bounds, Limit};
use crate::response::Case;
use crate::units::Farad;

/// A line that limits are asked about.
pub trait Circuit: Sized {
    /// What it can be limited by.
    type Limit: Bounds;
    /// What is known of it at one capacitance.
    type Figures;
    /// What a capacitance changes against absent.
    type Changes;
    /// Why it cannot be computed.
    type Fault;

    /// The capacitances a limit allows.
    ///
    /// # Errors
    /// Where the arithmetic cannot follow.
    fn allowed(&mut self, limit: &Self::Limit) -> Result<IntervalSet, Self::Fault>;

    /// What a limit does by itself, and the distance of a `fitted` capacitance to it.
    ///
    /// # Errors
    /// As [`Circuit::allowed`].
    fn judge(&mut self, limit: &Self::Limit, fitted: Option<Farad>) -> Result<LimitOutcome, Self::Fault>;

    /// The distance of a capacitance to a limit, without the set the limit allows where that takes long.
    ///
    /// # Errors
    /// As [`Circuit::allowed`].
    fn headroom(&mut self, limit: &Self::Limit, c: Farad) -> Result<Option<Headroom>, Self::Fault> {
        Ok(self.judge(limit, Some(c))?.fitted)
    }

    /// The figures without the protector, or with a capacitance.
    ///
    /// # Errors
    /// As [`Circuit::allowed`].
    fn figures(&mut self, case: Case) -> Result<Self::Figures, Self::Fault>;

    /// What a capacitance changes; `with` are its figures and `absent` those without.
    ///
    /// # Errors
    /// As [`Circuit::allowed`].
    fn changes(&mut self, absent: &Self::Figures, c: Farad, with: &Self::Figures)
    -> Result<Self::Changes, Self::Fault>;

    /// The line with a footprint of nothing.
    fn bare(&self) -> Bare<Self>;
}

/// A line with a footprint of nothing.
pub enum Bare<C> {
    /// Its kind has no footprint.
    None,
    /// It is the same line.
    Same,
    /// Another one.
    Other(C),
}

/// A line with a capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct At<F, C> {
    /// One line to ground, pad excluded.
    pub capacitance: Farad,
    /// Its figures.
    pub figures: F,
    /// What changes against absent.
    pub changes: C,
}

/// A line with its fitted protector.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted<F, C> {
    /// The line with that capacitance.
    pub at: At<F, C>,
    /// Whether every limit holds.
    pub holds: bool,
    /// The distance to each limit, in sheet order.
    pub headroom: Vec<Headroom>,
}

/// Everything the limits of a line say about the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome<F, C> {
    /// Without protector and footprint.
    pub absent: F,
    /// With the capacitance the protector states, where it does.
    pub fitted: Option<Fitted<F, C>>,
    /// With the budget, where there is a finite one.
    pub at_budget: Option<At<F, C>>,
    /// The budget.
    pub budget: Budget,
}

/// Sizes a line by its limits: judges `fitted` where a capacitance is, and divides the budget by 1 + `spread`.
///
/// # Errors
/// Where the arithmetic cannot follow.
pub fn size<C: Circuit>(
    circuit: &mut C,
    limits: &[Limit<C::Limit>],
    fitted: Option<Farad>,
    spread: Option<f64>,
) -> Result<Outcome<C::Figures, C::Changes>, C::Fault> {
    let mut budget = Budget::new(judge_all(circuit, limits, fitted)?, spread);
    budget.without_footprint = match circuit.bare() {
        Bare::None => None,
        Bare::Same => budget.capacitance,
        Bare::Other(mut bare) => first_end(&allowed_by_all(&mut bare, limits)?),
    };
    let absent = circuit.figures(Case::Absent)?;
    let mut at = |capacitance: Farad| {
        let figures = circuit.figures(Case::With(capacitance.0))?;
        let changes = circuit.changes(&absent, capacitance, &figures)?;
        Ok::<_, C::Fault>(At { capacitance, figures, changes })
    };
    let fitted = fitted.map(&mut at).transpose()?.map(|at| {
        let headroom: Vec<Headroom> = budget.limits.iter().filter_map(|limit| limit.fitted).collect();
        Fitted { at, holds: headroom.iter().all(|h| h.holds), headroom }
    });
    let at_budget = budget.capacitance.map(at).transpose()?;
    Ok(Outcome { absent, fitted, at_budget, budget })
}

/// What each limit does by itself, and nothing else of [`size`].
///
/// # Errors
/// As [`size`].
pub fn judge_all<C: Circuit>(
    circuit: &mut C,
    limits: &[Limit<C::Limit>],
    fitted: Option<Farad>,
) -> Result<Vec<LimitOutcome>, C::Fault> {
    limits.iter().map(|limit| circuit.judge(&limit.of, fitted)).collect()
}

/// The distance of a capacitance to each limit.
///
/// # Errors
/// As [`size`].
pub fn headroom_of_all<C: Circuit>(
    circuit: &mut C,
    limits: &[Limit<C::Limit>],
    c: Farad,
) -> Result<Vec<Headroom>, C::Fault> {
    limits.iter().filter_map(|limit| circuit.headroom(&limit.of, c).transpose()).collect()
}

/// Every capacitance that all limits allow, and nothing else of [`size`].
///
/// # Errors
/// As [`size`].
pub fn allowed_by_all<C: Circuit>(circuit: &mut C, limits: &[Limit<C::Limit>]) -> Result<IntervalSet, C::Fault> {
    let mut set = IntervalSet::all();
    for limit in limits {
        set = set.intersect(circuit.allowed(&limit.of)?.intervals());
    }
    Ok(set)
}
