//! The working of an antenna feed.

use std::f64::consts::TAU;

use super::circuit::{Frame, mobius};
use super::decision::{asked, decibel, quadratic_of, set};
use super::write::{Last, finish, heading, level_text, say, state_row, titled};
use super::{circuit, decision};
use crate::budget::{FeedChanges, FeedFigures, FeedOutcome, Inequality, LimitOutcome, Modulus, Retune};
use crate::model::{Antenna, Bounds, Feed, FeedLimit};
use crate::network::FeedChain;
use crate::result::{FeedResult, State};
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{complex, frequency, real};

/// The working as text: symbols, antenna, elements, chain, Möbius coefficients, limits, budget, figures, retuning.
///
/// `result` is what was found of the same feed.
pub(crate) fn explain_feed(feed: &Feed, result: &FeedResult, last: &Last<'_>) -> String {
    let chain = FeedChain::new(feed);
    let mut text = titled(&result.head.name);
    symbols(&mut text, feed);
    circuit::of_line(&mut text, last.values);
    antenna(&mut text, feed, &chain);
    let values = last.values;
    let frame = Frame { values, across: 1.0, reference: feed.reference, frequency: feed.band.middle() };
    circuit::elements(&mut text, &feed.path, &frame, "3  Elements at f_m, from the antenna in");
    seen_by_the_radio(&mut text, feed, &chain);
    limits(&mut text, feed, &result.outcome, &chain);
    decision::budget(&mut text, result.budget());
    figures(&mut text, feed, result);
    finish(&mut text, &result.head, last);
    text
}

fn symbols(text: &mut String, feed: &Feed) {
    heading(text, "1  Symbols", '-');
    say!(text, "  Band {} to {}", frequency(feed.band.low.0), frequency(feed.band.high.0));
    let middle = feed.band.middle().0;
    say!(text, "  Middle f_m = {}, omega = 2 pi f_m = {} rad/s", frequency(middle), real(TAU * middle));
    say!(text, "  Reference Z = {} ohm, single-ended", real(feed.reference.0));
}

fn antenna(text: &mut String, feed: &Feed, chain: &FeedChain) {
    heading(text, "2  Antenna", '-');
    let formula = match chain.antenna() {
        Antenna::Series(_) => "Z_a = R (1 + j Q (f/f0 - f0/f))",
        Antenna::Parallel(_) => "1/Z_a = (1/R) (1 + j Q (f/f0 - f0/f))",
        Antenna::Resistance(_) => "Z_a = R",
        Antenna::Table(_) => {
            "Z_a = Z_table (1 + G)/(1 - G), G the measured reflection, its dB and its angle straight between points"
        }
    };
    say!(text, "  {formula}");
    for at in [feed.band.low, feed.band.middle(), feed.band.high] {
        say!(text, "    at {}: Z_a = {} ohm", frequency(at.0), complex(chain.antenna_impedance(at)));
    }
}

fn seen_by_the_radio(text: &mut String, feed: &Feed, chain: &FeedChain) {
    heading(text, "4  What the radio sees at f_m", '-');
    let middle = feed.band.middle();
    circuit::halves(text, chain.chain(), middle, ("antenna", "radio"));
    mobius(text, "Y", &chain.chain().branch().admittance(middle));
    say!(text, "  From [A B; C D] of the whole path, w0 = A + Z_a C, w1 = B + Z_a D:");
    say!(text, "    Gamma = (w1 - w0 Z)/(w1 + w0 Z), looking out; transducer gain = 4 Z Re(Z_a)/|w1 + w0 Z|^2");
    say!(text, "  The protector adds Y(C) times a product, so Gamma(C) = (p + q C)/(r + s C), C in pF:");
    let point = chain.at(middle);
    mobius(text, "Gamma", &point.reflection);
    let absent = point.absent.reflection;
    say!(text, "      absent: Gamma = {}, |Gamma| = {}", complex(absent), real(absent.norm()));
}

fn limits(text: &mut String, feed: &Feed, outcome: &FeedOutcome, chain: &FeedChain) {
    heading(text, "5  Limits", '-');
    say!(text, "  |p + q C| against k |r + s C| is a quadratic: a C^2 + b C + c with");
    say!(text, "    a = |q|^2 - k^2 |s|^2, b = 2 (Re(p q*) - k^2 Re(r s*)), c = |p|^2 - k^2 |r|^2; C in pF; r = 1,");
    say!(text, "  at every frequency of the band or mask; the sets of all frequencies are intersected.");
    for (limit, own) in feed.limits.iter().zip(&outcome.sized.budget.limits) {
        match limit.of {
            FeedLimit::ReturnLoss(_) => over_frequency(text, &limit.of, Modulus::Return, own, chain),
            FeedLimit::Vswr(_) => over_frequency(text, &limit.of, Modulus::Vswr, own, chain),
            FeedLimit::MismatchLoss(_) => over_frequency(text, &limit.of, Modulus::Mismatch, own, chain),
            FeedLimit::Detuning(_) => decision::timed(text, &limit.of, own),
        }
        say!(text, "    allowed by itself: {}", set(own));
    }
}

fn over_frequency(text: &mut String, limit: &FeedLimit, modulus: Modulus, own: &LimitOutcome, chain: &FeedChain) {
    let figure = limit.figure();
    let said = match limit.bound() {
        Some(level) => format!("{}, all over the band", level_text(figure, level)),
        None => "a mask, straight in dB over log f".to_owned(),
    };
    say!(text, "{} {said}:", asked(figure));
    let Some(at) = own.at else {
        return say!(text, "    no frequency bounds the lowest interval from above");
    };
    if let Some(level) = limit.bound().or_else(|| limit.mask()?.level(at, figure.sense())) {
        say!(text, "    it binds at {}, at {}:", frequency(at.0), level_text(figure, level));
        let point = chain.at(at);
        mobius(text, "Gamma", &point.reflection);
        let inequality = Inequality::of(modulus, level, point.reflection, point.absent.reflection);
        quadratic_of(text, "Gamma", &inequality);
    }
}

fn figures(text: &mut String, feed: &Feed, result: &FeedResult) {
    heading(text, "7  Figures over the band, at their worst", '-');
    say!(
        text,
        "  RL = -20 log10 |Gamma|, VSWR = (1 + |Gamma|)/(1 - |Gamma|), mismatch loss = -10 log10(1 - |Gamma|^2)"
    );
    result.states().for_each(|of| state(text, &of));
    if let Some(bound) = result.outcome.bode_fano {
        say!(
            text,
            "  Bode and Fano: |Gamma| = exp(-1/(2 R C_tot df)) all over the band at best, C_tot = C + C_pad + Q/(2 pi f0 R),"
        );
        say!(text, "    df = {}: RL = {} dB", frequency(feed.band.width().0), real(bound));
    }
    if let Some(peak) = feed.peak_voltage(result.outcome.sized.absent.band.voltage) {
        say!(
            text,
            "  Peak voltage at the protector, the highest of the band: sqrt(8 P Z) |V/V_0|, V_0 the open voltage of the radio:"
        );
        say!(text, "    absent: {} V", real(peak.0));
        if let Some(peak) = result.fitted().and_then(|f| feed.peak_voltage(f.at.figures.band.voltage)) {
            say!(text, "    fitted: {} V", real(peak.0));
        }
    }
    if let Some(fitted) = result.fitted() {
        decision::headroom(text, &fitted.headroom);
    }
}

fn state(text: &mut String, state: &State<FeedFigures, FeedChanges>) {
    let number = |value: Option<f64>| value.map_or("none".to_owned(), real);
    let metrics = &state.figures.band;
    state_row(text, state);
    let (size, place, loss) = (real(metrics.reflection), frequency(metrics.at.0), decibel(metrics.return_loss()));
    say!(text, "    |Gamma| = {size} at {place}, RL = {loss}");
    let (ratio, mismatch) = (number(metrics.vswr()), number(metrics.mismatch_loss()));
    let transducer = number(metrics.transducer_loss);
    say!(text, "    VSWR = {ratio}, mismatch loss = {mismatch} dB, transducer loss = {transducer} dB");
    let resonance = state.figures.resonance.map_or("none".to_owned(), |f| frequency(f.0));
    let shift = state.changes.and_then(|changes| changes.detuning);
    let shift = shift.map_or(String::new(), |shift| format!(", shifted by {} Hz", real(shift.0)));
    say!(text, "    least reflection at {resonance}{shift}");
    if let Some(retune) = state.changes.and_then(|changes| changes.retune.as_ref()) {
        coils(text, retune);
    }
}

fn coils(text: &mut String, retune: &Retune) {
    let [shunt, nearest, series] = [retune.shunt, retune.nearest, retune.series].map(|l| si(l.0, "H"));
    say!(
        text,
        "    to tune back (estimate): L = 1/(omega0^2 (C + C_pad)) = {shunt} to ground, nearest E24 value {nearest},"
    );
    let loss = decibel(retune.metrics.return_loss());
    let word = if retune.holds { "every limit holds" } else { "a limit breaks" };
    say!(text, "      which leaves RL = {loss}: {word}; or L = (C + C_pad) Z^2 = {series} in series");
}
