//! Reports made by hand. All numbers are invented.

use lanecap::result::{
    AtBudget, Budget, CAUTIONS, Changes, Check, Fitted, Headroom, LaneReport, LimitReport, Metrics, Note, Report,
    SCHEMA,
};

pub(super) fn report(lanes: Vec<LaneReport>) -> Report {
    Report {
        lanecap: env!("CARGO_PKG_VERSION"),
        schema: SCHEMA,
        title: Some("Tide-gauge logger, rev C".to_owned()),
        lanes,
        feeds: vec![],
        buses: vec![],
        rails: vec![],
        cautions: CAUTIONS.to_vec(),
    }
}

pub(super) fn metrics(insertion_loss: f64, return_loss: f64) -> Metrics {
    Metrics {
        insertion_loss_db: Some(insertion_loss),
        return_loss_db: Some(return_loss),
        reflection: 10f64.powf(-return_loss / 20.0),
        return_loss_inner_db: Some(14.5),
        nyquist_amplitude: 10f64.powf(-insertion_loss / 20.0),
        eye_height: None,
        eye_width_ui: None,
        rise_s: None,
        impedance_dip_ohm: None,
    }
}

pub(super) fn limit(word: &'static str, bound: f64, upper: Option<f64>) -> LimitReport {
    LimitReport {
        limit: word,
        bound: Some(bound),
        points: None,
        intervals_f: vec![(0.0, upper)],
        capacitance_f: upper,
        at_hz: None,
        levels: None,
        holds_absent: true,
        holds_at_zero: true,
        line: Some(14),
    }
}

pub(super) fn headroom(word: &'static str, value: f64, bound: f64, floor: bool) -> Headroom {
    let margin = if floor { value - bound } else { bound - value };
    Headroom {
        limit: word,
        value: Some(value),
        bound: Some(bound),
        margin: Some(margin),
        holds: margin >= 0.0,
        at_hz: None,
    }
}

/// A pair whose fitted value keeps its limits.
pub(super) fn camera() -> LaneReport {
    let changes = |added_loss, eye_penalty| Changes {
        added_loss_db: Some(added_loss),
        eye_penalty,
        worst_eye_penalty: None,
        added_rise_s: None,
        mode_conversion_db: None,
        skew_s: None,
        droop: None,
    };
    LaneReport {
        name: "camera link".to_owned(),
        port: Some("front".to_owned()),
        count: 2,
        modulation: "nrz",
        symbol_rate_bd: 5e9,
        nyquist_hz: 2.5e9,
        reference_ohm: 90.0,
        differential: true,
        port_plane: "outside element 3, connector".to_owned(),
        outer_end: "driver",
        absent: metrics(4.123456, 21.5),
        fitted: Some(Fitted {
            capacitance_f: 0.3e-12,
            metrics: metrics(4.31, 13.1),
            changes: changes(0.186544, 0.031),
            holds: true,
            headroom: vec![
                headroom("added_loss", 0.186544, 0.5, false),
                headroom("return_loss", 13.1, 12.0, true),
                headroom("eye_penalty", 0.031, 0.08, false),
            ],
            part: Some("quad array".to_owned()),
            checks: vec![Check {
                check: "stand-off",
                required: Some(1.2),
                available: Some(3.3),
                unit: "V",
                margin: Some(1.75),
                verdict: "passes",
            }],
        }),
        at_budget: Some(AtBudget {
            capacitance_f: 0.412_369e-12,
            metrics: metrics(4.42, 12.0),
            changes: changes(0.29, 0.045),
        }),
        budget: Budget {
            verdict: "bounded",
            capacitance_f: Some(0.412_369e-12),
            lowest_f: Some(0.0),
            lowest_set_by: None,
            across_pair_f: Some(0.206_184e-12),
            shop_for_f: Some(0.343e-12),
            without_footprint_f: Some(0.47e-12),
            set_by: Some("return_loss"),
            set_at_hz: None,
            intervals_f: vec![(0.0, Some(0.412_369e-12))],
            limits: vec![
                limit("added_loss", 0.5, Some(0.7e-12)),
                limit("return_loss", 12.0, Some(0.412_369e-12)),
                limit("eye_penalty", 0.08, Some(0.55e-12)),
            ],
        },
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
    }
}

/// The same pair with a fitted value that breaks its return loss by very little.
pub(super) fn broken_by_little() -> LaneReport {
    let mut lane = camera();
    lane.name = "spare link".to_owned();
    if let Some(fitted) = &mut lane.fitted {
        fitted.capacitance_f = 0.412_38e-12;
        fitted.metrics.return_loss_db = Some(11.9996);
        fitted.holds = false;
        fitted.headroom[1] = headroom("return_loss", 11.9996, 12.0, true);
    }
    lane
}

/// A slow single line with nothing fitted and a mask.
pub(super) fn masked() -> LaneReport {
    let mut lane = camera();
    lane.name = "service clock".to_owned();
    lane.port = None;
    lane.count = 1;
    lane.symbol_rate_bd = 100e6;
    lane.nyquist_hz = 50e6;
    lane.reference_ohm = 50.0;
    lane.differential = false;
    lane.fitted = None;
    lane.budget.across_pair_f = None;
    lane.budget.capacitance_f = Some(23.4e-12);
    lane.budget.intervals_f = vec![(0.0, Some(23.4e-12))];
    lane.budget.set_at_hz = Some(1.2e9);
    lane.budget.limits = vec![LimitReport {
        bound: None,
        points: Some(vec![(18.0, 100e6), (12.0, 1e9), (8.0, 2.5e9)]),
        at_hz: Some(1.2e9),
        ..limit("return_loss", 0.0, Some(23.4e-12))
    }];
    if let Some(at) = &mut lane.at_budget {
        at.capacitance_f = 23.4e-12;
    }
    lane
}

/// A line that needs a capacitance between two ends.
pub(super) fn window() -> LaneReport {
    let mut lane = masked();
    lane.name = "window".to_owned();
    lane.budget.verdict = "window";
    lane.budget.lowest_f = Some(0.101_234e-12);
    lane.budget.lowest_set_by = Some("return_loss");
    lane.budget.set_by = Some("added_loss");
    lane.budget.set_at_hz = None;
    lane.budget.capacitance_f = Some(0.41e-12);
    lane.budget.intervals_f = vec![(0.101_234e-12, Some(0.41e-12))];
    if let Some(at) = &mut lane.at_budget {
        at.capacitance_f = 0.41e-12;
    }
    let mut low = limit("return_loss", 25.0, None);
    low.intervals_f = vec![(0.101_234e-12, Some(3e-12))];
    low.holds_absent = false;
    low.holds_at_zero = false;
    lane.budget.limits = vec![low, limit("added_loss", 0.5, Some(0.41e-12))];
    lane
}

/// A line that breaks one limit already without a protector and another with the empty footprint.
pub(super) fn impossible() -> LaneReport {
    let mut lane = masked();
    lane.name = "lost cause".to_owned();
    lane.at_budget = None;
    lane.absent = metrics(4.1, 11.2);
    let empty = |word, bound, absent| {
        let mut limit = limit(word, bound, None);
        limit.intervals_f = vec![];
        limit.holds_absent = absent;
        limit.holds_at_zero = false;
        limit
    };
    lane.budget = Budget {
        verdict: "impossible",
        capacitance_f: None,
        lowest_f: None,
        lowest_set_by: None,
        across_pair_f: None,
        shop_for_f: None,
        without_footprint_f: None,
        set_by: None,
        set_at_hz: None,
        intervals_f: vec![],
        limits: vec![empty("return_loss", 12.0, false), empty("added_loss", 0.01, true)],
    };
    lane
}

/// A line that no limit bounds.
pub(super) fn unbounded() -> LaneReport {
    let mut lane = impossible();
    lane.name = "no limit".to_owned();
    lane.budget.verdict = "unbounded";
    lane.budget.intervals_f = vec![(0.0, None)];
    lane.budget.limits = vec![limit("eye_penalty", 1.0, None)];
    lane.absent = metrics(4.1, 21.2);
    lane
}

/// All of them.
pub(super) fn all() -> Report {
    report(vec![camera(), broken_by_little(), masked(), window(), impossible(), unbounded()])
}
