//! A lane as functions of the capacitance, for a reader who moves it: the chain's own coefficients.

use num_complex::Complex64;

use crate::budget::{LaneOutcome, usual_capacitance};
use crate::figures::{Figure, INSERTION_LOSS, RETURN_LOSS, RETURN_LOSS_INNER};
use crate::model::Lane;
use crate::network::{Chain, ChainPoint, Mobius};
use crate::units::Hertz;

/// Points of a curve: the least, the most, and those of one ripple of the path.
const FEWEST: f64 = 160.0;
const MOST: f64 = 400.0;
const PER_RIPPLE: f64 = 8.0;
/// Digits of a curve.
const DIGITS: f64 = 4.0;

/// A power of ten t, and p, q and s over r with the digits a drawing needs: |S| = 10^t |p + qx|/|10^4 + sx|, x the share
/// of the slider's end. p and q are turned together until p is real; of q and s real and imaginary part.
pub(crate) type OverR = [i64; 6];

/// The figures that can be drawn over frequency, each with the function of C that gives it.
static DRAWN: [(&Figure, fn(&ChainPoint) -> &Mobius); 3] = [
    (&INSERTION_LOSS, |point| &point.s21),
    (&RETURN_LOSS, |point| &point.s11),
    (&RETURN_LOSS_INNER, |point| &point.s22),
];

/// The capacitances a reader can try on a lane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Slider {
    /// Where the reader begins, in farad: what is fitted, or else the budget.
    pub(crate) start_f: f64,
    /// Where the slider ends, in farad.
    pub(crate) highest_f: f64,
    /// The chain at the Nyquist frequency.
    pub(crate) nyquist: ChainPoint,
}

impl Slider {
    /// The slider of a lane; `None` where the chain is beyond what can be computed.
    pub(crate) fn of(lane: &Lane, chain: &Chain, outcome: &LaneOutcome) -> Option<Slider> {
        let nyquist = Some(chain.at(lane.nyquist())).filter(ChainPoint::is_finite)?;
        let fitted = outcome.sized.fitted.as_ref().map(|fitted| fitted.at.capacitance.0);
        let budget = outcome.sized.budget.capacitance.map(|budget| budget.0);
        let known = budget.into_iter().chain(fitted).fold(0.0, f64::max);
        let scale = if known > 0.0 { known } else { usual_capacitance(lane, chain).0 };
        let highest_f = 2.0 * scale;
        let start_f = fitted.or(budget).unwrap_or(highest_f / 2.0);
        Some(Slider { start_f, highest_f, nyquist })
    }

    /// A figure evenly over the frequencies from `low` to `high`, in hertz; `None` for one that has no such curve. Where
    /// the chain overflows, numbers that nothing is drawn of.
    pub(crate) fn over_frequency(
        &self,
        chain: &Chain,
        figure: &Figure,
        (low, high): (f64, f64),
        logarithmic: bool,
    ) -> Option<Vec<OverR>> {
        let (_, function) = DRAWN.iter().find(|(drawn, _)| *drawn == figure)?;
        let ripples = 2.0 * chain.delay_estimate().0 * (high - low);
        let steps = (PER_RIPPLE * ripples).clamp(FEWEST, MOST).ceil() as u32;
        let at = |step: u32| {
            let share = f64::from(step) / f64::from(steps);
            let hertz = if logarithmic { low * (high / low).powf(share) } else { low + share * (high - low) };
            over_r(function(&chain.at(Hertz(hertz))), self.highest_f)
        };
        Some((0..=steps).map(at).collect())
    }
}

fn over_r(figure: &Mobius, highest: f64) -> OverR {
    let (p, q, s) = (figure.p / figure.r, figure.q * highest / figure.r, figure.s * highest / figure.r);
    let q = q * Complex64::from_polar(1.0, -p.arg());
    let parts = [p.norm(), q.re, q.im];
    let most = parts.iter().fold(0.0f64, |most, part| most.max(part.abs()));
    let ten = most.log10().floor() - DIGITS + 1.0;
    if !(ten.is_finite() && s.is_finite()) {
        return [0; 6];
    }
    let [p, qr, qi] = parts.map(|part| (part / 10f64.powf(ten)).round() as i64);
    let [sr, si] = [s.re, s.im].map(|part| (part * 10f64.powf(DIGITS)).round() as i64);
    [ten as i64, p, qr, qi, sr, si]
}
