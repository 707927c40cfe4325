//! What the page computes with as its reader moves the capacitance of a lane, as its script reads it.

use serde::{Serialize, Serializer};

use crate::budget::LaneOutcome;
use crate::curve::{OverR, Slider};
use crate::figures::Figure;
use crate::model::Lane;
use crate::network::{Chain, Mobius};
use crate::picture::Frame;

/// Farad to a picofarad, the page's unit.
const PICO: f64 = 1e-12;
/// What the script calls the abscissa of a panel over the capacitance.
const CAPACITANCE: &str = "capacitance_f";

/// p, q, r and s of S(C) = (p + qC)/(r + sC), real and imaginary part of each, C in picofarad.
type Coefficients = [f64; 8];

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

/// A panel of a picture as its [`Frame`] tells of it, and the curve that goes into it.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Panel {
    picture: usize,
    #[serde(serialize_with = "key")]
    figure: Option<&'static Figure>,
    area: [f64; 4],
    x: (f64, f64),
    y: (f64, f64),
    logarithmic: bool,
    down: bool,
    /// The figure, evenly over the width of the panel; `None` for a panel over the capacitance.
    over_r: Option<Vec<OverR>>,
}

impl Live {
    /// The coefficients for the frames of each picture; `None` where the chain is beyond what can be computed.
    pub(crate) fn of(lane: &Lane, chain: &Chain, outcome: &LaneOutcome, frames: &[Vec<Frame>]) -> Option<Live> {
        let slider = Slider::of(lane, chain, outcome)?;
        let panel = |picture: usize, frame: &Frame| {
            let Frame { figure, area, x, y, logarithmic, down } = *frame;
            let over_r = figure.and_then(|figure| slider.over_frequency(chain, figure, x, logarithmic));
            Panel { picture, figure, area, x, y, logarithmic, down, over_r }
        };
        let all = frames.iter().enumerate().flat_map(|(picture, frames)| frames.iter().map(move |f| (picture, f)));
        let live = Live {
            start_pf: slider.start_f / PICO,
            highest_pf: slider.highest_f / PICO,
            at_nyquist: AtNyquist {
                absent_s21: slider.nyquist.absent.s21.norm(),
                absent_transfer: slider.nyquist.absent.transfer.norm(),
                s11: coefficients(&slider.nyquist.s11),
                s21: coefficients(&slider.nyquist.s21),
                s22: coefficients(&slider.nyquist.s22),
                transfer: coefficients(&slider.nyquist.transfer),
            },
            panels: all.map(|(picture, frame)| panel(picture, frame)).collect(),
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

fn key<S: Serializer>(figure: &Option<&'static Figure>, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(figure.map_or(CAPACITANCE, |figure| figure.key))
}
