//! From a lane and its outcome to the numbers of a picture.

use super::bounded::level;
use super::data::{Carries, ChartData, Curve, EyeOutline, Phase, Picture, Place, Profile, Show};
use super::state::State;
use super::{frequencies, sweep};
use crate::budget::{Fault, LaneOutcome};
use crate::figures::{Figure, IMPEDANCE_DIP};
use crate::model::{Bounds, Element, Lane};
use crate::network::{Chain, sections_of};
use crate::response::{LaneTime, profile_impedance};

/// Phases of an eye per unit interval.
const PHASES: i32 = 64;
/// Times of a reflection profile.
const TIMES: i32 = 400;

/// The numbers of one picture of a lane of this name. `outcome` is the lane's own.
///
/// # Errors
/// [`Fault::NotSettled`] where a figure of the time domain does not settle; [`Fault::NotFinite`] where the chain overflows.
pub fn chart_data(name: &str, lane: &Lane, outcome: &LaneOutcome, show: Show) -> Result<ChartData, Fault> {
    let chain = Chain::new(lane);
    let states = states(outcome);
    let picture = match show {
        Show::Loss => frequencies::loss(lane, &chain, &states)?,
        Show::Reflection => frequencies::reflection(lane, &chain, &states)?,
        Show::Penalty => Picture::Penalty(sweep::sweep(lane, &chain, outcome)?),
        Show::Eye => Picture::Eye(eyes(lane, &chain, &states)?),
        Show::Impedance => Picture::Impedance(profile(lane, &chain, &states)?),
    };
    Ok(ChartData {
        line: name.to_owned(),
        carries: Carries::of_lane(lane),
        budget_f: outcome.sized.budget.capacitance.map(|c| c.0),
        set_by: outcome.sized.budget.set_by.map(Figure::word),
        fitted_f: outcome.sized.fitted.as_ref().map(|fitted| fitted.at.capacitance.0),
        picture,
    })
}

fn states(outcome: &LaneOutcome) -> Vec<State> {
    let fitted = outcome.sized.fitted.as_ref().map(|f| State::Fitted(f.at.capacitance.0));
    let at_budget = outcome.sized.at_budget.as_ref().map(|b| State::AtBudget(b.capacitance.0));
    [Some(State::Absent), fitted, at_budget].into_iter().flatten().collect()
}

/// The eye without the protector, and with the one fitted, or else at the budget.
fn eyes(lane: &Lane, chain: &Chain, states: &[State]) -> Result<Vec<EyeOutline>, Fault> {
    let mut time = LaneTime::new(lane, chain);
    states.iter().take(2).map(|state| eye(&mut time, lane.modulation.levels(), *state)).collect()
}

fn eye(time: &mut LaneTime, levels: u32, state: State) -> Result<EyeOutline, Fault> {
    let (eye, pulse) = time.domain().eye(state.case())?;
    let phase = |i: i32| {
        let at_ui = f64::from(i) / f64::from(PHASES);
        let cursors = pulse.cursors(eye.at_s + at_ui * pulse.symbol_s, &eye.taps);
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
    // As the limit that is drawn into it reads it.
    let limit = lane.limits.iter().map(|limit| &limit.of).find(|limit| limit.figure() == &IMPEDANCE_DIP);
    let read = limit.map(Bounds::read).unwrap_or_default();
    let mut curves = Vec::with_capacity(states.len());
    for state in states {
        let profile = time.profile(state.case(), &read)?;
        let dip = std::iter::once(profile.dip.at_s);
        let even = (0..=TIMES).map(|i| profile.window_s * f64::from(i) / f64::from(TIMES));
        let mut times: Vec<f64> = even.chain(dip).collect();
        times.sort_by(f64::total_cmp);
        let at = |t: f64| (t, profile_impedance(lane.reference.0, profile.reflection.at(t)));
        let finite = |point: &(f64, f64)| point.1.is_finite();
        curves.push(Curve { state: *state, points: times.into_iter().map(at).filter(finite).collect() });
    }
    Ok(Profile {
        curves,
        reference_ohm: lane.reference.0,
        limit: level(&lane.limits, &IMPEDANCE_DIP),
        elements: places(lane, chain),
    })
}

/// The elements inward of the reference plane by the time their reflection takes.
fn places(lane: &Lane, chain: &Chain) -> Vec<Place> {
    let elements = &lane.path.elements;
    let outermost = chain.reference_plane().element();
    let plane = elements.iter().position(|e| Some(e.number) == outermost).unwrap_or(0);
    let mut reached = 0.0;
    let mut places = Vec::new();
    let inward = elements.iter().enumerate().skip(plane);
    for (index, e) in inward.filter(|(_, e)| !matches!(e.element, Element::Plane)) {
        let from_s = reached;
        let sections = sections_of(&lane.path, index, lane.across_factor(), lane.half_reference());
        reached += 2.0 * Chain::line_delay(&sections).0;
        places.push(Place {
            name: format!("{} {}", e.element.word(), e.number),
            is_protector: matches!(e.element, Element::Protector(_)),
            from_s,
            to_s: reached,
        });
    }
    places
}
