//! The budget of a feed and its figures absent, fitted and at the budget.

use super::circuit::{Asked, FeedCircuit};
use super::figures::{FeedChanges, FeedFigures, shift};
use super::retune::retune;
use crate::budget::judged::LimitOutcome;
use crate::budget::sized::{allowed_by_all, judge_all};
use crate::budget::{Bare, Circuit, Fault, IntervalSet, Outcome, size};
use crate::model::{Feed, FeedLimit};
use crate::network::FeedChain;
use crate::response::{Case, FeedBand, Resonance, bode_fano};
use crate::units::Farad;

/// A return loss that no match is held to: a bound above it says nothing, in dB.
const MOST_MATCH: f64 = 60.0;

/// Everything the limits of a feed say about the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedOutcome {
    /// The return loss that no match can exceed all over the band, see [`bode_fano`]; `None` above 60 dB too.
    pub bode_fano: Option<f64>,
    /// Figures and budget.
    pub sized: Outcome<FeedFigures, FeedChanges>,
}

/// Sizes a feed: its figures absent, fitted and at the budget, and the budget.
///
/// # Errors
/// [`Fault`] where the chain overflows at a frequency of the band, or the path is too long for it.
pub fn size_feed(feed: &Feed) -> Result<FeedOutcome, Fault> {
    let chain = FeedChain::new(feed);
    let bare = (!chain.chain().has_no_footprint()).then(|| chain.without_footprint());
    let mut circuit = FeedCircuit {
        feed,
        chain: &chain,
        bare: bare.as_ref(),
        band: Some(FeedBand::new(&chain, feed.band)?),
        resonance: Resonance::new(&chain, feed.band),
    };
    let protector = feed.path.protector();
    let (fitted, spread) = (protector.and_then(|p| p.fitted), protector.and_then(|p| p.spread));
    let sized = size(&mut circuit, &feed.limits, fitted, spread)?;
    let load = sized.fitted.as_ref().map(|fitted| fitted.at.capacitance).or(sized.budget.capacitance);
    let bode_fano = load.and_then(|c| bode_fano(&chain, feed.band, c)).filter(|db| *db <= MOST_MATCH);
    Ok(FeedOutcome { bode_fano, sized })
}

/// What each limit of a feed does by itself; `fitted` is judged where a capacitance is.
///
/// # Errors
/// As [`size_feed`].
pub(in crate::budget) fn judge_feed(feed: &Feed, fitted: Option<Farad>) -> Result<Vec<LimitOutcome>, Fault> {
    judge_all(&mut limited(feed, &FeedChain::new(feed)), &feed.limits, fitted)
}

/// Every capacitance that all limits of a feed allow.
///
/// # Errors
/// As [`size_feed`].
pub(in crate::budget) fn allowed_by_feed(feed: &Feed) -> Result<IntervalSet, Fault> {
    allowed_by_all(&mut limited(feed, &FeedChain::new(feed)), &feed.limits)
}

/// The circuit of a feed of which its limits alone are asked.
fn limited<'a>(feed: &'a Feed, chain: &'a FeedChain) -> FeedCircuit<'a> {
    FeedCircuit { feed, chain, bare: None, band: None, resonance: Resonance::new(chain, feed.band) }
}

impl<'a> Circuit for FeedCircuit<'a> {
    type Limit = FeedLimit;
    type Figures = FeedFigures;
    type Changes = FeedChanges;
    type Fault = Fault;

    fn allowed(&mut self, limit: &FeedLimit) -> Result<IntervalSet, Fault> {
        match self.asked(limit) {
            Asked::Reflection(modulus, mask) => Ok(self.over_mask(modulus, &mask)?.allowed().clone()),
            Asked::Shift(most) => Ok(self.shifted(most)),
        }
    }

    fn judge(&mut self, limit: &FeedLimit, fitted: Option<Farad>) -> Result<LimitOutcome, Fault> {
        match self.asked(limit) {
            Asked::Reflection(modulus, mask) => LimitOutcome::over_mask(&self.over_mask(modulus, &mask)?, fitted),
            Asked::Shift(most) => self.judge_shift(most, fitted),
        }
    }

    fn figures(&mut self, case: Case) -> Result<FeedFigures, Fault> {
        let band = match &self.band {
            Some(band) => band.metrics(case),
            None => FeedBand::new(self.chain, self.feed.band)?.metrics(case),
        };
        let resonance = match case {
            Case::Absent => self.resonance.absent(),
            Case::With(c) => self.resonance.at(c),
        };
        Ok(FeedFigures { band, resonance })
    }

    fn changes(&mut self, absent: &FeedFigures, c: Farad, with: &FeedFigures) -> Result<FeedChanges, Fault> {
        let losses = with.band.transducer_loss.zip(absent.band.transducer_loss);
        Ok(FeedChanges {
            added_loss: losses.map(|(with, without)| with - without),
            detuning: shift(with.resonance, absent.resonance),
            retune: retune(self, c, with.band.reflection)?,
        })
    }

    fn bare(&self) -> Bare<Self> {
        let Some(chain) = self.bare else { return Bare::Same };
        let resonance = self.resonance.with_footprint_of(chain, self.feed.band);
        Bare::Other(FeedCircuit { feed: self.feed, chain, bare: None, band: None, resonance })
    }
}
