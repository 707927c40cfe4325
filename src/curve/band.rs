//! From a feed and its outcome to the numbers of its match over the band.

use super::bounded::{bounded, level};
use super::data::{BandMatch, Carries, ChartData, Curve, LimitLine, Minimum, Picture};
use super::frequencies::{PER_SEGMENT, grid};
use super::state::State;
use crate::budget::{At, Fault, FeedChanges, FeedFigures, FeedOutcome, Inequality, Modulus};
use crate::figures::{DETUNING, Figure};
use crate::model::{Antenna, Band, Bounds, Feed, FeedLimit};
use crate::network::{FeedChain, Mobius};
use crate::response::{MOST_FREQUENCIES, return_loss};
use crate::units::Hertz;

/// What is shown to either side of the band, in widths of the band, and at least in shares of its middle.
const MARGIN: f64 = 0.5;
const LEAST_MARGIN: f64 = 0.01;

/// The numbers of the match of a feed of this name over its band. `outcome` is the feed's own.
///
/// # Errors
/// [`Fault::NotFinite`] where the chain overflows.
pub fn feed_chart_data(name: &str, feed: &Feed, outcome: &FeedOutcome) -> Result<ChartData, Fault> {
    let sized = &outcome.sized;
    let fitted = sized.fitted.as_ref().map(|fitted| &fitted.at);
    let mut states = vec![(State::Absent, sized.absent.resonance, None)];
    let with = |state, at: &At<FeedFigures, FeedChanges>| (state, at.figures.resonance, at.changes.detuning);
    states.extend(fitted.map(|f| with(State::Fitted(f.capacitance.0), f)));
    states.extend(sized.at_budget.as_ref().map(|b| with(State::AtBudget(b.capacitance.0), b)));
    let minima: Vec<Minimum> = states
        .iter()
        .filter_map(|(state, at, shift)| {
            Some(Minimum { state: *state, at_hz: (*at)?.0, shift_hz: shift.map(|shift| shift.0) })
        })
        .collect();
    let chain = FeedChain::new(feed);
    let shown = shown(&chain, feed.band, &minima);
    let frequencies = frequencies(&chain, shown, feed.band, &minima);
    let mut curves = Vec::with_capacity(states.len());
    for (state, ..) in states {
        curves.push(curve(&chain, state, &frequencies)?);
    }
    let limits = feed.limits.iter().filter_map(|limit| limit_line(&limit.of, feed.band));
    Ok(ChartData {
        line: name.to_owned(),
        carries: Carries::Band([feed.band.low.0, feed.band.high.0]),
        budget_f: sized.budget.capacitance.map(|c| c.0),
        set_by: sized.budget.set_by.map(Figure::word),
        fitted_f: fitted.map(|fitted| fitted.capacitance.0),
        picture: Picture::Match(BandMatch {
            curves,
            limits: limits.collect(),
            band_hz: [feed.band.low.0, feed.band.high.0],
            shown_hz: [shown.low.0, shown.high.0],
            minima,
            detuning: level(&feed.limits, &DETUNING),
            bode_fano_db: outcome.bode_fano,
        }),
    })
}

/// The band and what lies beside it, the minima included; of a measured antenna what is measured.
fn shown(chain: &FeedChain, band: Band, minima: &[Minimum]) -> Band {
    let least = minima.iter().map(|minimum| minimum.at_hz).fold(band.low.0, f64::min);
    let most = minima.iter().map(|minimum| minimum.at_hz).fold(band.high.0, f64::max);
    let margin = (MARGIN * band.width().0).max(LEAST_MARGIN * band.middle().0);
    let (mut low, mut high) = ((least - margin).max(0.5 * least), most + margin);
    if let Antenna::Table(table) = chain.antenna()
        && let Some(reach) = table.reach()
    {
        (low, high) = (low.max(reach.low.0), high.min(reach.high.0));
    }
    Band { low: Hertz(low), high: Hertz(high) }
}

fn frequencies(chain: &FeedChain, shown: Band, band: Band, minima: &[Minimum]) -> Vec<f64> {
    let Band { low, high } = shown;
    let mut all = grid(chain.delay_estimate(), low.0, high.0, false);
    all.extend(chain.resonances(low, high, MOST_FREQUENCIES));
    all.extend(minima.iter().map(|minimum| minimum.at_hz));
    all.extend([band.low.0, band.high.0]);
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

/// Return loss over frequency; a perfect match is left out.
fn curve(chain: &FeedChain, state: State, frequencies: &[f64]) -> Result<Curve, Fault> {
    let mut points = Vec::with_capacity(frequencies.len());
    for f in frequencies {
        let point = chain.at(Hertz(*f));
        let waves = match state {
            State::Absent => point.absent,
            State::Fitted(c) | State::AtBudget(c) => point.at(c),
        };
        let reflection = waves.reflection.norm();
        if !reflection.is_finite() {
            return Err(Fault::NotFinite(Hertz(*f)));
        }
        points.extend(return_loss(reflection).map(|loss| (*f, loss)));
    }
    Ok(Curve { state, points })
}

/// A limit on |Γ| as the return loss it asks for.
fn limit_line(limit: &FeedLimit, band: Band) -> Option<LimitLine> {
    let modulus = match limit {
        FeedLimit::ReturnLoss(_) => Modulus::Return,
        FeedLimit::Vswr(_) => Modulus::Vswr,
        FeedLimit::MismatchLoss(_) => Modulus::Mismatch,
        FeedLimit::Detuning(_) => return None,
    };
    let points = match (limit.bound(), limit.mask()) {
        (_, Some(mask)) => mask.line(PER_SEGMENT).filter_map(|(f, level)| Some((f, asked(modulus, level)?))).collect(),
        (level, None) => {
            let level = asked(modulus, level?)?;
            let ends = if band.width().0 == 0.0 { &[band.low][..] } else { &[band.low, band.high] };
            ends.iter().map(|f| (f.0, level)).collect()
        }
    };
    Some(LimitLine { limit: bounded(limit), points, is_floor: true })
}

/// The return loss in dB that a limit on |Γ| asks for; `None` where any reflection will do.
fn asked(modulus: Modulus, level: f64) -> Option<f64> {
    let bound = Inequality::of(modulus, level, Mobius::constant(0.0.into()), 0.0.into()).bound();
    return_loss(bound).filter(|loss| loss.is_finite())
}
