//! From a lane and its outcome to the numbers of a picture.

use super::data::{Carries, ChartData, Curve, EyeOutline, LimitLine, Phase, Picture, Place, Profile, Spectrum, State};
use super::{Show, sweep};
use crate::budget::{Fault, LaneOutcome};
use crate::model::{Bound, Element, Lane, Limit, LimitKind, MaskPoint};
use crate::network::{Chain, PortPlane, sections_of};
use crate::report::limits;
use crate::response::{Case, LaneTime, LossMetrics, profile_impedance};
use crate::units::{Hertz, Second, engineering};

/// Points of a curve over frequency, and the most where a long path ripples.
const FREQUENCIES: f64 = 500.0;
const MOST_FREQUENCIES: f64 = 8000.0;
/// Points per ripple of a path.
const PER_RIPPLE: f64 = 16.0;
/// Phases of an eye per unit interval.
const PHASES: i32 = 64;
/// Times of a reflection profile.
const TIMES: i32 = 400;

/// The numbers of one picture. `outcome` is the lane's own.
///
/// # Errors
/// [`Fault::NotSettled`] where a figure of the time domain does not settle; [`Fault::NotFinite`] where the chain overflows.
pub fn chart_data(lane: &Lane, outcome: &LaneOutcome, show: Show) -> Result<ChartData, Fault> {
    let chain = Chain::new(lane);
    let states = states(outcome);
    let picture = match show {
        Show::Loss => {
            let shown = Shown::new(lane, &chain, &LOSS);
            Picture::Loss(spectrum(lane, &chain, &states, insertion_loss, &LOSS, &shown)?)
        }
        Show::Reflection => {
            let shown = Shown::new(lane, &chain, &[OUTER, INNER].concat());
            let at = |figure, kinds| spectrum(lane, &chain, &states, figure, kinds, &shown);
            Picture::Reflection(at(return_loss, &OUTER)?, at(return_loss_inner, &INNER)?)
        }
        Show::Penalty => Picture::Penalty(sweep::sweep(lane, &chain, outcome)?),
        Show::Eye => Picture::Eye(eyes(lane, &chain, &states)?),
        Show::Impedance => Picture::Impedance(profile(lane, &chain, &states)?),
    };
    Ok(ChartData {
        line: lane.name.clone(),
        carries: Carries::Symbols {
            modulation: lane.modulation.word(),
            rate_bd: lane.symbol_rate.0,
            nyquist_hz: lane.nyquist().0,
        },
        budget_f: outcome.budget.capacitance.map(|c| c.0),
        set_by: outcome.budget.set_by.map(LimitKind::word),
        fitted_f: outcome.fitted.as_ref().map(|fitted| fitted.judged.capacitance.0),
        picture,
    })
}

fn states(outcome: &LaneOutcome) -> Vec<State> {
    let fitted = outcome.fitted.as_ref().map(|f| State::Fitted(f.judged.capacitance.0));
    let at_budget = outcome.at_budget.as_ref().map(|b| State::AtBudget(b.capacitance.0));
    [Some(State::Absent), fitted, at_budget].into_iter().flatten().collect()
}

fn case(state: State) -> Case {
    match state {
        State::Absent => Case::Absent,
        State::Fitted(c) | State::AtBudget(c) => Case::With(c),
    }
}

/// The limit as the sheet states it, without the points of a mask.
pub(super) fn label(limit: &Limit) -> String {
    let word = limit.kind.word();
    match &limit.bound {
        // Times and resistances read better with a prefix.
        Bound::AtNyquist(level) if matches!(limit.kind.unit(), "s" | "ohm" | "V") => {
            let unit = limit.kind.unit();
            format!("{word} {} {}", limits::comparison(word), engineering(*level, unit))
        }
        Bound::AtNyquist(level) => format!("{word} {}", limits::stated(word, *level)),
        Bound::Mask(_) => format!("{word} mask"),
    }
}

type Figure = fn(&LossMetrics) -> Option<f64>;

fn insertion_loss(metrics: &LossMetrics) -> Option<f64> {
    metrics.insertion_loss
}

fn return_loss(metrics: &LossMetrics) -> Option<f64> {
    metrics.return_loss
}

fn return_loss_inner(metrics: &LossMetrics) -> Option<f64> {
    metrics.return_loss_inner
}

const LOSS: [LimitKind; 2] = [LimitKind::AddedLoss, LimitKind::InsertionLoss];
const OUTER: [LimitKind; 1] = [LimitKind::ReturnLoss];
const INNER: [LimitKind; 1] = [LimitKind::ReturnLossInner];

/// The frequencies of a picture: to twice Nyquist, and beyond the corners of its masks.
struct Shown {
    frequencies: Vec<f64>,
    logarithmic: bool,
}

impl Shown {
    fn new(lane: &Lane, chain: &Chain, kinds: &[LimitKind]) -> Shown {
        let nyquist = lane.nyquist().0;
        let masks = limits_on(lane, kinds).filter_map(|limit| match &limit.bound {
            Bound::Mask(points) => Some(points.as_slice()),
            Bound::AtNyquist(_) => None,
        });
        let corners: Vec<f64> = masks.flatten().map(|point| point.frequency.0).collect();
        let logarithmic = !corners.is_empty();
        let highest = corners.iter().fold(2.0 * nyquist, |most, f| most.max(1.25 * f));
        let lowest = if logarithmic {
            corners.iter().fold(nyquist / 10.0, |least, f| least.min(f / 1.5))
        } else {
            0.0
        };
        let mut frequencies = grid(chain.delay_estimate(), lowest, highest, logarithmic);
        frequencies.extend(corners.iter().chain([&nyquist]));
        frequencies.sort_by(f64::total_cmp);
        frequencies.dedup();
        Shown {
            frequencies,
            logarithmic,
        }
    }

    fn range(&self) -> [f64; 2] {
        let [first, last] = [self.frequencies.first(), self.frequencies.last()];
        [first, last].map(|f| f.copied().unwrap_or(0.0))
    }
}

fn limits_on<'a>(lane: &'a Lane, kinds: &[LimitKind]) -> impl Iterator<Item = &'a Limit> {
    lane.limits.iter().filter(|limit| kinds.contains(&limit.kind))
}

fn spectrum(
    lane: &Lane,
    chain: &Chain,
    states: &[State],
    figure: Figure,
    kinds: &[LimitKind],
    shown: &Shown,
) -> Result<Spectrum, Fault> {
    let nyquist = lane.nyquist().0;
    let mut curves: Vec<Curve> = states
        .iter()
        .map(|state| Curve {
            state: *state,
            points: Vec::with_capacity(shown.frequencies.len()),
        })
        .collect();
    for f in &shown.frequencies {
        let point = chain.at(Hertz(*f));
        if !point.is_finite() {
            return Err(Fault::NotFinite(Hertz(*f)));
        }
        for curve in &mut curves {
            let scattering = match case(curve.state) {
                Case::Absent => point.absent,
                Case::With(c) => point.at(c),
            };
            if let Some(value) = figure(&LossMetrics::of(&scattering)).filter(|value| value.is_finite()) {
                curve.points.push((*f, value));
            }
        }
    }
    Ok(Spectrum {
        limits: limits_on(lane, kinds)
            .map(|limit| limit_line(limit, chain, nyquist))
            .collect(),
        curves,
        nyquist_hz: nyquist,
        shown_hz: shown.range(),
        logarithmic: shown.logarithmic,
    })
}

/// Frequencies fine enough for the path's ripple.
pub(super) fn grid(delay: Second, lowest: f64, highest: f64, logarithmic: bool) -> Vec<f64> {
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

fn limit_line(limit: &Limit, chain: &Chain, nyquist: f64) -> LimitLine {
    // The bound of an added loss lies on top of the loss without the protector.
    let base = |f: f64| match limit.kind {
        LimitKind::AddedLoss => LossMetrics::of(&chain.at(Hertz(f)).absent)
            .insertion_loss
            .unwrap_or(0.0),
        _ => 0.0,
    };
    let points = match &limit.bound {
        Bound::AtNyquist(level) => vec![(nyquist, base(nyquist) + level)],
        Bound::Mask(points) => {
            let fine = |pair: &[MaskPoint]| -> Vec<(f64, f64)> {
                let (a, b) = (pair[0], pair[1]);
                (0..=64).map(|i| mask_between(a, b, f64::from(i) / 64.0)).collect()
            };
            let mut line: Vec<(f64, f64)> = points.windows(2).flat_map(fine).collect();
            if let [only] = points.as_slice() {
                line.push((only.frequency.0, only.level));
            }
            line.into_iter().map(|(f, level)| (f, base(f) + level)).collect()
        }
    };
    LimitLine {
        label: label(limit),
        points,
        is_floor: limit.kind.is_floor(),
    }
}

/// A point of a mask between two corners: straight in dB over the logarithm of the frequency.
pub(super) fn mask_between(a: MaskPoint, b: MaskPoint, share: f64) -> (f64, f64) {
    let f = a.frequency.0 * (b.frequency.0 / a.frequency.0).powf(share);
    (f, a.level + share * (b.level - a.level))
}

/// The eye without the protector, and with the one fitted, or else at the budget.
fn eyes(lane: &Lane, chain: &Chain, states: &[State]) -> Result<Vec<EyeOutline>, Fault> {
    let mut time = LaneTime::new(lane, chain);
    let dfe = lane.path.receiver().map_or(0, |receiver| receiver.dfe);
    states
        .iter()
        .take(2)
        .map(|state| eye(&mut time, lane.modulation.levels(), dfe, *state))
        .collect()
}

fn eye(time: &mut LaneTime, levels: u32, dfe: usize, state: State) -> Result<EyeOutline, Fault> {
    let (eye, pulse) = time.domain().eye(case(state))?;
    let phase = |i: i32| {
        let at_ui = f64::from(i) / f64::from(PHASES);
        let cursors = pulse.cursors(eye.at_s + at_ui * pulse.symbol_s, dfe);
        Phase {
            at_ui,
            main: cursors.main,
            interference: cursors.before.iter().chain(&cursors.after).map(|h| h.abs()).sum(),
        }
    };
    Ok(EyeOutline {
        state,
        levels,
        height: eye.height,
        width_ui: eye.width_ui,
        phases: (-PHASES..=PHASES).map(phase).collect(),
    })
}

fn profile(lane: &Lane, chain: &Chain, states: &[State]) -> Result<Profile, Fault> {
    let mut time = LaneTime::new(lane, chain);
    let mut curves = Vec::with_capacity(states.len());
    for state in states {
        let profile = time.profile(case(*state))?;
        let dip = std::iter::once(profile.dip.at_s);
        let even = (0..=TIMES).map(|i| profile.window_s * f64::from(i) / f64::from(TIMES));
        let mut times: Vec<f64> = even.chain(dip).collect();
        times.sort_by(f64::total_cmp);
        let at = |t: f64| (t, profile_impedance(lane.reference.0, profile.reflection.at(t)));
        let finite = |point: &(f64, f64)| point.1.is_finite();
        curves.push(Curve {
            state: *state,
            points: times.into_iter().map(at).filter(finite).collect(),
        });
    }
    let dip = lane.limits.iter().find(|limit| limit.kind == LimitKind::ImpedanceDip);
    Ok(Profile {
        curves,
        reference_ohm: lane.reference.0,
        limit: dip.and_then(|limit| match limit.bound {
            Bound::AtNyquist(level) => Some((level, label(limit))),
            Bound::Mask(_) => None,
        }),
        elements: places(lane, chain),
    })
}

/// The elements inward of the port plane by the time their reflection takes.
fn places(lane: &Lane, chain: &Chain) -> Vec<Place> {
    let elements = &lane.path.elements;
    let plane = match chain.port_plane() {
        PortPlane::OutsideConnector(number) | PortPlane::AtPlane(number) => {
            elements.iter().position(|e| e.number == number).unwrap_or(0)
        }
        PortPlane::OuterEnd => 0,
    };
    let mut reached = 0.0;
    let mut places = Vec::new();
    for e in elements[plane..]
        .iter()
        .filter(|e| !matches!(e.element, Element::Plane))
    {
        let from_s = reached;
        reached += 2.0 * Chain::line_delay(&sections_of(&e.element, lane.across_factor(), lane.half_reference())).0;
        places.push(Place {
            name: format!("{} {}", e.element.word(), e.number),
            is_protector: matches!(e.element, Element::Protector(_)),
            from_s,
            to_s: reached,
        });
    }
    places
}
