//! Lanes that pass no direct current.

use approx::assert_relative_eq;

use super::special::{normal, pole_step, solve};
use lanecap::budget::{Figures, size_lane};
use lanecap::model::Design;

fn phy(rate: &str, between: &str) -> Design {
    Design::parse(&format!(
        "lane \"phy\" {{ rate {rate} nrz; reference 100 ohm differential; limit worst_eye_penalty <= 10 %\n\
         path {{ driver 100 ohm; {between}; protector 5 pF; receiver 100 ohm }} }}\n"
    ))
    .unwrap()
}

/// The capacitance across 50 ohm, matched at both ends, that takes a tenth of the worst-pattern eye: a single pole of
/// τ = 25 ohm · C behind a Gaussian edge of 0.3 unit intervals, all in unit intervals.
fn tenth(symbol_s: f64) -> f64 {
    let sigma = 0.3 / 2.563_103_131_089_201;
    let height = |tau: f64| {
        let pulse = |t: f64| pole_step(t + 0.5, tau, sigma) - pole_step(t - 0.5, tau, sigma);
        let eye = |t: f64| {
            pulse(t) - (1..30).map(|k| pulse(t + f64::from(k)).abs() + pulse(t - f64::from(k)).abs()).sum::<f64>()
        };
        let (mut a, mut b) = (-0.5, 1.5);
        for _ in 0..100 {
            let (c, d) = (a + (b - a) / 3.0, b - (b - a) / 3.0);
            if eye(c) > eye(d) { b = d } else { a = c }
        }
        eye(0.5 * (a + b))
    };
    // Of the edge alone all cursors are positive and add up to 1: EH = 2 max p − 1.
    let ideal = 2.0 * (2.0 * normal(0.5 / sigma) - 1.0) - 1.0;
    solve(|tau| 0.9 * ideal - height(tau), 0.05, 1.0) * symbol_s / 25.0
}

#[test]
fn a_magnetising_inductance_is_transparent_to_coded_data() {
    // 350 uH between 50 ohm and 50 ohm: 14 us, 1750 unit intervals of 8 ns.
    let (mut budgets, exact) = (Vec::new(), tenth(8e-9));
    for rate in ["125 MBd", "125.0125 MBd"] {
        let design = phy(rate, "shunt 350 uH");
        let (head, lane) = design.lanes().next().unwrap();
        assert!(head.defaults.iter().any(|note| note.code == "default-coupling-transparent"));
        assert!(head.warnings.iter().all(|note| note.code != "no-direct-current"));
        let sized = size_lane(lane, Figures::All).unwrap().sized;
        budgets.push(sized.budget.capacitance.unwrap().0);
        assert_eq!(sized.budget.allowed.intervals().len(), 1);
        assert!(sized.absent.time.rise.is_some() && sized.absent.time.eye_height.unwrap() > 0.9);
        assert_relative_eq!(sized.fitted.unwrap().at.changes.droop.unwrap(), 5.0 / 1750.0, max_relative = 2e-4);
    }
    assert_relative_eq!(budgets[0], exact, max_relative = 2e-4);
    assert_relative_eq!(budgets[1], budgets[0], max_relative = 2e-4);
}

#[test]
fn a_short_coupling_closes_the_eye() {
    // 49 and 51 unit intervals: C (50 + 50) ohm and L/25 ohm.
    for (short, long) in [("series 3.92 nF", "series 4.08 nF"), ("shunt 9.8 uH", "shunt 10.2 uH")] {
        for (between, open) in [(short, false), (long, true)] {
            let design = phy("125 MBd", between);
            let (head, lane) = design.lanes().next().unwrap();
            assert_eq!(head.warnings.iter().all(|note| note.code != "no-direct-current"), open, "{between}");
            let sized = size_lane(lane, Figures::All).unwrap().sized;
            assert_eq!(sized.absent.time.eye_height.unwrap() > 1e-4, open);
            assert_eq!(sized.absent.time.eye_width.unwrap() > 0.0, open);
            assert_eq!(sized.fitted.unwrap().at.changes.time.worst_eye_penalty.is_some(), open);
            assert_eq!(sized.budget.capacitance.is_some(), open);
            assert_eq!(sized.budget.limits[0].holds_absent(), open);
        }
    }
}
