//! Reports made by hand. All numbers are invented.

use lanecap::budget::{
    At, Budget, Fitted, Headroom, IntervalSet, LaneChanges, LaneFigures, LaneOutcome, LimitOutcome, Outcome,
    TimeChanges, Verdict,
};
use lanecap::figures::{ADDED_LOSS, EYE_PENALTY, Figure, RETURN_LOSS, Sense};
use lanecap::model::{Mask, MaskPoint, Modulation, ProfileRead};
use lanecap::network::ReferencePlane;
use lanecap::parts;
use lanecap::parts::Check;
use lanecap::response::{LossChanges, LossMetrics, TimeMetrics};
use lanecap::result::{CAUTIONS, LaneAbout, LaneResult, LineHead, Note, Report, Stated};
use lanecap::units::{Baud, Farad, Hertz, Ohm};

pub(super) fn report(lanes: Vec<LaneResult>) -> Report {
    Report {
        title: Some("Tide-gauge logger, rev C".to_owned()),
        set: Vec::new(),
        lanes,
        feeds: vec![],
        buses: vec![],
        rails: vec![],
        cautions: CAUTIONS.to_vec(),
    }
}

fn figures(insertion_loss: f64, return_loss: f64) -> LaneFigures {
    LaneFigures {
        loss: LossMetrics {
            insertion_loss: Some(insertion_loss),
            return_loss: Some(return_loss),
            reflection: 10f64.powf(-return_loss / 20.0),
            return_loss_inner: Some(14.5),
            nyquist_amplitude: 10f64.powf(-insertion_loss / 20.0),
        },
        time: TimeMetrics::default(),
    }
}

/// The capacitances from one to another in farad; an upper end of `None` is open.
pub(super) fn between(low: f64, high: Option<f64>) -> IntervalSet {
    vec![(low, high)].into()
}

/// A limit with the capacitances it allows.
pub(super) type Limit = (Stated, LimitOutcome);

pub(super) fn limit(figure: &'static Figure, bound: f64, upper: Option<f64>) -> Limit {
    let holds = Headroom { figure, value: None, bound, margin: None, holds: true, at: None };
    let own = LimitOutcome {
        figure,
        allowed: between(0.0, upper),
        capacitance: upper.map(Farad),
        at: None,
        ends_at: vec![],
        absent: holds,
        at_zero: holds,
        fitted: None,
    };
    (
        Stated {
            bound: Some(bound),
            mask: None,
            levels: None,
            below: None,
            read: ProfileRead::default(),
            line: Some(14),
        },
        own,
    )
}

pub(super) fn headroom(figure: &'static Figure, value: f64, bound: f64) -> Headroom {
    let margin = figure.sense().margin(value, bound);
    Headroom { figure, value: Some(value), bound, margin: Some(margin), holds: margin >= 0.0, at: None }
}

/// The budget of a lane.
pub(super) fn budget(lane: &mut LaneResult) -> &mut Budget {
    &mut lane.outcome.sized.budget
}

/// What is fitted to a lane.
pub(super) fn fitted(lane: &mut LaneResult) -> &mut Fitted<LaneFigures, LaneChanges> {
    lane.outcome.sized.fitted.as_mut().expect("a fitted value")
}

pub(super) fn set_limits(lane: &mut LaneResult, limits: Vec<Limit>) {
    (lane.limits, budget(lane).limits) = limits.into_iter().unzip();
}

fn at(capacitance: f64, figures: LaneFigures, (added_loss, eye_penalty): (f64, f64)) -> At<LaneFigures, LaneChanges> {
    let loss = LossChanges { added_loss: Some(added_loss), eye_penalty, lost_voltage: None };
    let changes = LaneChanges { loss, time: TimeChanges::default(), unlike: None, droop: None };
    At { capacitance: Farad(capacitance), figures, changes }
}

/// A pair whose fitted value keeps its limits.
pub(super) fn camera() -> LaneResult {
    let (stated, limits) = [
        limit(&ADDED_LOSS, 0.5, Some(0.7e-12)),
        limit(&RETURN_LOSS, 12.0, Some(0.412_369e-12)),
        limit(&EYE_PENALTY, 0.08, Some(0.55e-12)),
    ]
    .into_iter()
    .unzip();
    let budget = Budget {
        verdict: Verdict::Bounded,
        capacitance: Some(Farad(0.412_369e-12)),
        lowest: Some(Farad(0.0)),
        lowest_set_by: None,
        across_pair: Some(Farad(0.206_184e-12)),
        shop_for: Some(Farad(0.343e-12)),
        without_footprint: Some(Farad(0.47e-12)),
        set_by: Some(&RETURN_LOSS),
        set_at: None,
        allowed: between(0.0, Some(0.412_369e-12)),
        limits,
    };
    let fitted = Fitted {
        at: at(0.3e-12, figures(4.31, 13.1), (0.186544, 0.031)),
        holds: true,
        headroom: vec![
            headroom(&ADDED_LOSS, 0.186544, 0.5),
            headroom(&RETURN_LOSS, 13.1, 12.0),
            headroom(&EYE_PENALTY, 0.031, 0.08),
        ],
    };
    let sized = Outcome {
        absent: figures(4.123456, 21.5),
        fitted: Some(fitted),
        at_budget: Some(at(0.412_369e-12, figures(4.42, 12.0), (0.29, 0.045))),
        budget,
    };
    LaneResult {
        head: LineHead {
            name: "camera link".to_owned(),
            port: Some("front".to_owned()),
            count: 2,
            part: Some("quad array".to_owned()),
            checks: vec![Check {
                check: "stand-off",
                part: None,
                sense: Sense::AtLeast,
                required: Some(1.2),
                available: Some(3.3),
                unit: "V",
                margin: Some(1.75),
                verdict: parts::Verdict::Passes,
                ends: [None; 2],
                why: None,
            }],
            discharge: None,
            tolerance: None,
            defaults: vec![Note {
                code: "default-permittivity",
                text: "permittivity 4.0 of the trace".to_owned(),
                line: Some(31),
            }],
            warnings: vec![Note {
                code: "edge-faster-than-nyquist",
                text: "the edges of 45 ps reach 7.8 GHz, beyond what the check at Nyquist sees".to_owned(),
                line: None,
            }],
        },
        about: LaneAbout {
            modulation: Modulation::Nrz,
            symbol_rate: Baud(5e9),
            reference: Ohm(90.0),
            differential: true,
            driver_is_outer: true,
        },
        limits: stated,
        outcome: LaneOutcome {
            reference_plane: ReferencePlane::OutsideConnector(3),
            not_settled: None,
            below_nyquist: Vec::new(),
            sized,
        },
    }
}

/// The same pair with a fitted value that breaks its return loss by very little.
pub(super) fn broken_by_little() -> LaneResult {
    let mut lane = camera();
    lane.head.name = "spare link".to_owned();
    let fitted = fitted(&mut lane);
    fitted.at.capacitance = Farad(0.412_38e-12);
    fitted.at.figures.loss.return_loss = Some(11.9996);
    fitted.holds = false;
    fitted.headroom[1] = headroom(&RETURN_LOSS, 11.9996, 12.0);
    lane
}

/// A slow single line with nothing fitted and a mask.
pub(super) fn masked() -> LaneResult {
    let mut lane = camera();
    lane.head.name = "service clock".to_owned();
    lane.head.port = None;
    lane.head.count = 1;
    lane.about.symbol_rate = Baud(100e6);
    lane.about.reference = Ohm(50.0);
    lane.about.differential = false;
    lane.outcome.sized.fitted = None;
    let (mut stated, mut own) = limit(&RETURN_LOSS, 0.0, Some(23.4e-12));
    let point = |(level, f)| MaskPoint { level, frequency: Hertz(f) };
    stated.mask = Mask::new([(18.0, 100e6), (12.0, 1e9), (8.0, 2.5e9)].map(point).to_vec());
    stated.bound = None;
    own.at = Some(Hertz(1.2e9));
    set_limits(&mut lane, vec![(stated, own)]);
    let budget = budget(&mut lane);
    budget.across_pair = None;
    budget.capacitance = Some(Farad(23.4e-12));
    budget.allowed = between(0.0, Some(23.4e-12));
    budget.set_at = Some(Hertz(1.2e9));
    if let Some(at) = &mut lane.outcome.sized.at_budget {
        at.capacitance = Farad(23.4e-12);
    }
    lane
}

/// A line that needs a capacitance between two ends.
pub(super) fn window() -> LaneResult {
    let mut lane = masked();
    lane.head.name = "window".to_owned();
    let mut low = limit(&RETURN_LOSS, 25.0, None);
    low.1.allowed = between(0.101_234e-12, Some(3e-12));
    low.1.absent.holds = false;
    low.1.at_zero.holds = false;
    set_limits(&mut lane, vec![low, limit(&ADDED_LOSS, 0.5, Some(0.41e-12))]);
    let budget = budget(&mut lane);
    budget.verdict = Verdict::Window;
    budget.lowest = Some(Farad(0.101_234e-12));
    budget.lowest_set_by = Some(&RETURN_LOSS);
    budget.set_by = Some(&ADDED_LOSS);
    budget.set_at = None;
    budget.capacitance = Some(Farad(0.41e-12));
    budget.allowed = between(0.101_234e-12, Some(0.41e-12));
    if let Some(at) = &mut lane.outcome.sized.at_budget {
        at.capacitance = Farad(0.41e-12);
    }
    lane
}

/// A line that breaks one limit already without a protector and another with the empty footprint.
pub(super) fn impossible() -> LaneResult {
    let mut lane = masked();
    lane.head.name = "lost cause".to_owned();
    lane.outcome.sized.at_budget = None;
    lane.outcome.sized.absent = figures(4.1, 11.2);
    let empty = |figure, bound, absent: Headroom| {
        let (stated, own) = limit(figure, bound, None);
        let at_zero = Headroom { holds: false, ..own.at_zero };
        (stated, LimitOutcome { allowed: IntervalSet::none(), absent, at_zero, ..own })
    };
    let broken = empty(&RETURN_LOSS, 12.0, headroom(&RETURN_LOSS, 11.2, 12.0));
    set_limits(&mut lane, vec![broken, empty(&ADDED_LOSS, 0.01, headroom(&ADDED_LOSS, 0.0, 0.01))]);
    let budget = budget(&mut lane);
    *budget = Budget {
        verdict: Verdict::Impossible,
        capacitance: None,
        lowest: None,
        lowest_set_by: None,
        across_pair: None,
        shop_for: None,
        without_footprint: None,
        set_by: None,
        set_at: None,
        allowed: IntervalSet::none(),
        limits: std::mem::take(&mut budget.limits),
    };
    lane
}

/// A line that no limit bounds.
pub(super) fn unbounded() -> LaneResult {
    let mut lane = impossible();
    lane.head.name = "no limit".to_owned();
    set_limits(&mut lane, vec![limit(&EYE_PENALTY, 1.0, None)]);
    budget(&mut lane).verdict = Verdict::Unbounded;
    budget(&mut lane).allowed = IntervalSet::all();
    lane.outcome.sized.absent = figures(4.1, 21.2);
    lane
}

/// All of them.
pub(super) fn all() -> Report {
    report(vec![camera(), broken_by_little(), masked(), window(), impossible(), unbounded()])
}
