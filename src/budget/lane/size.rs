//! The budget of a lane and its figures absent, fitted and at the budget.

use super::below::{BelowNyquist, below_nyquist};
use super::circuit::LaneCircuit;
use super::figures::{LaneChanges, LaneFigures};
use super::timed;
use crate::budget::judged::{Headroom, LimitOutcome};
use crate::budget::over_mask::OverMask;
use crate::budget::sized::{headroom_of_all, judge_all};
use crate::budget::{Bare, Circuit, Fault, Inequality, IntervalSet, Modulus, Outcome, allowed_by_all, size};
use crate::model::{Bounds, Lane, LaneLimit, Over};
use crate::network::ReferencePlane;
use crate::response::{Case, NotSettled, lane_droop};
use crate::units::Farad;

/// Which figures of a lane are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figures {
    /// Those at the Nyquist frequency, and whatever the limits ask for.
    Nyquist,
    /// The time domain as well.
    All,
}

/// Everything the limits of a lane say about the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneOutcome {
    /// Where the return loss is seen.
    pub reference_plane: ReferencePlane,
    /// A figure of the time domain that does not settle and is left out.
    pub not_settled: Option<NotSettled>,
    /// The limits at Nyquist that the fitted capacitance, or else the budget, keeps there and breaks below.
    pub below_nyquist: Vec<BelowNyquist>,
    /// Figures and budget.
    pub sized: Outcome<LaneFigures, LaneChanges>,
}

/// Sizes a lane: its figures absent, fitted and at the budget, and the budget.
///
/// # Errors
/// [`Fault`] where the chain overflows at a frequency of a limit, nothing passes it at Nyquist, a mask would need too
/// many frequencies, or a figure that a limit asks for does not settle.
pub fn size_lane(lane: &Lane, wanted: Figures) -> Result<LaneOutcome, Fault> {
    let mut circuit = LaneCircuit::new(lane, wanted == Figures::All)?;
    circuit.droop = lane_droop(lane);
    let protector = lane.path.protector();
    let (fitted, spread) = (protector.and_then(|p| p.fitted), protector.and_then(|p| p.spread));
    let mut sized = size(&mut circuit, &lane.limits, fitted, spread)?;
    sized.budget.across_pair = sized.budget.capacitance.filter(|_| lane.differential).map(|c| c / 2.0);
    Ok(LaneOutcome {
        reference_plane: circuit.chain.reference_plane(),
        not_settled: circuit.not_settled,
        below_nyquist: fitted
            .or(sized.budget.capacitance)
            .map_or(Vec::new(), |c| below_nyquist(&circuit, &sized.budget.limits, c)),
        sized,
    })
}

/// What each limit of a lane does by itself; `fitted` is judged where a capacitance is.
///
/// # Errors
/// As [`size_lane`].
pub(in crate::budget) fn judge_lane(lane: &Lane, fitted: Option<Farad>) -> Result<Vec<LimitOutcome>, Fault> {
    judge_all(&mut LaneCircuit::new(lane, false)?, &lane.limits, fitted)
}

/// The distance of a capacitance to each limit of a lane.
///
/// # Errors
/// As [`size_lane`].
pub(in crate::budget) fn lane_headroom(lane: &Lane, c: Farad) -> Result<Vec<Headroom>, Fault> {
    headroom_of_all(&mut LaneCircuit::new(lane, false)?, &lane.limits, c)
}

/// Every capacitance that all limits of a lane allow, and nothing else of [`size_lane`].
///
/// # Errors
/// As [`size_lane`].
pub fn allowed_capacitances(lane: &Lane) -> Result<IntervalSet, Fault> {
    allowed_by_all(&mut LaneCircuit::new(lane, false)?, &lane.limits)
}

impl Circuit for LaneCircuit<'_> {
    type Limit = LaneLimit;
    type Figures = LaneFigures;
    type Changes = LaneChanges;
    type Fault = Fault;

    fn allowed(&mut self, limit: &LaneLimit) -> Result<IntervalSet, Fault> {
        let at_one = |modulus, level| {
            let allowed = Inequality::new(modulus, level, &self.nyquist).allowed();
            Ok(IntervalSet::from(allowed.intervals()))
        };
        match limit {
            LaneLimit::Loss(loss, Over::Level(level)) => at_one((*loss).into(), *level),
            LaneLimit::EyePenalty(level) => at_one(Modulus::Fundamental, *level),
            LaneLimit::Loss(loss, Over::Mask(mask)) => {
                Ok(OverMask::solve(&self.chain, (*loss).into(), mask)?.allowed().clone())
            }
            timed => timed::allowed(timed, self),
        }
    }

    fn judge(&mut self, limit: &LaneLimit, fitted: Option<Farad>) -> Result<LimitOutcome, Fault> {
        let at_one = |modulus, level| LimitOutcome::at_one(&Inequality::new(modulus, level, &self.nyquist), fitted);
        match limit {
            LaneLimit::Loss(loss, Over::Level(level)) => Ok(at_one((*loss).into(), *level)),
            LaneLimit::EyePenalty(level) => Ok(at_one(Modulus::Fundamental, *level)),
            LaneLimit::Loss(loss, Over::Mask(mask)) => {
                LimitOutcome::over_mask(&OverMask::solve(&self.chain, (*loss).into(), mask)?, fitted)
            }
            timed => timed::judge(timed, self, fitted),
        }
    }

    fn headroom(&mut self, limit: &LaneLimit, c: Farad) -> Result<Option<Headroom>, Fault> {
        if limit.figure().is_in_time() {
            timed::headroom(limit, self, c).map(Some)
        } else {
            Ok(self.judge(limit, Some(c))?.fitted)
        }
    }

    fn figures(&mut self, case: Case) -> Result<LaneFigures, Fault> {
        LaneFigures::of(self, case)
    }

    fn changes(&mut self, absent: &LaneFigures, c: Farad, with: &LaneFigures) -> Result<LaneChanges, Fault> {
        LaneChanges::of(self, absent, c, with)
    }

    fn bare(&self) -> Bare<Self> {
        if self.chain.has_no_footprint() { Bare::Same } else { Bare::Other(self.without_footprint()) }
    }
}
