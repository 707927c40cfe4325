//! Each limit's quadratic and its roots, the budget, and the figures.

use super::circuit::mobius;
use super::write::{heading, say, state_row};
use crate::budget::{Inequality, LaneOutcome, LimitOutcome, quadratic};
use crate::model::{Bound, Lane, Limit, LimitKind, LossKind};
use crate::network::{Chain, Mobius};
use crate::result::{Budget, Headroom, LaneReport, Metrics};
use crate::units::decimal::working::{complex, frequency, picofarad, real};

pub(crate) fn limits(text: &mut String, lane: &Lane, outcome: &LaneOutcome, chain: &Chain) {
    heading(text, "5  Limits", '-');
    say!(text, "  |p + q C| against k |r + s C| is a quadratic: a C^2 + b C + c with");
    say!(text, "    a = |q|^2 - k^2 |s|^2, b = 2 (Re(p q*) - k^2 Re(r s*)), c = |p|^2 - k^2 |r|^2; C in pF; r = 1.");
    for (limit, own) in lane.limits.iter().zip(&outcome.budget.limits) {
        match (&limit.bound, limit.kind.loss()) {
            (Bound::Level(level), Some(loss)) => {
                say!(text, "{} {}, at f_N:", asked(limit.kind), level_text(limit.kind, *level));
                quadratic_of(text, symbol(loss), &Inequality::new(loss, *level, &chain.at(lane.nyquist())));
            }
            (Bound::Mask(_), Some(loss)) => mask(text, limit, loss, own, chain),
            (_, None) => timed(text, limit, own),
        }
        say!(text, "    allowed by itself: {}", set(own));
    }
}

/// The word of a limit and which way it bounds, below an empty row.
pub(crate) fn asked(kind: LimitKind) -> String {
    format!("\n  {} {}", kind.word(), if kind.is_floor() { ">=" } else { "<=" })
}

pub(crate) fn level_text(kind: LimitKind, level: f64) -> String {
    match kind.unit() {
        "" => format!("{} %", real(level * 100.0)),
        "1" => real(level),
        "Hz" => format!("{} MHz", real(level * 1e-6)),
        unit => format!("{} {unit}", real(level)),
    }
}

fn mask(text: &mut String, limit: &Limit, loss: LossKind, own: &LimitOutcome, chain: &Chain) {
    say!(text, "{} a mask, straight in dB over log f:", asked(limit.kind));
    let Some(at) = own.at else {
        return say!(text, "    no frequency of its span bounds the lowest interval from above");
    };
    if let Some(level) = own.allowed.lowest().and_then(|_| level_at(limit, at.0)) {
        say!(text, "    it binds at {}, where the mask asks for {}:", frequency(at.0), level_text(limit.kind, level));
        let inequality = Inequality::new(loss, level, &chain.at(at));
        mobius(text, symbol(loss), inequality.function());
        quadratic_of(text, symbol(loss), &inequality);
    }
}

/// A limit without a quadratic: its figure absent, with the empty footprint, and fitted.
pub(crate) fn timed(text: &mut String, limit: &Limit, own: &LimitOutcome) {
    if let Bound::Level(level) = limit.bound {
        let level = level_text(limit.kind, level);
        say!(text, "{} {level}: no closed form; searched and refined to 1e-9", asked(limit.kind));
    }
    let states = [("absent", Some(own.absent)), ("C = 0", Some(own.at_zero)), ("fitted", own.fitted)];
    for (name, headroom) in states {
        if let Some(value) = headroom.and_then(|h| h.value) {
            say!(text, "    {name}: {}", level_text(limit.kind, value));
        }
    }
}

/// The mask's own level at a frequency of its span; the stricter one at a step.
pub(crate) fn level_at(limit: &Limit, frequency: f64) -> Option<f64> {
    let Bound::Mask(points) = &limit.bound else { return None };
    let stricter = |a: f64, b: f64| if limit.kind.is_floor() { a.max(b) } else { a.min(b) };
    let exact = points.iter().filter(|p| p.frequency.0 == frequency).map(|p| p.level).reduce(stricter);
    exact.or_else(|| {
        points.windows(2).find(|w| w[0].frequency.0 < frequency && frequency < w[1].frequency.0).map(|w| {
            let share = (frequency / w[0].frequency.0).ln() / (w[1].frequency.0 / w[0].frequency.0).ln();
            w[0].level + share * (w[1].level - w[0].level)
        })
    })
}

/// The figure a limit bounds.
fn symbol(kind: LossKind) -> &'static str {
    match kind {
        LossKind::Added | LossKind::Insertion => "S21",
        LossKind::Return | LossKind::StandingWave | LossKind::Mismatch => "S11",
        LossKind::ReturnInner => "S22",
        LossKind::Fundamental => "H",
    }
}

fn bound_text(kind: LossKind) -> &'static str {
    match kind {
        LossKind::Added => "k = |S21(absent)| 10^(-limit/20)",
        LossKind::Fundamental => "k = |H(absent)| (1 - limit)",
        LossKind::Insertion | LossKind::Return | LossKind::ReturnInner => "k = 10^(-limit/20)",
        LossKind::StandingWave => "k = (limit - 1)/(limit + 1)",
        LossKind::Mismatch => "k = sqrt(1 - 10^(-limit/10))",
    }
}

/// The quadratic of a limit on the modulus of `name`, and its roots.
pub(crate) fn quadratic_of(text: &mut String, name: &str, inequality: &Inequality) {
    let (kind, k) = (inequality.kind(), inequality.bound());
    let relation = if kind.is_reflection() { "<=" } else { ">=" };
    say!(text, "    |{name}(C)| {relation} {} = {}", bound_text(kind), real(k));
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

/// One of the ranges of capacitance, or `none` of them.
fn either(ranges: &[(f64, Option<f64>)], none: &str) -> String {
    let range = |&(low, high): &(f64, Option<f64>)| {
        let high = high.map_or("and more".to_owned(), |high| format!("to {}", picofarad(high)));
        format!("{} {high}", picofarad(low))
    };
    let all: Vec<String> = ranges.iter().map(range).collect();
    if all.is_empty() { none.to_owned() } else { all.join(" or ") }
}

pub(crate) fn budget(text: &mut String, budget: &Budget) {
    heading(text, "6  Budget", '-');
    let all = either(&budget.intervals_f, "nothing");
    say!(text, "  All limits together allow {all}: {}.", budget.verdict);
    if let Some(capacitance) = budget.capacitance_f {
        let by = budget.set_by.map_or(String::new(), |by| format!(", set by {by}"));
        let at = budget.set_at_hz.map_or(String::new(), |f| format!(" at {}", frequency(f)));
        say!(text, "  Budget: C = {}{by}{at}; one line to ground, pad excluded.", picofarad(capacitance));
    }
    if let (Some(lowest), Some(by)) = (budget.lowest_f, budget.lowest_set_by) {
        say!(text, "  At least C = {}, set by {by}.", picofarad(lowest));
    }
    let others = [
        ("Bought across the pair: C/2 =", budget.across_pair_f),
        ("Typical value to look for, C/(1 + spread):", budget.shop_for_f),
        ("With pad, stub and ground inductance of the footprint zero:", budget.without_footprint_f),
    ];
    for (said, c) in others.iter().filter_map(|(said, c)| c.map(|c| (said, c))) {
        say!(text, "  {said} {}.", picofarad(c));
    }
}

pub(crate) fn figures(text: &mut String, lane: &Lane, chain: &Chain, report: &LaneReport) {
    heading(text, "7  Figures at f_N", '-');
    say!(
        text,
        "  IL = -20 log10 |S21|, RL = -20 log10 |S11|, inner RL = -20 log10 |S22|, penalty = 1 - |H|/|H(absent)|"
    );
    say!(text, "  (the loss of the fundamental at Nyquist, no eye measurement)");
    let point = chain.at(lane.nyquist());
    let mut state = |name: &str, c: Option<f64>, metrics: &Metrics, penalty: Option<f64>| {
        let s = c.map_or(point.absent, |c| point.at(c));
        state_row(text, name, c);
        say!(text, "    S11 = {}, RL = {}", complex(s.s11), decibel(metrics.return_loss_db));
        say!(text, "    S21 = {}, IL = {}", complex(s.s21), decibel(metrics.insertion_loss_db));
        say!(text, "    S22 = {}, inner RL = {}", complex(s.s22), decibel(metrics.return_loss_inner_db));
        let penalty = penalty.map_or(String::new(), |p| format!(", penalty = {} %", real(p * 100.0)));
        say!(text, "    H = {}, |H| = {}{penalty}", complex(s.transfer), real(metrics.nyquist_amplitude));
    };
    state("absent", None, &report.absent, None);
    if let Some(fitted) = &report.fitted {
        state("fitted", Some(fitted.capacitance_f), &fitted.metrics, Some(fitted.changes.eye_penalty));
    }
    if let Some(at) = &report.at_budget {
        state("at budget", Some(at.capacitance_f), &at.metrics, Some(at.changes.eye_penalty));
    }
    if let Some(fitted) = &report.fitted {
        headroom(text, &fitted.headroom);
    }
}

/// The distance of the fitted value to each limit.
pub(crate) fn headroom(text: &mut String, headroom: &[Headroom]) {
    say!(text, "  Headroom of the fitted value:");
    for h in headroom {
        let kind = LimitKind::ALL.into_iter().find(|kind| kind.word() == h.limit);
        let number = |n: Option<f64>| match (n, kind) {
            (Some(n), Some(kind)) => level_text(kind, n),
            _ => "-".to_owned(),
        };
        let word = if h.holds { "holds" } else { "breaks" };
        let at = h.at_hz.map_or(String::new(), |f| format!(" at {}", frequency(f)));
        let (value, bound, margin) = (number(h.value), number(h.bound), number(h.margin));
        say!(text, "    {}: {value} against {bound}{at}, margin {margin}: {word}", h.limit);
    }
}

pub(crate) fn decibel(value: Option<f64>) -> String {
    value.map_or("none (no reflection, or nothing passes)".to_owned(), |v| format!("{} dB", real(v)))
}
