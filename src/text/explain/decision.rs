//! Each limit's quadratic and its roots, the budget, and the figures.

use super::circuit::mobius;
use super::write::{either, heading, level_text, say, state_row};
use crate::budget::{Budget, Headroom, Inequality, LaneOutcome, LimitOutcome, Measure, Modulus, quadratic};
use crate::figures::{EYE_PENALTY, Figure};
use crate::model::{Bounds, Lane, LaneLimit, Mask, Over};
use crate::network::Function;
use crate::network::{Chain, Mobius};
use crate::result::LaneResult;
use crate::units::decimal::working::{complex, frequency, picofarad, real};
use crate::words::limits::{closed_eye, gain, profile_read};

pub(crate) fn limits(text: &mut String, lane: &Lane, outcome: &LaneOutcome, chain: &Chain) {
    heading(text, "5  Limits", '-');
    say!(text, "  |p + q C| against k |r + s C| is a quadratic: a C^2 + b C + c with");
    say!(text, "    a = |q|^2 - k^2 |s|^2, b = 2 (Re(p q*) - k^2 Re(r s*)), c = |p|^2 - k^2 |r|^2; C in pF; r = 1.");
    for (limit, own) in lane.limits.iter().zip(&outcome.sized.budget.limits) {
        let mut at_nyquist = |modulus: Modulus, level| {
            let figure = limit.of.figure();
            say!(text, "{} {}, at f_N:", asked(figure), level_text(figure, level));
            quadratic_of(text, symbol(modulus), &Inequality::new(modulus, level, &chain.at(lane.nyquist())));
        };
        match &limit.of {
            LaneLimit::Loss(loss, Over::Level(level)) => at_nyquist((*loss).into(), *level),
            LaneLimit::EyePenalty(level) => at_nyquist(Modulus::Fundamental, *level),
            LaneLimit::Loss(loss, Over::Mask(corners)) => mask(text, corners, (*loss).into(), own, chain),
            other => timed(text, other, own),
        }
        if matches!(limit.of, LaneLimit::WorstEyePenalty(_)) && own.absent.value.is_none() {
            say!(text, "    {}", closed_eye(outcome.sized.absent.time.eye_height));
        }
        say!(text, "    allowed by itself: {}", set(own));
    }
}

/// The word of a limit and which way it bounds, below an empty row.
pub(crate) fn asked(figure: &Figure) -> String {
    format!("\n  {} {}", figure.word(), figure.sense().sign())
}

fn mask(text: &mut String, mask: &Mask, modulus: Modulus, own: &LimitOutcome, chain: &Chain) {
    let figure = modulus.figure();
    say!(text, "{} a mask, straight in dB over log f:", asked(figure));
    let Some(at) = own.at else {
        return say!(text, "    no frequency of its span bounds the lowest interval from above");
    };
    if let Some(level) = own.allowed.lowest().and_then(|_| mask.level(at, figure.sense())) {
        say!(text, "    it binds at {}, where the mask asks for {}:", frequency(at.0), level_text(figure, level));
        let inequality = Inequality::new(modulus, level, &chain.at(at));
        mobius(text, symbol(modulus), inequality.function());
        quadratic_of(text, symbol(modulus), &inequality);
    }
}

/// A limit without a quadratic: its figure absent, with the empty footprint, and fitted.
pub(crate) fn timed(text: &mut String, limit: &impl Bounds, own: &LimitOutcome) {
    let figure = limit.figure();
    if let Some(level) = limit.bound() {
        let (level, read) = (level_text(figure, level), profile_read(limit.below(), &limit.read()));
        say!(text, "{} {level}{read}: no closed form; searched and refined to 1e-9", asked(figure));
    }
    let states = [("absent", Some(own.absent)), ("C = 0", Some(own.at_zero)), ("fitted", own.fitted)];
    for (name, headroom) in states {
        if let Some(value) = headroom.and_then(|h| h.value) {
            say!(text, "    {name}: {}", level_text(figure, value));
        }
    }
}

/// The function a limit bounds.
fn symbol(modulus: Modulus) -> &'static str {
    match modulus.function() {
        Function::S11 => "S11",
        Function::S21 => "S21",
        Function::S22 => "S22",
        Function::Transfer => "H",
    }
}

fn bound_text(measure: Measure, name: &str) -> String {
    match measure {
        Measure::Decibels => "k = 10^(-limit/20)".to_owned(),
        Measure::AddedDecibels => format!("k = |{name}(absent)| 10^(-limit/20)"),
        Measure::LostShare => format!("k = |{name}(absent)| (1 - limit)"),
        Measure::StandingWave => "k = (limit - 1)/(limit + 1)".to_owned(),
        Measure::MismatchLoss => "k = sqrt(1 - 10^(-limit/10))".to_owned(),
    }
}

/// The quadratic of a limit on the modulus of `name`, and its roots.
pub(crate) fn quadratic_of(text: &mut String, name: &str, inequality: &Inequality) {
    let (modulus, k) = (inequality.modulus(), inequality.bound());
    let relation = if modulus.is_reflection() { "<=" } else { ">=" };
    say!(text, "    |{name}(C)| {relation} {} = {}", bound_text(modulus.measure(), name), real(k));
    let f = inequality.function();
    let unit = if f.r.norm() > 0.0 { f.r } else { return };
    let scaled = Mobius { p: f.p / unit, q: f.q / unit, r: f.r / unit, s: f.s / unit };
    let [c, b, a] = quadratic(&scaled, k);
    // The closed form divides by its largest term; r = 1 is easier to follow by hand.
    let size =
        [scaled.p.norm(), scaled.q.norm() * 1e-12, k, k * scaled.s.norm() * 1e-12].into_iter().fold(0.0, f64::max);
    let [c, b, a] = [c, b, a].map(|x| x * size * size);
    say!(text, "    a = {}, b = {}, c = {}", real(a), real(b), real(c));
    let discriminant = b * b - 4.0 * a * c;
    if a != 0.0 && discriminant >= 0.0 {
        let root = discriminant.sqrt();
        let (one, other) = ((-b - root) / (2.0 * a), (-b + root) / (2.0 * a));
        say!(text, "    roots: C = {} pF and {} pF", real(one.min(other)), real(one.max(other)));
    } else if a != 0.0 {
        say!(text, "    no real root: the limit holds for every C or for none");
    } else if b != 0.0 {
        say!(text, "    root: C = {} pF", real(-c / b));
    }
}

/// What a limit allows by itself.
pub(crate) fn set(own: &LimitOutcome) -> String {
    either(&own.allowed.ends(), "no capacitance")
}

pub(crate) fn budget(text: &mut String, budget: &Budget) {
    heading(text, "6  Budget", '-');
    let all = either(&budget.allowed.ends(), "nothing");
    say!(text, "  All limits together allow {all}: {}.", budget.verdict.word());
    if let Some(capacitance) = budget.capacitance {
        let by = budget.set_by.map_or(String::new(), |by| format!(", set by {}", by.word()));
        let at = budget.set_at.map_or(String::new(), |f| format!(" at {}", frequency(f.0)));
        say!(text, "  Budget: C = {}{by}{at}; one line to ground, pad excluded.", picofarad(capacitance.0));
    }
    if let (Some(lowest), Some(by)) = (budget.lowest, budget.lowest_set_by) {
        say!(text, "  At least C = {}, set by {}.", picofarad(lowest.0), by.word());
    }
    let others = [
        ("Bought across the pair: C/2 =", budget.across_pair),
        ("Typical value to look for, C/(1 + spread):", budget.shop_for),
        ("With pad, stub and ground inductance of the footprint zero:", budget.without_footprint),
    ];
    for (said, c) in others.iter().filter_map(|(said, c)| c.map(|c| (said, c))) {
        say!(text, "  {said} {}.", picofarad(c.0));
    }
}

pub(crate) fn figures(text: &mut String, lane: &Lane, chain: &Chain, result: &LaneResult) {
    heading(text, "7  Figures at f_N", '-');
    say!(
        text,
        "  IL = -20 log10 |S21|, RL = -20 log10 |S11|, inner RL = -20 log10 |S22|, penalty = 1 - |H|/|H(absent)|"
    );
    say!(text, "  (the loss of the fundamental at Nyquist, no eye measurement)");
    let point = chain.at(lane.nyquist());
    for state in result.states() {
        let s = state.capacitance.map_or(point.absent, |c| point.at(c.0));
        let loss = &state.figures.loss;
        state_row(text, &state);
        say!(text, "    S11 = {}, RL = {}", complex(s.s11), decibel(loss.return_loss));
        say!(text, "    S21 = {}, IL = {}", complex(s.s21), decibel(loss.insertion_loss));
        say!(text, "    S22 = {}, inner RL = {}", complex(s.s22), decibel(loss.return_loss_inner));
        let penalty = state.changes.map(|changes| format!(", {}", penalty(changes.loss.eye_penalty)));
        let penalty = penalty.unwrap_or_default();
        say!(text, "    H = {}, |H| = {}{penalty}", complex(s.transfer), real(loss.nyquist_amplitude));
    }
    if let Some(fitted) = result.fitted() {
        headroom(text, &fitted.headroom);
    }
}

/// An eye penalty in percent; a negative one is a gain.
pub(crate) fn penalty(share: f64) -> String {
    let said = if gain(&EYE_PENALTY, share).is_some() { " (a gain)" } else { "" };
    format!("penalty = {} %{said}", real(share * 100.0))
}

/// The distance of the fitted value to each limit.
pub(crate) fn headroom(text: &mut String, headroom: &[Headroom]) {
    say!(text, "  Headroom of the fitted value:");
    for h in headroom {
        let number = |n: Option<f64>| n.map_or("-".to_owned(), |n| level_text(h.figure, n));
        let word = if h.holds { "holds" } else { "breaks" };
        let at = h.at.map_or(String::new(), |f| format!(" at {}", frequency(f.0)));
        let (value, bound, margin) = (number(h.value), level_text(h.figure, h.bound), number(h.margin));
        say!(text, "    {}: {value} against {bound}{at}, margin {margin}: {word}", h.figure.word());
    }
}

pub(crate) fn decibel(value: Option<f64>) -> String {
    value.map_or("none (no reflection, or nothing passes)".to_owned(), |v| format!("{} dB", real(v)))
}
