//! What the page computes with as its reader moves the capacitance of a lane: the chain's own coefficients.

use std::f64::consts::PI;

use num_complex::Complex64;
use serde::Serialize;

use crate::budget::LaneOutcome;
use crate::model::Lane;
use crate::network::{Chain, ChainPoint, Mobius};
use crate::picture::Frame;
use crate::units::Hertz;

/// Farad to a picofarad, the page's unit.
const PICO: f64 = 1e-12;
/// Points of a curve: the least, the most, and those of one ripple of the path.
const FEWEST: f64 = 160.0;
const MOST: f64 = 400.0;
const PER_RIPPLE: f64 = 8.0;
/// Digits of a curve.
const DIGITS: f64 = 4.0;

/// p, q, r and s of S(C) = (p + qC)/(r + sC), real and imaginary part of each, C in picofarad.
type Coefficients = [f64; 8];

/// A power of ten t, and p, q and s over r with the digits a drawing needs: |S| = 10^t |p + qx|/|10^4 + sx|, x the share
/// of the slider's end. p and q are turned together until p is real; of q and s real and imaginary part.
type OverR = [i64; 6];

/// A lane as functions of the capacitance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Live {
    /// Where the reader begins: what is fitted, or else the budget.
    start_pf: f64,
    /// Where the slider ends.
    highest_pf: f64,
    at_nyquist: AtNyquist,
    panels: Vec<Panel>,
}

/// At the Nyquist frequency, with every digit.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct AtNyquist {
    /// |S21| without the protector.
    absent_s21: f64,
    /// |H| without the protector.
    absent_transfer: f64,
    s11: Coefficients,
    s21: Coefficients,
    s22: Coefficients,
    transfer: Coefficients,
}

/// A panel of a picture, and the curve that goes into it.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Panel {
    picture: usize,
    #[serde(flatten)]
    frame: Frame,
    /// The figure, evenly over the width of the panel; `None` for a panel over the capacitance.
    over_r: Option<Vec<OverR>>,
}

impl Live {
    /// The coefficients for the frames of each picture; `None` where the chain is beyond what can be computed.
    pub(crate) fn of(lane: &Lane, chain: &Chain, outcome: &LaneOutcome, frames: &[Vec<Frame>]) -> Option<Live> {
        let nyquist = Some(chain.at(lane.nyquist())).filter(ChainPoint::is_finite)?;
        let fitted = outcome.sized.fitted.as_ref().map(|fitted| fitted.at.capacitance.0);
        let budget = outcome.sized.budget.capacitance.map(|budget| budget.0);
        // Without either, what halves the amplitude at Nyquist or so.
        let scale = budget.into_iter().chain(fitted).fold(0.0, f64::max);
        let highest = if scale > 0.0 { 2.0 * scale } else { 2.0 / (PI * lane.nyquist().0 * chain.reference().0) };
        let mut panels = Vec::new();
        for (picture, frames) in frames.iter().enumerate() {
            for frame in frames {
                panels.push(Panel { picture, frame: frame.clone(), over_r: curve(chain, frame, highest) });
            }
        }
        let live = Live {
            start_pf: fitted.or(budget).unwrap_or(highest / 2.0) / PICO,
            highest_pf: highest / PICO,
            at_nyquist: AtNyquist {
                absent_s21: nyquist.absent.s21.norm(),
                absent_transfer: nyquist.absent.transfer.norm(),
                s11: coefficients(&nyquist.s11),
                s21: coefficients(&nyquist.s21),
                s22: coefficients(&nyquist.s22),
                transfer: coefficients(&nyquist.transfer),
            },
            panels,
        };
        live.highest_pf.is_finite().then_some(live)
    }

    /// As JSON that may stand inside an element: it has none of the characters of markup.
    pub(crate) fn json(&self) -> String {
        let text = serde_json::to_string(self).unwrap_or_default();
        text.replace('&', "\\u0026").replace('<', "\\u003c").replace('>', "\\u003e")
    }
}

fn coefficients(s: &Mobius) -> Coefficients {
    let (q, s_) = (s.q * PICO, s.s * PICO);
    [s.p.re, s.p.im, q.re, q.im, s.r.re, s.r.im, s_.re, s_.im]
}

/// The curve of a frame over frequency. Where the chain overflows, numbers that nothing is drawn of.
fn curve(chain: &Chain, frame: &Frame, highest: f64) -> Option<Vec<OverR>> {
    let figure: fn(&ChainPoint) -> &Mobius = match frame.figure {
        "insertion_loss_db" => |point| &point.s21,
        "return_loss_db" => |point| &point.s11,
        "return_loss_inner_db" => |point| &point.s22,
        _ => return None,
    };
    let (low, high) = frame.x;
    let ripples = 2.0 * chain.delay_estimate().0 * (high - low);
    let steps = (PER_RIPPLE * ripples).clamp(FEWEST, MOST).ceil() as u32;
    let at = |step: u32| {
        let share = f64::from(step) / f64::from(steps);
        let hertz = if frame.logarithmic { low * (high / low).powf(share) } else { low + share * (high - low) };
        over_r(figure(&chain.at(Hertz(hertz))), highest)
    };
    Some((0..=steps).map(at).collect())
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
