//! What is reported beside the budget.

use approx::assert_relative_eq;

use crate::support::lanes::*;
use lanecap::budget::{Fault, Figures, Verdict, size_lane};
use lanecap::figures::*;
use lanecap::model::{Bounds, Element, Lane, LaneLimit, Limit};
use lanecap::network::{Chain, ReferencePlane};
use lanecap::units::{Farad, Henry, Hertz};

const F: f64 = 5e9;

fn edit(mut lane: Lane, change: impl Fn(&mut lanecap::model::Protector)) -> Lane {
    for e in &mut lane.path.elements {
        if let Element::Protector(p) = &mut e.element {
            change(p);
        }
    }
    lane
}

fn rl(level: f64) -> Limit<LaneLimit> {
    limit(&RETURN_LOSS, level)
}

#[test]
fn bounded_with_its_pad() {
    let loss = limit(&ADDED_LOSS, 1.0);
    let mut plain = bare(90.0, F, vec![loss.clone(), rl(12.0), loss]);
    plain.differential = true;
    let outcome = size_lane(
        &edit(plain.clone(), |p| {
            p.pad = Farad(0.06e-12);
            p.spread = Some(0.25);
            p.fitted = Some(Farad(0.2e-12));
        }),
        Figures::Nyquist,
    )
    .unwrap();
    let budget = &outcome.sized.budget;
    // Nothing else in the path: the pad is in parallel with the part.
    let all = 1.0 / (std::f64::consts::PI * F * 45.0 * (10f64.powf(1.2) - 1.0).sqrt());
    let c = budget.capacitance.unwrap().0;
    assert_eq!((budget.verdict, budget.set_by, budget.set_at), (Verdict::Bounded, Some(&RETURN_LOSS), None));
    assert_relative_eq!(c, all - 0.06e-12, max_relative = 1e-12);
    assert_relative_eq!(budget.without_footprint.unwrap().0, all, max_relative = 1e-12);
    assert_relative_eq!(budget.shop_for.unwrap().0, c / 1.25, max_relative = 1e-15);
    assert_relative_eq!(budget.across_pair.unwrap().0, c / 2.0, max_relative = 1e-15);
    assert_eq!(budget.lowest, Some(Farad(0.0)));
    assert_eq!(budget.limits[0].allowed, budget.limits[2].allowed);
    let at_budget = outcome.sized.at_budget.unwrap();
    assert_relative_eq!(at_budget.figures.loss.return_loss.unwrap(), 12.0, max_relative = 1e-12);
    let fitted = outcome.sized.fitted.unwrap();
    let x = std::f64::consts::PI * F * 45.0 * 0.26e-12;
    assert_relative_eq!(fitted.at.changes.loss.added_loss.unwrap(), 10.0 * (1.0 + x * x).log10(), max_relative = 1e-12);
    assert!(fitted.holds && fitted.headroom.iter().all(|h| h.holds && h.margin.unwrap() > 0.0));
    assert_eq!((outcome.sized.absent.loss.reflection, outcome.sized.absent.loss.return_loss), (0.0, None));
    assert_eq!(
        (outcome.sized.absent.loss.insertion_loss, outcome.sized.absent.loss.nyquist_amplitude),
        (Some(0.0), 1.0)
    );
    let at_bound = size_lane(&with_fitted(plain, all), Figures::Nyquist).unwrap().sized.fitted.unwrap();
    assert!(at_bound.headroom[1].margin.unwrap().abs() < 1e-12);
}

/// On a tie the first in sheet order sets the budget.
#[test]
fn a_tie_goes_to_the_first() {
    let (a, b): (Limit<LaneLimit>, _) = (limit(&ADDED_LOSS, 0.5), limit(&INSERTION_LOSS, 0.5));
    for limits in [vec![a.clone(), b.clone()], vec![b, a]] {
        let first = limits[0].of.figure();
        assert_eq!(size_lane(&bare(50.0, F, limits), Figures::Nyquist).unwrap().sized.budget.set_by, Some(first));
    }
}

/// Half an inductance to either side wants L/Z² of capacitance between: too little breaks the limit, too much as well.
#[test]
fn a_window() {
    let l = 0.6e-9;
    let elements = vec![driver(50.0, 0.0), series_l(l), place(), series_l(l), receiver(50.0, 0.0)];
    let outcome =
        size_lane(&lane(50.0, F, elements, vec![limit(&INSERTION_LOSS, 2.0), rl(16.0)]), Figures::Nyquist).unwrap();
    let budget = outcome.sized.budget;
    let (low, high) = (budget.lowest.unwrap().0, budget.capacitance.unwrap().0);
    assert_eq!((budget.verdict, budget.lowest_set_by), (Verdict::Window, Some(&RETURN_LOSS)));
    assert!(low > 0.0 && low < 2.0 * l / 2500.0 && high > low, "{low} {high}");
    assert!(budget.limits[0].holds_at_zero() && !budget.limits[1].holds_at_zero() && !budget.limits[1].holds_absent());
    for end in [low, high] {
        let s11 = Chain::new(&lane(
            50.0,
            F,
            vec![driver(50.0, 0.0), series_l(l), place(), series_l(l), receiver(50.0, 0.0)],
            Vec::new(),
        ))
        .at(Hertz(F))
        .at(end)
        .s11;
        assert_relative_eq!(-20.0 * s11.norm().log10(), 16.0, max_relative = 1e-11);
    }
}

#[test]
fn unbounded_and_impossible() {
    let plane = vec![driver(50.0, 0.0), place(), Element::Plane, shunt_c(0.1e-12), receiver(50.0, 0.0)];
    let inward = |level| size_lane(&lane(50.0, F, plane.clone(), vec![rl(level)]), Figures::Nyquist).unwrap();
    let free = inward(10.0);
    assert_eq!(
        (free.sized.budget.verdict, free.sized.budget.capacitance, free.sized.at_budget),
        (Verdict::Unbounded, None, None)
    );
    assert_eq!(free.reference_plane.to_string(), "at element 3, plane");
    let point = Chain::new(&lane(50.0, F, plane.clone(), Vec::new())).at(Hertz(F));
    assert!(point.s11.is_constant() && !point.s21.is_constant());
    let never = inward(40.0).sized.budget;
    assert_eq!((never.verdict, never.lowest, never.set_by), (Verdict::Impossible, None, None));
    assert!(!never.limits[0].holds_absent() && never.limits[0].absent.margin.unwrap() < 0.0);
    // The footprint alone breaks it.
    let pad = edit(bare(50.0, F, vec![rl(20.0)]), |p| p.pad = Farad(0.5e-12));
    let budget = size_lane(&pad, Figures::Nyquist).unwrap().sized.budget;
    assert_eq!(budget.verdict, Verdict::Impossible);
    assert!(budget.limits[0].holds_absent() && !budget.limits[0].holds_at_zero());
    assert!(budget.without_footprint.is_some() && budget.limits[0].at_zero.margin.unwrap() < 0.0);
}

#[test]
fn no_added_loss_allows_no_capacitance_but_zero() {
    for bound in [limit(&ADDED_LOSS, 0.0), mask(&ADDED_LOSS, &[(0.0, 1e9), (0.0, F)])] {
        let elements = vec![
            driver(50.0, 0.0),
            lossy(50.0, 0.21, 3.4, 1e9, 0.0, 0.0),
            place(),
            lossy(50.0, 0.033, 3.4, 1e9, 0.0, 0.0),
            receiver(50.0, 0.0),
        ];
        let budget = size_lane(&lane(50.0, F, elements, vec![bound]), Figures::Nyquist).unwrap().sized.budget;
        assert_eq!((budget.verdict, budget.capacitance), (Verdict::NoRoom, Some(Farad(0.0))));
        assert_eq!(budget.set_by, Some(&ADDED_LOSS));
    }
}

#[test]
fn a_perfect_match_keeps_any_return_loss() {
    let outcome = size_lane(&with_fitted(bare(50.0, F, vec![rl(250.0)]), 0.0), Figures::Nyquist).unwrap();
    let head = outcome.sized.fitted.unwrap().headroom[0];
    assert!(head.holds && head.value.is_none() && head.margin.is_none());
}

#[test]
fn the_reference_plane() {
    let plane_of = |elements| Chain::new(&lane(50.0, F, elements, Vec::new())).reference_plane();
    let ends = |middle: Vec<Element>| {
        let mut all = vec![driver(50.0, 0.1e-12)];
        all.extend(middle);
        all.push(receiver(50.0, 0.0));
        all
    };
    let plug = || connector(0.1e-12, 0.2e-9);
    assert_eq!(plane_of(ends(vec![place(), plug()])), ReferencePlane::OuterEnd);
    assert_eq!(plane_of(ends(vec![plug(), series_r(1.0), plug(), place()])), ReferencePlane::OutsideConnector(4));
    assert_eq!(plane_of(ends(vec![Element::Plane, plug(), place()])), ReferencePlane::AtPlane(2));
    assert_eq!(ReferencePlane::OutsideConnector(3).to_string(), "outside element 3, connector");
    assert_eq!(ReferencePlane::OuterEnd.to_string(), "outer end");
    let planes = [ReferencePlane::OutsideConnector(4), ReferencePlane::AtPlane(2), ReferencePlane::OuterEnd];
    assert_eq!(planes.map(ReferencePlane::element), [Some(4), Some(2), None]);
    // The outer pad is inside the outer end and outside every other plane.
    let s11 = |middle| Chain::new(&lane(50.0, F, ends(middle), Vec::new())).at(Hertz(F)).absent.s11.norm();
    assert!(s11(vec![place()]) > 0.07 && s11(vec![Element::Plane, place()]) < 1e-15);
}

/// Without the footprint the part keeps its own inductance and both resistances.
#[test]
fn what_belongs_to_the_footprint() {
    let lane = edit(bare(50.0, F, Vec::new()), |p| {
        p.pad = Farad(0.1e-12);
        p.inductance = Henry(0.2e-9);
        p.part_inductance = Henry(0.3e-9);
        p.resistance.0 = 1.0;
        p.part_resistance.0 = 0.5;
        p.stub.0 = 1e-3;
    });
    let bare = Chain::new(&lane).without_footprint();
    let branch = bare.branch();
    assert_eq!((branch.pad.0, branch.inductance.0, branch.resistance.0, branch.stub_delay.0), (0.0, 0.3e-9, 1.5, 0.0));
    assert!(bare.has_no_footprint() && !Chain::new(&lane).has_no_footprint());
}

#[test]
fn an_overflow_is_a_fault_and_no_number() {
    let elements = vec![driver(50.0, 0.0), lossy(50.0, 1e5, 4.0, 1e9, 1.0, 0.02), place(), receiver(50.0, 0.0)];
    let fault = size_lane(&lane(50.0, F, elements, vec![rl(10.0)]), Figures::Nyquist).unwrap_err();
    assert_eq!(fault, Fault::NotFinite(Hertz(F)));
    assert!(fault.to_string().starts_with("the path cannot be computed at 5 GHz"));
    let open = vec![driver(50.0, 0.0), series_c(0.0), place(), receiver(50.0, 0.0)];
    assert!(size_lane(&lane(50.0, F, open, vec![rl(10.0)]), Figures::Nyquist).is_err());
}
