//! The working of an antenna feed.

use std::f64::consts::TAU;

use super::circuit::{Frame, matrix, mobius};
use super::decision::{decibel, level_at, level_text, quadratic_of, set, sign};
use super::write::{heading, line, notes};
use super::{circuit, decision};
use crate::budget::{FeedOutcome, Inequality, LimitOutcome};
use crate::diag::{inert, shorten};
use crate::model::{Antenna, Bound, Feed, Limit, LossKind};
use crate::network::FeedChain;
use crate::result::{FeedChanges, FeedMetrics, FeedReport, Retune};
use crate::units::Hertz;
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{complex, frequency, picofarad, real};

/// The working as text: symbols, antenna, elements, chain, Möbius coefficients, limits, budget, figures, retuning.
///
/// `report` is what [`crate::result::many::size`] made of the same feed and outcome.
pub(crate) fn explain_feed(feed: &Feed, outcome: &FeedOutcome, report: &FeedReport, cautions: &[&str]) -> String {
    let chain = FeedChain::new(feed);
    let mut text = String::new();
    let title = format!("{}: the working", inert(&shorten(&report.name, 80)));
    heading(&mut text, &title, '=');
    symbols(&mut text, feed);
    antenna(&mut text, feed, &chain);
    let frame = Frame { across: 1.0, reference: feed.reference, frequency: feed.band.middle() };
    let title = "3  Elements at f_m, from the antenna in";
    circuit::elements(&mut text, &feed.path, &frame, title);
    seen_by_the_radio(&mut text, feed, &chain);
    limits(&mut text, feed, outcome, &chain);
    decision::budget(&mut text, &report.budget);
    figures(&mut text, feed, outcome, report);
    notes(&mut text, "Defaults used", &report.defaults);
    notes(&mut text, "Warnings", &report.warnings);
    heading(&mut text, "Keep in mind", '-');
    for caution in cautions {
        line(&mut text, &format!("  - {caution}"));
    }
    text
}

fn symbols(text: &mut String, feed: &Feed) {
    heading(text, "1  Symbols", '-');
    let (low, high) = (feed.band.low.0, feed.band.high.0);
    line(text, &format!("  Band {} to {}", frequency(low), frequency(high)));
    let middle = feed.band.middle().0;
    let omega = real(TAU * middle);
    let middle = frequency(middle);
    line(text, &format!("  Middle f_m = {middle}, omega = 2 pi f_m = {omega} rad/s"));
    line(text, &format!("  Reference Z = {} ohm, single-ended", real(feed.reference.0)));
}

fn antenna(text: &mut String, feed: &Feed, chain: &FeedChain) {
    heading(text, "2  Antenna", '-');
    line(
        text,
        match chain.antenna() {
            Antenna::Series(_) => "  Z_a = R (1 + j Q (f/f0 - f0/f))",
            Antenna::Parallel(_) => "  1/Z_a = (1/R) (1 + j Q (f/f0 - f0/f))",
            Antenna::Resistance(_) => "  Z_a = R",
            Antenna::Table(_) => {
                "  Z_a = Z_table (1 + G)/(1 - G), G the measured reflection, its dB and its angle straight between points"
            }
        },
    );
    let band = feed.band;
    for at in [band.low, band.middle(), band.high] {
        let impedance = complex(chain.antenna_impedance(at));
        line(text, &format!("    at {}: Z_a = {impedance} ohm", frequency(at.0)));
    }
}

fn seen_by_the_radio(text: &mut String, feed: &Feed, chain: &FeedChain) {
    heading(text, "4  What the radio sees at f_m", '-');
    let middle = feed.band.middle();
    let [outer, inner] = chain.chain().halves(middle);
    line(text, "  Product of the matrices from the antenna to the protector:");
    matrix(text, &outer);
    line(text, "  and from the protector to the radio:");
    matrix(text, &inner);
    line(text, "  Y(C) = (p + q C)/(r + s C) of the protector with its pad, C in pF, Y in siemens:");
    mobius(text, "Y", &chain.chain().branch().admittance(middle));
    line(text, "  From [A B; C D] of the whole path, w0 = A + Z_a C, w1 = B + Z_a D:");
    line(text, "    Gamma = (w1 - w0 Z)/(w1 + w0 Z), looking out; transducer gain = 4 Z Re(Z_a)/|w1 + w0 Z|^2");
    line(text, "  The protector adds Y(C) times a product, so Gamma(C) = (p + q C)/(r + s C), C in pF:");
    let point = chain.at(middle);
    mobius(text, "Gamma", &point.reflection);
    let absent = point.absent.reflection;
    let (value, size) = (complex(absent), real(absent.norm()));
    line(text, &format!("      absent: Gamma = {value}, |Gamma| = {size}"));
}

fn limits(text: &mut String, feed: &Feed, outcome: &FeedOutcome, chain: &FeedChain) {
    heading(text, "5  Limits", '-');
    line(text, "  |p + q C| against k |r + s C| is a quadratic: a C^2 + b C + c with");
    line(text, "    a = |q|^2 - k^2 |s|^2, b = 2 (Re(p q*) - k^2 Re(r s*)), c = |p|^2 - k^2 |r|^2; C in pF; r = 1,");
    line(text, "  at every frequency of the band or mask; the sets of all frequencies are intersected.");
    for (limit, own) in feed.limits.iter().zip(&outcome.budget.limits) {
        match limit.kind.loss() {
            Some(loss) => over_frequency(text, limit, loss, own, chain),
            None => decision::timed(text, limit, &limit.bound, own),
        }
        line(text, &format!("    allowed by itself: {}", set(own)));
    }
}

fn over_frequency(text: &mut String, limit: &Limit, loss: LossKind, own: &LimitOutcome, chain: &FeedChain) {
    let said = match &limit.bound {
        Bound::Level(level) => format!("{}, all over the band", level_text(limit.kind, *level)),
        Bound::Mask(_) => "a mask, straight in dB over log f".to_owned(),
    };
    line(text, &format!("\n  {} {} {said}:", limit.kind.word(), sign(limit.kind)));
    let Some(at) = own.at else {
        line(text, "    no frequency bounds the lowest interval from above");
        return;
    };
    let level = match &limit.bound {
        Bound::Level(level) => Some(*level),
        Bound::Mask(_) => level_at(limit, at.0),
    };
    if let Some(level) = level {
        let (place, level_said) = (frequency(at.0), level_text(limit.kind, level));
        line(text, &format!("    it binds at {place}, at {level_said}:"));
        let point = chain.at(at);
        mobius(text, "Gamma", &point.reflection);
        let inequality = Inequality::of(loss, level, point.reflection, point.absent.reflection);
        quadratic_of(text, "Gamma", &inequality);
    }
}

fn figures(text: &mut String, feed: &Feed, outcome: &FeedOutcome, report: &FeedReport) {
    heading(text, "7  Figures over the band, at their worst", '-');
    line(
        text,
        "  RL = -20 log10 |Gamma|, VSWR = (1 + |Gamma|)/(1 - |Gamma|), mismatch loss = -10 log10(1 - |Gamma|^2)",
    );
    state(text, "absent", None, (&report.absent, outcome.absent.at), None);
    if let (Some(fitted), Some(own)) = (&report.fitted, &outcome.fitted) {
        let c = Some(fitted.capacitance_f);
        let at = own.judged.metrics.at;
        state(text, "fitted", c, (&fitted.metrics, at), Some(&fitted.changes));
    }
    if let (Some(report), Some(own)) = (&report.at_budget, &outcome.at_budget) {
        let c = Some(report.capacitance_f);
        state(text, "at budget", c, (&report.metrics, own.metrics.at), Some(&report.changes));
    }
    if let Some(bound) = report.bode_fano_return_loss_db {
        line(
            text,
            "  Bode and Fano: |Gamma| = exp(-1/(2 R C_tot df)) all over the band at best, C_tot = C + C_pad + Q/(2 pi f0 R),",
        );
        let width = frequency(feed.band.width().0);
        line(text, &format!("    df = {width}: RL = {} dB", real(bound)));
    }
    if let Some(peak) = feed.peak_voltage(outcome.absent.reflection) {
        line(text, "  Peak voltage of the stated power, sqrt(2 P Z) (1 + |Gamma|) at the worst of the band:");
        line(text, &format!("    absent: {} V", real(peak.0)));
        let fitted = outcome.fitted.as_ref();
        if let Some(peak) = fitted.and_then(|f| feed.peak_voltage(f.judged.metrics.reflection)) {
            line(text, &format!("    fitted: {} V", real(peak.0)));
        }
    }
    if let Some(fitted) = &report.fitted {
        decision::headroom(text, &fitted.headroom);
    }
}

fn state(
    text: &mut String,
    name: &str,
    c: Option<f64>,
    (metrics, at): (&FeedMetrics, Hertz),
    changes: Option<&FeedChanges>,
) {
    let with = c.map_or(String::new(), |c| format!(", C = {}", picofarad(c)));
    let number = |value: Option<f64>| value.map_or("none".to_owned(), real);
    line(text, &format!("  {name}{with}:"));
    let (size, place, loss) = (real(metrics.reflection), frequency(at.0), decibel(metrics.return_loss_db));
    line(text, &format!("    |Gamma| = {size} at {place}, RL = {loss}"));
    let (ratio, mismatch) = (number(metrics.vswr), number(metrics.mismatch_loss_db));
    let transducer = number(metrics.transducer_loss_db);
    line(text, &format!("    VSWR = {ratio}, mismatch loss = {mismatch} dB, transducer loss = {transducer} dB"));
    let resonance = metrics.resonance_hz.map_or("none".to_owned(), frequency);
    let shift = changes.and_then(|c| c.detuning_hz);
    let shift = shift.map_or(String::new(), |shift| format!(", shifted by {} Hz", real(shift)));
    line(text, &format!("    least reflection at {resonance}{shift}"));
    if let Some(retune) = changes.and_then(|c| c.retune.as_ref()) {
        coils(text, retune);
    }
}

fn coils(text: &mut String, retune: &Retune) {
    let [shunt, nearest, series] =
        [retune.shunt_inductance_h, retune.nearest_e24_h, retune.series_inductance_h].map(|l| si(l, "H"));
    line(
        text,
        &format!(
            "    to tune back (estimate): L = 1/(omega0^2 (C + C_pad)) = {shunt} to ground, nearest E24 value {nearest},"
        ),
    );
    let loss = decibel(retune.return_loss_db);
    let word = if retune.holds { "every limit holds" } else { "a limit breaks" };
    line(text, &format!("      which leaves RL = {loss}: {word}; or L = (C + C_pad) Z^2 = {series} in series"));
}
