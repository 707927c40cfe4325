//! From a lane to its losses over frequency.

use super::bounded::bounded;
use super::data::{Curve, LimitLine, Picture, Spectrum};
use super::state::State;
use crate::budget::Fault;
use crate::model::{Bounds, Lane, LaneLimit, Loss, Mask};
use crate::network::Chain;
use crate::response::{Case, LossMetrics};
use crate::units::{Hertz, Second};

/// Points of a curve over frequency, and the most where a long path ripples.
const FREQUENCIES: f64 = 500.0;
const MOST_FREQUENCIES: f64 = 8000.0;
/// Points per ripple of a path.
const PER_RIPPLE: f64 = 16.0;
/// Points of a limit's line between two corners of its mask.
pub(crate) const PER_SEGMENT: usize = 64;

/// A loss in dB, and the limits on it.
type Shown = (fn(&LossMetrics) -> Option<f64>, &'static [Loss]);

const LOSS: Shown = (|m| m.insertion_loss, &[Loss::Added, Loss::Insertion]);
const OUTER: Shown = (|m| m.return_loss, &[Loss::Return]);
const INNER: Shown = (|m| m.return_loss_inner, &[Loss::ReturnInner]);

/// Insertion loss, with the limits on it and on what is added to it.
pub(crate) fn loss(lane: &Lane, chain: &Chain, states: &[State]) -> Result<Picture, Fault> {
    let [loss] = spectra(lane, chain, states, [LOSS])?;
    Ok(Picture::Loss(loss))
}

/// Return loss at the reference plane and from the inner end, over the same frequencies.
pub(crate) fn reflection(lane: &Lane, chain: &Chain, states: &[State]) -> Result<Picture, Fault> {
    let [outer, inner] = spectra(lane, chain, states, [OUTER, INNER])?;
    Ok(Picture::Reflection(outer, inner))
}

/// The frequencies of a picture: to twice Nyquist, and beyond the corners of its masks.
struct Over {
    frequencies: Vec<f64>,
    logarithmic: bool,
}

impl Over {
    fn new(lane: &Lane, chain: &Chain, kinds: &[Loss]) -> Over {
        let nyquist = lane.nyquist().0;
        let masks = limits_on(lane, kinds).filter_map(|(_, limit)| limit.mask());
        let corners: Vec<f64> = masks.flat_map(Mask::points).map(|point| point.frequency.0).collect();
        let logarithmic = !corners.is_empty();
        let highest = corners.iter().fold(2.0 * nyquist, |most, f| most.max(1.25 * f));
        let lowest = if logarithmic { corners.iter().fold(nyquist / 10.0, |least, f| least.min(f / 1.5)) } else { 0.0 };
        let mut frequencies = grid(chain.delay_estimate(), lowest, highest, logarithmic);
        frequencies.extend(corners.iter().chain([&nyquist]));
        frequencies.sort_by(f64::total_cmp);
        frequencies.dedup();
        Over { frequencies, logarithmic }
    }

    fn range(&self) -> [f64; 2] {
        let [first, last] = [self.frequencies.first(), self.frequencies.last()];
        [first, last].map(|f| f.copied().unwrap_or(0.0))
    }
}

/// The limits on these losses.
fn limits_on<'a>(lane: &'a Lane, losses: &[Loss]) -> impl Iterator<Item = (Loss, &'a LaneLimit)> {
    lane.limits.iter().filter_map(|limit| match &limit.of {
        LaneLimit::Loss(loss, _) if losses.contains(loss) => Some((*loss, &limit.of)),
        _ => None,
    })
}

/// Losses over the same frequencies, each with the limits of its kinds.
fn spectra<const N: usize>(
    lane: &Lane,
    chain: &Chain,
    states: &[State],
    figures: [Shown; N],
) -> Result<[Spectrum; N], Fault> {
    let nyquist = lane.nyquist().0;
    let shown = Over::new(lane, chain, &figures.map(|(_, kinds)| kinds).concat());
    let mut spectra = figures.map(|(_, kinds)| Spectrum {
        curves: states
            .iter()
            .map(|state| Curve { state: *state, points: Vec::with_capacity(shown.frequencies.len()) })
            .collect(),
        limits: limits_on(lane, kinds).map(|(loss, limit)| limit_line(loss, limit, chain, nyquist)).collect(),
        nyquist_hz: nyquist,
        shown_hz: shown.range(),
        logarithmic: shown.logarithmic,
    });
    for f in &shown.frequencies {
        let point = chain.at(Hertz(*f));
        if !point.is_finite() {
            return Err(Fault::NotFinite(Hertz(*f)));
        }
        for (index, state) in states.iter().enumerate() {
            let scattering = match state.case() {
                Case::Absent => point.absent,
                Case::With(c) => point.at(c),
            };
            let metrics = LossMetrics::of(&scattering);
            for (spectrum, (figure, _)) in spectra.iter_mut().zip(&figures) {
                let value = figure(&metrics).filter(|value| value.is_finite());
                spectrum.curves[index].points.extend(value.map(|value| (*f, value)));
            }
        }
    }
    Ok(spectra)
}

/// Frequencies fine enough for the path's ripple.
pub(crate) fn grid(delay: Second, lowest: f64, highest: f64, logarithmic: bool) -> Vec<f64> {
    let ripples = 2.0 * delay.0 * (highest - lowest);
    let wanted = (PER_RIPPLE * ripples).clamp(FREQUENCIES, MOST_FREQUENCIES);
    let count = if wanted.is_finite() { wanted } else { MOST_FREQUENCIES } as usize;
    let share = |i: usize| i as f64 / count as f64;
    let even = (0..=count).map(|i| lowest + share(i) * (highest - lowest));
    if logarithmic {
        let ratio = (highest / lowest).ln();
        let rising = (0..=count).map(|i| lowest * (ratio * share(i)).exp());
        rising.chain(even).filter(|f| *f <= highest).collect()
    } else {
        even.collect()
    }
}

fn limit_line(loss: Loss, limit: &LaneLimit, chain: &Chain, nyquist: f64) -> LimitLine {
    // The bound of an added loss lies on top of the loss without the protector.
    let base = |f: f64| match loss {
        Loss::Added => LossMetrics::of(&chain.at(Hertz(f)).absent).insertion_loss.unwrap_or(0.0),
        _ => 0.0,
    };
    let level = limit.bound().map(|level| (nyquist, base(nyquist) + level));
    let mask = limit.mask().into_iter().flat_map(|mask| mask.line(PER_SEGMENT));
    let points = level.into_iter().chain(mask.map(|(f, level)| (f, base(f) + level)));
    LimitLine { limit: bounded(limit), points: points.collect(), is_floor: loss.figure().is_floor() }
}
