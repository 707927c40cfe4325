//! The match of a feed over its band.

use std::convert::Infallible;

use super::{Case, PERFECT_MATCH, decibels, mismatch_loss, peaks, return_loss, span, summit, vswr};
use crate::model::{Antenna, Band};
use crate::network::{FeedChain, FeedPoint, FeedWaves};
use crate::units::{Farad, Hertz};

/// Least steps of a band's grid.
const STEPS: f64 = 200.0;

/// What the radio sees over a band, at its worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedMetrics {
    /// Largest |Γ| of the band; 0 for a perfect match.
    pub reflection: f64,
    /// The lowest frequency where it is that large.
    pub at: Hertz,
    /// Largest loss of the power into the antenna's resistance against the power available from a radio of the reference
    /// impedance, in dB; `None` where nothing gets there. That of a lossless path is the mismatch loss.
    pub transducer_loss: Option<f64>,
    /// Largest voltage at the part over the open voltage of a radio of the reference impedance.
    pub voltage: f64,
}

impl FeedMetrics {
    /// −20 log10 |Γ| in dB; `None` for a perfect match.
    pub fn return_loss(&self) -> Option<f64> {
        return_loss(self.reflection)
    }

    /// (1 + |Γ|)/(1 − |Γ|); `None` for a total reflection.
    pub fn vswr(&self) -> Option<f64> {
        vswr(self.reflection)
    }

    /// −10 log10(1 − |Γ|²) in dB; `None` for a total reflection.
    pub fn mismatch_loss(&self) -> Option<f64> {
        mismatch_loss(self.reflection)
    }
}

/// A feed over its band: every figure at any capacitance.
#[derive(Debug, Clone)]
pub struct FeedBand<'a> {
    chain: &'a FeedChain,
    points: Vec<FeedPoint>,
}

/// Why a band has no figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BandFault {
    /// A number overflows at this frequency.
    NotFinite(Hertz),
    /// The grid would need more than [`super::MOST_FREQUENCIES`].
    TooManyFrequencies,
}

impl<'a> FeedBand<'a> {
    /// The feed at every frequency of a grid of the band.
    ///
    /// # Errors
    /// [`BandFault`] where the chain overflows, or the path is too long for the band.
    pub fn new(chain: &'a FeedChain, band: Band) -> Result<Self, BandFault> {
        let narrow = chain.resonances(band.low, band.high, super::MOST_FREQUENCIES);
        let frequencies = span(band.low.0, band.high.0, STEPS, chain.delay_estimate().0, narrow)
            .ok_or(BandFault::TooManyFrequencies)?;
        let points: Vec<FeedPoint> = frequencies.into_iter().map(|f| chain.at(Hertz(f))).collect();
        match points.iter().find(|point| !point.is_finite()) {
            Some(point) => Err(BandFault::NotFinite(point.frequency)),
            None => Ok(FeedBand { chain, points }),
        }
    }

    /// The worst figures of the band, refined between the points of the grid.
    pub fn metrics(&self, case: Case) -> FeedMetrics {
        let (at, reflection) = self.highest(case, |waves| waves.reflection.norm());
        let (_, transmission) = self.highest(case, |waves| -waves.transmission.norm());
        FeedMetrics {
            reflection: if reflection < PERFECT_MATCH { 0.0 } else { reflection },
            at: Hertz(at),
            transducer_loss: decibels(-transmission),
            voltage: self.highest(case, |waves| waves.voltage.norm()).1,
        }
    }

    /// Where a figure is largest, and how large.
    fn highest(&self, case: Case, figure: impl Fn(&FeedWaves) -> f64) -> (f64, f64) {
        let value = |point: &FeedPoint| figure(&waves(point, case));
        let values: Vec<f64> = self.points.iter().map(value).collect();
        let highest = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let first = values.iter().position(|v| *v >= highest).unwrap_or(0);
        let mut best = (self.points.get(first).map_or(0.0, |p| p.frequency.0), highest);
        let at = |f: f64| value(&self.chain.at(Hertz(f)));
        for peak in peaks(&values, highest, 0.0) {
            let around = peak.map(|i| self.points[i].frequency.0);
            let Ok(summit) = summit(around, values[peak[1]], |f| Ok::<_, Infallible>(at(f)));
            if let Some((f, refined)) = summit.map(|f| (f, at(f))).filter(|(_, refined)| *refined > best.1) {
                best = (f, refined);
            }
        }
        best
    }
}

/// What the radio sees in one of the cases.
pub(super) fn waves(point: &FeedPoint, case: Case) -> FeedWaves {
    match case {
        Case::Absent => point.absent,
        Case::With(c) => point.at(c),
    }
}

/// The return loss that no lossless match can exceed all over the band, in dB: Bode–Fano for a resistance R beside a
/// capacitance, |Γ| = exp(−1/(2 R C_tot Δf)), C_tot = C + C_pad + Q/(2π f0 R).
///
/// `None` unless the protector, without a stub, an inductance or a resistance, sits directly at a parallel or resistive
/// antenna, and where C_tot or Δf is 0.
///
/// # References
/// Pozar, *Microwave Engineering*, 2nd ed., section 5.9 (section number from memory).
pub fn bode_fano(chain: &FeedChain, band: Band, capacitance: Farad) -> Option<f64> {
    let (resistance, own) = match chain.antenna() {
        Antenna::Parallel(r) => (r.resistance.0, r.parallel_capacitance()),
        Antenna::Resistance(r) => (r.0, 0.0),
        Antenna::Series(_) | Antenna::Table(_) => return None,
    };
    let branch = chain.chain().branch();
    let direct = chain.chain().protector_at() == 0;
    let bare = branch.stub_delay.0 == 0.0 && branch.inductance.0 == 0.0 && branch.resistance.0 == 0.0;
    let exponent = 1.0 / (2.0 * resistance * (capacitance.0 + branch.pad.0 + own) * band.width().0);
    (direct && bare && exponent.is_finite()).then(|| 20.0 * exponent / std::f64::consts::LN_10)
}
