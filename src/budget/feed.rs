//! The budget of a feed and its figures absent, fitted and at the budget.

use std::f64::consts::TAU;

use super::limits::{Headroom, LimitOutcome, first_end};
use super::mask::Mask;
use super::outcome::{Budget, FittedOutcome};
use super::{Fault, Inequality, IntervalSet, probes, scan};
use crate::model::{Bound, Feed, Limit, LimitKind, LossKind, MaskPoint};
use crate::network::{FeedChain, Mobius};
use crate::response::{BandFault, Case, FeedBand, FeedMetrics, MOST_FREQUENCIES, Resonance, bode_fano};
use crate::units::{Farad, Henry, Hertz};

/// A feed at one capacitance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedJudged {
    /// One line to ground, pad excluded.
    pub capacitance: Farad,
    /// Its match over the band.
    pub metrics: FeedMetrics,
    /// Worst transducer loss minus the worst one without protector, in dB.
    pub added_loss: Option<f64>,
    /// The frequency of least reflection.
    pub resonance: Option<Hertz>,
    /// Its shift against the one without protector.
    pub detuning: Option<Hertz>,
    /// How a coil would tune it back.
    pub retune: Option<Retune>,
}

/// Coils that take a capacitance out at the resonance of the absent minimum, and what the shunt coil leaves: an estimate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Retune {
    /// L = 1/(ω0² (C + C_pad)), to ground at the protector.
    pub shunt: Henry,
    /// L = (C + C_pad) Z², half to either side of the protector.
    pub series: Henry,
    /// The value of the E24 series nearest to the shunt coil, by ratio.
    pub nearest: Henry,
    /// Worst |Γ| of the band with that coil.
    pub metrics: FeedMetrics,
    /// The frequency of least reflection with that coil, minus the one without protector.
    pub detuning: Option<Hertz>,
    /// Whether every limit holds with that coil.
    pub holds: bool,
}

/// Everything the limits of a feed say about the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedOutcome {
    /// Without protector and footprint.
    pub absent: FeedMetrics,
    /// The frequency of least reflection without them.
    pub resonance: Option<Hertz>,
    /// With the capacitance the protector states, where it does.
    pub fitted: Option<FittedOutcome<FeedJudged>>,
    /// With the budget, where there is a finite one.
    pub at_budget: Option<FeedJudged>,
    /// The budget.
    pub budget: Budget,
    /// The return loss that no match can exceed all over the band, see [`bode_fano`].
    pub bode_fano: Option<f64>,
}

/// Sizes a feed: its figures absent, fitted and at the budget, and the budget.
///
/// # Errors
/// [`Fault`] where the chain overflows at a frequency of the band, or the path is too long for it.
pub fn size_feed(feed: &Feed) -> Result<FeedOutcome, Fault> {
    let chain = FeedChain::new(feed);
    let band = FeedBand::new(&chain, feed.band).map_err(fault)?;
    let mut circuit = FeedCircuit { feed, chain: &chain, resonance: Resonance::new(&chain, feed.band) };
    let absent = band.metrics(Case::Absent);
    let protector = feed.path.protector();
    let fitted = protector.and_then(|p| p.fitted);
    let limits = feed.limits.iter().map(|limit| circuit.judge(limit, fitted)).collect::<Result<Vec<_>, _>>()?;
    let mut budget = Budget::new(limits, protector.and_then(|p| p.spread));
    if !chain.chain().has_no_footprint() {
        let bare = chain.without_footprint();
        let resonance = circuit.resonance.with_footprint_of(&bare, feed.band);
        budget.without_footprint = bare_budget(feed, &bare, resonance)?;
    }
    let mut judge = |capacitance: Farad| -> Result<FeedJudged, Fault> {
        let metrics = band.metrics(Case::With(capacitance.0));
        let resonance = circuit.resonance.at(capacitance.0);
        Ok(FeedJudged {
            capacitance,
            metrics,
            added_loss: metrics.transducer_loss.zip(absent.transducer_loss).map(|(with, without)| with - without),
            resonance,
            detuning: shift(resonance, circuit.resonance.absent()),
            retune: retune(feed, &chain, &circuit.resonance, capacitance)?,
        })
    };
    let fitted = fitted.map(|c| judge(c).map(|judged| FittedOutcome::new(judged, &budget.limits))).transpose()?;
    let at_budget = budget.capacitance.map(&mut judge).transpose()?;
    let resonance = circuit.resonance.absent();
    let load = fitted.as_ref().map(|f| f.judged.capacitance).or(budget.capacitance);
    Ok(FeedOutcome {
        absent,
        resonance,
        bode_fano: load.and_then(|c| bode_fano(&chain, feed.band, c)),
        fitted,
        at_budget,
        budget,
    })
}

fn fault(fault: BandFault) -> Fault {
    match fault {
        BandFault::NotFinite(frequency) => Fault::NotFinite(frequency),
        BandFault::TooManyFrequencies => {
            Fault::TooManyFrequencies { limit: LimitKind::ReturnLoss, cap: MOST_FREQUENCIES }
        }
    }
}

fn shift(with: Option<Hertz>, absent: Option<Hertz>) -> Option<Hertz> {
    with.zip(absent).map(|(with, absent)| with - absent)
}

/// The circuit that the limits of a feed are asked about.
struct FeedCircuit<'a> {
    feed: &'a Feed,
    chain: &'a FeedChain,
    resonance: Resonance<'a>,
}

impl FeedCircuit<'_> {
    /// Judges a limit.
    fn judge(&mut self, limit: &Limit, fitted: Option<Farad>) -> Result<LimitOutcome, Fault> {
        match limit.kind.loss() {
            Some(loss) => {
                let mask = Mask::solve(self.chain, loss, &points(self.feed, limit))?;
                LimitOutcome::over_mask(&mask, limit.kind, fitted)
            }
            None => Ok(self.judge_detuning(level(limit), fitted)),
        }
    }

    fn judge_detuning(&mut self, level: f64, fitted: Option<Farad>) -> LimitOutcome {
        let kind = LimitKind::Detuning;
        let allowed = self.detuned(level);
        let absent = self.resonance.absent();
        let mut headroom = |c: f64| {
            let shift = shift(self.resonance.at(c), absent).map(|f| f.0.abs());
            Headroom::of(kind, level, shift, allowed.contains(c), None)
        };
        LimitOutcome {
            kind,
            capacitance: first_end(&allowed),
            at: None,
            ends_at: Vec::new(),
            at_zero: headroom(0.0),
            fitted: fitted.map(|c| headroom(c.0)),
            absent: Headroom::of(kind, level, absent.map(|_| 0.0), absent.is_some(), None),
            allowed,
        }
    }

    /// The capacitances that shift the resonance by no more than `level` hertz.
    fn detuned(&mut self, level: f64) -> IntervalSet {
        let Some(absent) = self.resonance.absent() else {
            return IntervalSet::none();
        };
        let scale = 2.0 / (TAU * self.feed.band.middle().0 * self.feed.reference.0);
        let margin = |c: f64| {
            let shift = self.resonance.at(c).map(|f| (f.0 - absent.0).abs());
            Ok::<_, std::convert::Infallible>(shift.map_or(f64::NEG_INFINITY, |shift| level - shift))
        };
        let Ok(set) = scan(margin, &probes(scale));
        set.into()
    }
}

/// The points of a limit's mask; a single bound holds all over the band.
fn points(feed: &Feed, limit: &Limit) -> Vec<MaskPoint> {
    match &limit.bound {
        Bound::Mask(points) => points.clone(),
        Bound::Level(level) => {
            let point = |frequency| MaskPoint { level: *level, frequency };
            if feed.band.width().0 == 0.0 {
                vec![point(feed.band.low)]
            } else {
                vec![point(feed.band.low), point(feed.band.high)]
            }
        }
    }
}

/// The bound of a limit that has no mask.
fn level(limit: &Limit) -> f64 {
    match &limit.bound {
        Bound::Level(level) => *level,
        Bound::Mask(points) => points.first().map_or(0.0, |point| point.level),
    }
}

fn bare_budget<'a>(feed: &'a Feed, chain: &'a FeedChain, resonance: Resonance<'a>) -> Result<Option<Farad>, Fault> {
    let mut circuit = FeedCircuit { feed, chain, resonance };
    let mut set = IntervalSet::all();
    for limit in &feed.limits {
        let allowed = match limit.kind.loss() {
            Some(loss) => Mask::solve(chain, loss, &points(feed, limit))?.allowed().clone(),
            None => circuit.detuned(level(limit)),
        };
        set = set.intersect(allowed.intervals());
    }
    Ok(first_end(&set))
}

/// The coils for a capacitance; `None` without a resonance, or without anything to take out.
fn retune(
    feed: &Feed,
    chain: &FeedChain,
    resonance: &Resonance<'_>,
    capacitance: Farad,
) -> Result<Option<Retune>, Fault> {
    let total = capacitance.0 + chain.chain().branch().pad.0;
    let Some(absent) = resonance.absent().filter(|_| total > 0.0) else {
        return Ok(None);
    };
    let omega = TAU * absent.0;
    let shunt = 1.0 / (omega * omega * total);
    let nearest = Henry(nearest_e24(shunt));
    let tuned = chain.with_coil(nearest);
    let case = Case::With(capacitance.0);
    let metrics = FeedBand::new(&tuned, feed.band).map_err(fault)?.metrics(case);
    let detuning = shift(resonance.beside(&tuned, capacitance.0), Some(absent));
    let mut holds = true;
    for limit in &feed.limits {
        holds &= match (limit.kind.loss(), &limit.bound) {
            (None, _) => detuning.is_some_and(|shift| shift.0.abs() <= level(limit)),
            (Some(loss), Bound::Level(level)) => keeps(loss, *level, metrics.reflection),
            (Some(loss), Bound::Mask(points)) => Mask::solve(&tuned, loss, points)?.allowed().contains(capacitance.0),
        };
    }
    Ok(Some(Retune {
        shunt: Henry(shunt),
        series: Henry(total * feed.reference.0 * feed.reference.0),
        nearest,
        metrics,
        detuning,
        holds,
    }))
}

/// Whether a reflection of this size keeps a limit.
fn keeps(kind: LossKind, level: f64, reflection: f64) -> bool {
    let reflection = reflection.into();
    Inequality::of(kind, level, Mobius::constant(reflection), reflection).holds_absent()
}

/// The nearest value of the E24 series by ratio (IEC 60063).
fn nearest_e24(value: f64) -> f64 {
    const E24: [f64; 25] = [
        1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5,
        8.2, 9.1, 10.0,
    ];
    let decade = value.log10().floor() as i32;
    let away = |mantissa: f64| (value / 10f64.powi(decade) / mantissa).ln().abs();
    let nearest = E24.into_iter().min_by(|a, b| away(*a).total_cmp(&away(*b))).unwrap_or(1.0);
    // Rounded once, so that 2.7 nH is the double nearest to 2.7e-9.
    format!("{nearest}e{decade}").parse().unwrap_or(value)
}
