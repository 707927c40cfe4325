//! The circuit that the limits of a feed are asked about.

use std::f64::consts::TAU;

use super::figures::shift;
use crate::budget::judged::LimitOutcome;
use crate::budget::over_mask::OverMask;
use crate::budget::{Fault, IntervalSet, Modulus};
use crate::figures;
use crate::model::{Feed, FeedLimit, Mask, Over};
use crate::network::FeedChain;
use crate::response::{BandFault, Case, FeedBand, MOST_FREQUENCIES, Resonance, probes, scan};
use crate::units::{Farad, Hertz};

/// A feed's chain with its band and its resonance.
pub(super) struct FeedCircuit<'a> {
    pub(super) feed: &'a Feed,
    pub(super) chain: &'a FeedChain,
    /// The chain without the footprint, where that is another one.
    pub(super) bare: Option<&'a FeedChain>,
    /// `None` in a circuit of which only the allowed capacitances are asked.
    pub(super) band: Option<FeedBand<'a>>,
    pub(super) resonance: Resonance<'a>,
}

/// What a limit of a feed asks for.
pub(super) enum Asked<'a> {
    /// A bound on the reflection, over a mask.
    Reflection(Modulus, std::borrow::Cow<'a, Mask>),
    /// The largest shift of the resonance.
    Shift(Hertz),
}

impl<'a> FeedCircuit<'a> {
    /// What a limit asks for; one bound holds all over the band.
    pub(super) fn asked<'l>(&self, limit: &'l FeedLimit) -> Asked<'l> {
        use std::borrow::Cow;
        let flat = |level| Cow::Owned(Mask::flat(level, self.feed.band.low, self.feed.band.high));
        match limit {
            FeedLimit::ReturnLoss(Over::Mask(mask)) => Asked::Reflection(Modulus::Return, Cow::Borrowed(mask)),
            FeedLimit::ReturnLoss(Over::Level(level)) => Asked::Reflection(Modulus::Return, flat(*level)),
            FeedLimit::Vswr(level) => Asked::Reflection(Modulus::Vswr, flat(*level)),
            FeedLimit::MismatchLoss(level) => Asked::Reflection(Modulus::Mismatch, flat(*level)),
            FeedLimit::Detuning(most) => Asked::Shift(*most),
        }
    }

    /// A limit on the reflection over its mask.
    pub(super) fn over_mask(&self, modulus: Modulus, mask: &Mask) -> Result<OverMask<'a>, Fault> {
        OverMask::solve(self.chain, modulus, mask)
    }

    /// Judges a limit on the shift of the resonance.
    pub(super) fn judge_shift(&mut self, most: Hertz, fitted: Option<Farad>) -> Result<LimitOutcome, Fault> {
        let allowed = self.shifted(most);
        let absent = self.resonance.absent();
        let value = |case| {
            let with = match case {
                Case::Absent => absent,
                Case::With(c) => self.resonance.at(c),
            };
            Ok(shift(with, absent).map(|f| f.0.abs()))
        };
        LimitOutcome::by_value((&figures::DETUNING, most.0), allowed, fitted, value, |_| absent.is_some())
    }

    /// The capacitances that shift the resonance by no more than this.
    pub(super) fn shifted(&mut self, most: Hertz) -> IntervalSet {
        let Some(absent) = self.resonance.absent() else {
            return IntervalSet::none();
        };
        let scale = 2.0 / (TAU * self.feed.band.middle().0 * self.feed.reference.0);
        let margin = |c: f64| {
            let shift = self.resonance.at(c).map(|f| (f.0 - absent.0).abs());
            Ok::<_, std::convert::Infallible>(shift.map_or(f64::NEG_INFINITY, |shift| most.0 - shift))
        };
        let Ok(set) = scan(margin, &probes(scale));
        set.into()
    }
}

impl From<BandFault> for Fault {
    fn from(fault: BandFault) -> Fault {
        match fault {
            BandFault::NotFinite(frequency) => Fault::NotFinite(frequency),
            BandFault::TooManyFrequencies => {
                Fault::TooManyFrequencies { figure: &figures::RETURN_LOSS, cap: MOST_FREQUENCIES }
            }
        }
    }
}
