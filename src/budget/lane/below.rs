//! Limits at Nyquist that the lane breaks below it.

use super::circuit::LaneCircuit;
use crate::budget::{Inequality, LimitOutcome};
use crate::figures::Figure;
use crate::model::{LaneLimit, Over};
use crate::network::{Chain, ChainPoint};
use crate::response::{Case, summit};
use crate::units::{Farad, Hertz};

/// Frequencies looked at: the least, the most, and those of one ripple of the path from the port plane in.
const FEWEST: f64 = 20.0;
const MOST: f64 = 160.0;
const PER_RIPPLE: f64 = 8.0;
/// The lowest of them as a share of Nyquist.
const LOWEST: f64 = 0.02;
/// An excess below this is no break, in neper.
const QUIET: f64 = 1e-4;
/// Where the worst of the grid is that far from breaking it is not looked at more closely: e to twice its excess.
const FAR: f64 = 0.9;

/// A loss that keeps its limit at Nyquist and breaks it below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BelowNyquist {
    /// What is bounded.
    pub figure: &'static Figure,
    /// Its bound in dB.
    pub bound: f64,
    /// Its worst value below Nyquist in dB; `None` where nothing passes.
    pub value: Option<f64>,
    /// The frequency of that value.
    pub at: Hertz,
}

/// The limits at Nyquist on a loss that `c` keeps there and breaks below, each at its worst: on a grid of at least 20
/// frequencies from f_N/50 up, 8 to a ripple of the path inward of the port plane, refined around the worst of them.
/// `judged` are the limits of the lane, in its order.
pub(super) fn below_nyquist(circuit: &LaneCircuit<'_>, judged: &[LimitOutcome], c: Farad) -> Vec<BelowNyquist> {
    let (chain, nyquist, case) = (&circuit.chain, &circuit.nyquist, Case::With(c.0));
    let limits = circuit.lane.limits.iter().zip(judged).filter(|(_, judged)| judged.allowed.contains(c.0));
    let kept: Vec<_> = limits
        .filter_map(|(limit, _)| match &limit.of {
            LaneLimit::Loss(loss, Over::Level(level)) => Some(((*loss).into(), *level)),
            _ => None,
        })
        .collect();
    if kept.is_empty() {
        return Vec::new();
    }
    let points = grid(chain, nyquist);
    let last = points.len() - 1;
    let worst = |(modulus, bound)| {
        let at = |point: &ChainPoint| Inequality::new(modulus, bound, point);
        let squared = points.iter().map(|point| at(point).squared(case));
        if squared.clone().all(|square| square < FAR) {
            return None;
        }
        let excess: Vec<f64> = points.iter().map(|point| at(point).excess(case)).collect();
        let most = (0..=last).max_by(|a, b| excess[*a].total_cmp(&excess[*b]))?;
        let around = [most.saturating_sub(1), most, (most + 1).min(last)].map(|i| points[i].frequency.0);
        let exact = |f: f64| Ok::<_, std::convert::Infallible>(at(&chain.at(Hertz(f))).excess(case));
        let Ok(summit) = summit(around, excess[most], exact);
        let found = summit.map_or(points[most], |f| chain.at(Hertz(f)));
        let found = if at(&found).excess(case) > excess[most] { found } else { points[most] };
        let breaks = at(&found).excess(case) > QUIET && found.frequency.0 < nyquist.frequency.0;
        let figure = at(&found).figure();
        breaks.then(|| BelowNyquist { figure, bound, value: at(&found).value(case), at: found.frequency })
    };
    kept.into_iter().filter_map(worst).collect()
}

/// The chain over the frequencies up to Nyquist, which is the last; where it overflows there is nothing to tell.
fn grid(chain: &Chain, nyquist: &ChainPoint) -> Vec<ChainPoint> {
    let top = nyquist.frequency.0;
    let ripples = 2.0 * Chain::line_delay(chain.sections_inward()).0 * top;
    let steps = (PER_RIPPLE * ripples).clamp(FEWEST, MOST).ceil() as u32;
    let shares = (1..steps).map(|k| f64::from(k) / f64::from(steps)).filter(|share| *share > LOWEST);
    let below = std::iter::once(LOWEST).chain(shares).map(|share| chain.at(Hertz(share * top)));
    below.filter(ChainPoint::is_finite).chain([*nyquist]).collect()
}
