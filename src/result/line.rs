//! One line with what was found of it.

use crate::budget::{At, Budget, BusFigures, BusOutcome, FeedChanges, FeedFigures, FeedOutcome, Fitted, Headroom};
use crate::budget::{LaneChanges, LaneFigures, LaneOutcome, LimitOutcome, Outcome, Verdict};
use crate::figures::{Figure, Rows};
use crate::model::{Mask, ProfileRead};
use crate::parts;
use crate::parts::Check;
use crate::study::Tolerated;
use crate::transient::LineDischarge;
use crate::units::{Farad, Ohm};

/// A remark.
#[derive(Debug, Clone)]
pub struct Note {
    /// Stable identifier.
    pub code: &'static str,
    /// The remark.
    pub text: String,
    /// Line of the sheet it speaks of.
    pub line: Option<u32>,
}

/// What a line of any kind has in its result.
#[derive(Debug, Clone)]
pub struct LineHead {
    /// Its name.
    pub name: String,
    /// Connector it belongs to.
    pub port: Option<String>,
    /// Identical lines.
    pub count: u32,
    /// The part named.
    pub part: Option<String>,
    /// Its survival checks.
    pub checks: Vec<Check>,
    /// What a discharge leaves at its chip; `None` where it meets none or states no path, and where it is left out.
    pub discharge: Option<LineDischarge>,
    /// What its tolerances leave; `None` of a line that states none.
    pub tolerance: Option<Box<Tolerated>>,
    /// Values used that the sheet does not state.
    pub defaults: Vec<Note>,
    /// What the reader should know.
    pub warnings: Vec<Note>,
}

impl LineHead {
    /// Whether no check fails; one that is not stated does not.
    pub fn survives(&self) -> bool {
        self.checks.iter().all(|check| check.verdict != parts::Verdict::Fails)
    }
}

/// A limit as the sheet states it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated {
    /// The bound in SI; `None` for a mask.
    pub bound: Option<f64>,
    /// The points of a mask.
    pub mask: Option<Mask>,
    /// Levels a rise time is measured between, where the limit states its own: shares of the step.
    pub levels: Option<(f64, f64)>,
    /// The impedance a reflection profile is held against, where the limit names one.
    pub below: Option<Ohm>,
    /// How the limit reads the reflection profile, where it states that.
    pub read: ProfileRead,
    /// Line of the sheet that states it.
    pub line: Option<u32>,
}

/// A line with limits: what is stated of it, and what was found. `A` is stated of its kind alone, `O` its outcome.
#[derive(Debug, Clone)]
pub struct LineResult<A, O> {
    /// What every line has.
    pub head: LineHead,
    /// What its kind alone has.
    pub about: A,
    /// Its limits, in the order of those of the budget.
    pub limits: Vec<Stated>,
    /// What was found.
    pub outcome: O,
}

/// The outcome of a line with limits.
pub trait Sizes {
    /// What is known of it at one capacitance.
    type Figures: Rows;
    /// What a capacitance changes.
    type Changes: Rows;

    /// Its figures and its budget.
    fn sized(&self) -> &Outcome<Self::Figures, Self::Changes>;
}

impl Sizes for LaneOutcome {
    type Figures = LaneFigures;
    type Changes = LaneChanges;

    fn sized(&self) -> &Outcome<LaneFigures, LaneChanges> {
        &self.sized
    }
}

impl Sizes for FeedOutcome {
    type Figures = FeedFigures;
    type Changes = FeedChanges;

    fn sized(&self) -> &Outcome<FeedFigures, FeedChanges> {
        &self.sized
    }
}

impl Sizes for BusOutcome {
    type Figures = BusFigures;
    type Changes = ();

    fn sized(&self) -> &BusOutcome {
        self
    }
}

/// A line without its protector, or with one.
#[derive(Debug)]
pub struct State<'a, F, C> {
    /// Which.
    pub protector: Protector,
    /// The capacitance of the protector, one line to ground, pad excluded.
    pub capacitance: Option<Farad>,
    /// The figures.
    pub figures: &'a F,
    /// What changes against absent.
    pub changes: Option<&'a C>,
}

/// A protector of a line whose figures are known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Protector {
    /// None, nor a footprint.
    Absent,
    /// The one fitted.
    Fitted,
    /// One with the budget.
    AtBudget,
}

impl Protector {
    /// Its word in tables.
    pub fn word(self) -> &'static str {
        match self {
            Protector::Absent => "absent",
            Protector::Fitted => "fitted",
            Protector::AtBudget => "at budget",
        }
    }
}

impl<'a, F: Rows, C: Rows> State<'a, F, C> {
    fn with(protector: Protector, at: &'a At<F, C>) -> Self {
        State { protector, capacitance: Some(at.capacitance), figures: &at.figures, changes: Some(&at.changes) }
    }

    /// A figure; `None` where it does not apply.
    pub fn read(&self, figure: &Figure) -> Option<f64> {
        self.figures.read(figure).or_else(|| self.changes?.read(figure))
    }
}

impl<A, O: Sizes> LineResult<A, O> {
    /// The line with the capacitance that is fitted.
    pub fn fitted(&self) -> Option<&Fitted<O::Figures, O::Changes>> {
        self.outcome.sized().fitted.as_ref()
    }

    /// The largest capacitance and what sets it.
    pub fn budget(&self) -> &Budget {
        &self.outcome.sized().budget
    }

    /// Each limit as stated, with what it does by itself.
    pub fn limits(&self) -> impl Iterator<Item = (&Stated, &LimitOutcome)> {
        self.limits.iter().zip(&self.budget().limits)
    }

    /// The line absent, fitted and at its budget, where there are these.
    pub fn states(&self) -> impl Iterator<Item = State<'_, O::Figures, O::Changes>> {
        let sized = self.outcome.sized();
        let absent = State { protector: Protector::Absent, capacitance: None, figures: &sized.absent, changes: None };
        let fitted = sized.fitted.as_ref().map(|fitted| State::with(Protector::Fitted, &fitted.at));
        let at_budget = sized.at_budget.as_ref().map(|at| State::with(Protector::AtBudget, at));
        [Some(absent), fitted, at_budget].into_iter().flatten()
    }

    /// Whether the line passes: where a capacitance is fitted, it keeps every limit and fails no check; where none is,
    /// the line needs no protector to keep its limits and has room for one. It keeps its limits within its tolerances, too.
    pub fn passes(&self) -> bool {
        if self.head.tolerance.as_ref().is_some_and(|tolerance| !tolerance.worst.passes()) {
            return false;
        }
        match self.fitted() {
            Some(fitted) => fitted.holds && self.head.survives(),
            None => matches!(self.budget().verdict, Verdict::Bounded | Verdict::Unbounded),
        }
    }

    /// The limit with the least headroom relative to its bound, a broken one first. A bound of zero counts as one unit.
    pub fn tightest(&self) -> Option<&Headroom> {
        tightest(&self.fitted()?.headroom)
    }
}

/// The limit with the least headroom, see [`LineResult::tightest`].
pub(crate) fn tightest(headroom: &[Headroom]) -> Option<&Headroom> {
    let key = |headroom: &Headroom| {
        let unit = headroom.bound.abs();
        let unit = if unit > 0.0 { unit } else { 1.0 };
        // Without a margin the match is perfect, or nothing gets through.
        let beyond = if headroom.holds { f64::INFINITY } else { f64::NEG_INFINITY };
        headroom.margin.map_or(beyond, |margin| margin / unit)
    };
    headroom.iter().min_by(|a, b| a.holds.cmp(&b.holds).then(key(a).total_cmp(&key(b))))
}
