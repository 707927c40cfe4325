//! The numbers of each picture against closed forms and plain facts.

use std::f64::consts::PI;

use approx::assert_relative_eq;

use super::data;
use crate::support::lanes::*;
use lanecap::curve::{Curve, Picture, Profile, Show, Spectrum, State, Sweep};
use lanecap::figures::*;
use lanecap::words::label;

const Z: f64 = 50.0;
const NYQUIST: f64 = 2e9;
const C: f64 = 0.5e-12;

fn spectrum(lane: &lanecap::model::Lane, show: Show) -> Spectrum {
    match data(lane, show).picture {
        Picture::Loss(spectrum) | Picture::Reflection(spectrum, _) => spectrum,
        other => panic!("{other:?}"),
    }
}

fn sweep(lane: &lanecap::model::Lane) -> Sweep {
    match data(lane, Show::Penalty).picture {
        Picture::Penalty(sweep) => sweep,
        other => panic!("{other:?}"),
    }
}

fn profile(lane: &lanecap::model::Lane) -> Profile {
    match data(lane, Show::Impedance).picture {
        Picture::Impedance(profile) => profile,
        other => panic!("{other:?}"),
    }
}

/// The value of a curve between its points.
fn at(points: &[(f64, f64)], x: f64) -> f64 {
    let above = points.partition_point(|point| point.0 < x);
    let (a, b) = (points[above.max(1) - 1], points[above.min(points.len() - 1)]);
    if b.0 == a.0 { b.1 } else { a.1 + (x - a.0) / (b.0 - a.0) * (b.1 - a.1) }
}

fn of(curves: &[Curve], wanted: fn(&State) -> bool) -> &Curve {
    curves.iter().find(|curve| wanted(&curve.state)).unwrap()
}

// A shunt capacitance between matched ends, x = π f Z C (Pozar, Microwave Engineering, ch. 4, from memory):
// IL = 10 log10(1 + x²), RL = 10 log10(1 + 1/x²).
#[test]
fn losses_follow_the_closed_form_at_every_frequency() {
    let lane = with_fitted(bare(Z, NYQUIST, vec![limit(&RETURN_LOSS, 12.0)]), C);
    let x = |f: f64| PI * f * Z * C;
    let loss = spectrum(&lane, Show::Loss);
    let fitted = of(&loss.curves, |state| matches!(state, State::Fitted(_)));
    assert!(fitted.points.len() > 400);
    for (f, il) in &fitted.points {
        assert_relative_eq!(*il, 10.0 * (1.0 + x(*f).powi(2)).log10(), epsilon = 1e-9);
    }
    let reflection = spectrum(&lane, Show::Reflection);
    let fitted = of(&reflection.curves, |state| matches!(state, State::Fitted(_)));
    for (f, rl) in &fitted.points {
        assert_relative_eq!(*rl, 10.0 * (1.0 + x(*f).powi(-2)).log10(), epsilon = 1e-9);
    }
    // A perfect match has no return loss to draw.
    let absent = of(&reflection.curves, |state| matches!(state, State::Absent));
    assert!(absent.points.is_empty());
}

#[test]
fn the_curve_at_the_budget_meets_its_limit_at_nyquist() {
    let lane = with_fitted(bare(Z, NYQUIST, vec![limit(&RETURN_LOSS, 12.0)]), C);
    let reflection = spectrum(&lane, Show::Reflection);
    let budget = of(&reflection.curves, |state| matches!(state, State::AtBudget(_)));
    let exact = budget.points.iter().find(|point| point.0 == NYQUIST).unwrap();
    assert_relative_eq!(exact.1, 12.0, epsilon = 1e-9);
    assert_eq!(reflection.limits.len(), 1);
    assert_eq!(reflection.limits[0].points, [(NYQUIST, 12.0)]);
    assert_eq!(label(&reflection.limits[0].limit), "return_loss >= 12 dB");
    assert!(!reflection.logarithmic);
}

/// A shunt capacitance alone looks the same from both ends; any other path looks from within as its mirror image from
/// without.
#[test]
fn the_inner_end_is_the_outer_one_of_the_mirrored_path() {
    let inner = |lane: &lanecap::model::Lane| match data(lane, Show::Reflection).picture {
        Picture::Reflection(_, inner) => inner,
        other => panic!("{other:?}"),
    };
    let limits = || vec![limit(&RETURN_LOSS, 12.0), limit(&RETURN_LOSS_INNER, 9.0)];
    let alone = with_fitted(bare(Z, NYQUIST, limits()), C);
    let found = inner(&alone);
    assert_eq!((found.limits.len(), label(&found.limits[0].limit)), (1, "return_loss_inner >= 9 dB".to_owned()));
    for (f, loss) in &of(&found.curves, |state| matches!(state, State::Fitted(_))).points {
        assert_relative_eq!(*loss, 10.0 * (1.0 + (PI * f * Z * C).powi(-2)).log10(), epsilon = 1e-9);
    }
    // Mirrored, the outer end is the inner one.
    let (line, other) = (|| lossy(Z, 0.1, 4.0, 1e9, 0.5, 0.02), || trace(75.0, 0.02, 3.0));
    let behind = |elements| with_fitted(lane(Z, NYQUIST, elements, limits()), C);
    let path = behind(vec![driver(Z, 0.0), other(), place(), line(), receiver(Z, 0.0)]);
    let mirrored = behind(vec![driver(Z, 0.0), line(), place(), other(), receiver(Z, 0.0)]);
    let (from_inside, from_outside) = (inner(&path), spectrum(&mirrored, Show::Reflection));
    for (a, b) in from_inside.curves.iter().zip(&from_outside.curves).take(2) {
        assert!(a.points.len() > 400);
        for (a, b) in a.points.iter().zip(&b.points) {
            assert_relative_eq!(a.0, b.0);
            assert_relative_eq!(a.1, b.1, epsilon = 1e-9);
        }
    }
}

#[test]
fn a_mask_is_straight_over_the_logarithm_of_the_frequency() {
    let corners = [(20.0, 1e8), (10.0, 1e9)];
    let lane = with_fitted(bare(Z, NYQUIST, vec![mask(&RETURN_LOSS, &corners)]), C);
    let reflection = spectrum(&lane, Show::Reflection);
    assert!(reflection.logarithmic);
    let line = &reflection.limits[0].points;
    assert_eq!(line.first(), Some(&(1e8, 20.0)));
    assert_relative_eq!(line.last().unwrap().0, 1e9, max_relative = 1e-12);
    for (f, level) in line {
        assert_relative_eq!(*level, 20.0 - 10.0 * (f / 1e8).log10(), epsilon = 1e-9);
    }
    // Not on the picture of the other loss.
    assert!(spectrum(&lane, Show::Loss).limits.is_empty());
}

#[test]
fn the_bound_of_an_added_loss_lies_on_the_loss_without_protector() {
    let lossy = lossy(Z, 0.1, 4.0, 1e9, 0.5, 0.02);
    let elements = vec![driver(Z, 0.0), lossy, place(), receiver(Z, 0.0)];
    let lane = lane(Z, NYQUIST, elements, vec![limit(&ADDED_LOSS, 0.5)]);
    let loss = spectrum(&lane, Show::Loss);
    let absent = of(&loss.curves, |state| matches!(state, State::Absent));
    let base = absent.points.iter().find(|point| point.0 == NYQUIST).unwrap().1;
    assert!(base > 0.4);
    assert_relative_eq!(loss.limits[0].points[0].1, base + 0.5, epsilon = 1e-12);
}

// C_max = 1/(π f Z √(10^{RL/10} − 1)): the return loss of the closed form above, solved for C.
#[test]
fn a_margin_ends_where_the_budget_does() {
    let bound: f64 = 12.0;
    let lane = with_fitted(bare(Z, NYQUIST, vec![limit(&RETURN_LOSS, bound)]), C);
    let most = 1.0 / (PI * NYQUIST * Z * (10f64.powf(bound / 10.0) - 1.0).sqrt());
    let sweep = sweep(&lane);
    let margin = &sweep.margins[0].points;
    assert!(margin.iter().all(|(c, m)| (*m >= -1e-9) == (*c <= most * (1.0 + 1e-9))));
    let rl = |c: f64| 10.0 * (1.0 + (PI * NYQUIST * Z * c).powi(-2)).log10();
    for (c, m) in margin {
        assert_relative_eq!(*m, (rl(*c) - bound) / bound, epsilon = 1e-9);
    }
    assert_eq!(sweep.allowed.len(), 1);
    assert_relative_eq!(sweep.allowed[0].1.unwrap(), most, max_relative = 1e-9);
    // |H| = 1/√(1 + x²) between matched ends.
    for (c, penalty) in &sweep.eye_penalty {
        let x = PI * NYQUIST * Z * c;
        assert_relative_eq!(*penalty, 1.0 - (1.0 + x * x).sqrt().recip(), epsilon = 1e-9);
    }
    assert!(sweep.last_f > most && sweep.last_f > C);
}

#[test]
fn a_mask_margin_is_that_of_its_worst_frequency() {
    // Flat: worst at its highest frequency, where the capacitance reflects most.
    let (bound, top) = (10.0, 3e9);
    let lane = bare(Z, NYQUIST, vec![mask(&RETURN_LOSS, &[(bound, 1e8), (bound, top)])]);
    for (c, m) in &sweep(&lane).margins[0].points {
        let rl = 10.0 * (1.0 + (PI * top * Z * c).powi(-2)).log10();
        assert_relative_eq!(*m, (rl - bound) / bound, epsilon = 1e-9);
    }
}

#[test]
fn margins_of_the_time_domain_change_sign_at_the_budget() {
    for kind in [&WORST_EYE_PENALTY, &EYE_HEIGHT, &IMPEDANCE_DIP, &ADDED_RISE] {
        let bound = match kind {
            f if f == &WORST_EYE_PENALTY => 0.1,
            f if f == &EYE_HEIGHT => 0.9,
            f if f == &ADDED_RISE => 20e-12,
            _ => 35.0,
        };
        let sweep = sweep(&bare(Z, NYQUIST, vec![limit(kind, bound)]));
        let end = sweep.allowed[0].1.unwrap();
        let points = &sweep.margins[0].points;
        assert!(points.len() > 20, "{kind:?}");
        assert!(at(points, 0.99 * end) > 0.0 && at(points, 1.01 * end) < 0.0, "{kind:?}: {points:?}");
    }
}

#[test]
fn an_eye_opens_as_far_as_its_height_says() {
    let lane = with_fitted(super::crowded(), 0.05e-12);
    let Picture::Eye(eyes) = data(&lane, Show::Eye).picture else { panic!() };
    assert_eq!(eyes.len(), 2);
    for eye in &eyes {
        let best = eye.phases.iter().find(|phase| phase.at_ui == 0.0).unwrap();
        for index in 0..3 {
            let (lower, upper) = best.opening(4, index);
            // An opening of an ideal lane is 2/(M − 1) high.
            assert_relative_eq!((upper - lower) * 1.5, eye.height, epsilon = 1e-3);
        }
        // Open over the width, to the phases' own step.
        let open = eye.phases.iter().filter(|phase| {
            let (lower, upper) = phase.opening(4, 1);
            upper > lower
        });
        assert!((open.count() as f64 / 64.0 - eye.width_ui).abs() < 2.5 / 64.0);
        assert!(eye.phases.iter().all(|phase| phase.outer() >= best.main - best.interference));
    }
}

// A line of impedance Z shows as Z for as long as its reflections take: twice its delay.
#[test]
fn a_profile_shows_each_lines_impedance_where_it_lies() {
    let elements = vec![driver(Z, 0.0), trace(Z, 0.1, 4.0), trace(75.0, 0.1, 4.0), place(), receiver(Z, 0.0)];
    let lane = lane(Z, 10e9, elements, vec![limit(&IMPEDANCE_DIP, 30.0)]);
    let profile = profile(&lane);
    let absent = &of(&profile.curves, |state| matches!(state, State::Absent)).points;
    let there_and_back = 2.0 * 0.1 * 2.0 / 299_792_458.0;
    assert_relative_eq!(at(absent, 0.5 * there_and_back), 50.0, epsilon = 0.1);
    assert_relative_eq!(at(absent, 1.5 * there_and_back), 75.0, epsilon = 0.1);
    let names: Vec<&str> = profile.elements.iter().map(|place| place.name.as_str()).collect();
    assert_eq!(names, ["driver 1", "trace 2", "trace 3", "protector 4", "receiver 5"]);
    let protector = profile.elements.iter().find(|place| place.is_protector).unwrap();
    assert_relative_eq!(protector.from_s, 2.0 * there_and_back, max_relative = 1e-9);
    assert_eq!(profile.elements[1].from_s, 0.0);
    assert_relative_eq!(profile.elements[1].to_s, there_and_back, max_relative = 1e-9);
    let limit = profile.limit.map(|(least, limit)| (least, label(&limit)));
    assert_eq!(limit, Some((30.0, "impedance_dip >= 30 ohm".to_owned())));
}
