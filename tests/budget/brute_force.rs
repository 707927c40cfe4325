//! Budgets of random paths against a scan and a bisection of the metric itself, from the direct cascade.

use crate::support::cascade::{Cascade, Figures};
use crate::support::paths::{Kind, random_lane};
use crate::support::random::Random;
use lanecap::budget::{Inequality, IntervalSet, Modulus};
use lanecap::network::Chain;
use lanecap::units::Hertz;

const PATHS: usize = 2000;
/// Relative agreement of an end of the set with the bisected crossing.
const AGREE: f64 = 1e-9;

fn db(x: f64) -> f64 {
    -20.0 * x.log10()
}

fn metric(modulus: Modulus, absent: &Figures, fitted: &Figures) -> f64 {
    match modulus {
        Modulus::Added => db(fitted.s21.norm()) - db(absent.s21.norm()),
        Modulus::Insertion => db(fitted.s21.norm()),
        Modulus::Return => db(fitted.s11.norm()),
        Modulus::ReturnInner => db(fitted.s22.norm()),
        Modulus::Fundamental => 1.0 - fitted.transfer.norm() / absent.transfer.norm(),
        Modulus::Vswr | Modulus::Mismatch => panic!("{modulus:?} is none of a lane"),
    }
}

/// What limits of a lane bound at one frequency.
const MODULI: [Modulus; 5] =
    [Modulus::Added, Modulus::Insertion, Modulus::Return, Modulus::ReturnInner, Modulus::Fundamental];

/// A level that the metric crosses somewhere between 10 fF and 1 pF, most often.
fn level(r: &mut Random, modulus: Modulus, absent: &Figures, cascade: &Cascade) -> f64 {
    let c = r.decade(1e-14, 1e-12);
    metric(modulus, absent, &cascade.at(c))
}

#[test]
fn nyquist_budgets_are_where_the_metric_crosses() {
    let mut r = Random(2026);
    let (mut crossings, mut windows) = (0, 0);
    for _ in 0..PATHS {
        let lane = random_lane(&mut r, Kind::Any);
        let f = lane.nyquist().0;
        let (point, cascade) = (Chain::new(&lane).at(Hertz(f)), Cascade::new(&lane, f));
        let absent = cascade.absent();
        let kind = MODULI[r.below(5) as usize];
        let level = level(&mut r, kind, &absent, &cascade);
        if !level.is_finite() {
            continue;
        }
        let set = IntervalSet::from(Inequality::new(kind, level, &point).allowed().intervals());
        let margin = |c: f64| {
            let value = metric(kind, &absent, &cascade.at(c));
            kind.figure().sense().margin(value, level)
        };
        if margin(0.0).abs() < 1e-9 && margin(1e-15).abs() < 1e-9 {
            // The port plane is inward of the protector: the metric is the level, for every capacitance.
            assert!(set.is_all() || set.is_empty());
            continue;
        }
        let ends: Vec<f64> = set.intervals().iter().flat_map(|i| [i.low, i.high]).collect();
        let scan: Vec<f64> = std::iter::once(0.0).chain((0..48).map(|i| 1e-15 * 10f64.powf(i as f64 / 8.0))).collect();
        let margins: Vec<f64> = scan.iter().map(|c| margin(*c)).collect();
        for (c, m) in scan.iter().zip(&margins) {
            let at_an_end = ends.iter().any(|end| (end - c).abs() < 1e-6 * c) || m.abs() < 1e-10;
            assert!(
                at_an_end || set.contains(*c) == (*m >= 0.0),
                "{kind:?} {level} at {c} F: margin {m}, {set:?}, {lane:?}"
            );
        }
        windows += usize::from(margins[0] < 0.0 && !set.is_empty());
        for i in 1..scan.len() {
            if (margins[i - 1] >= 0.0) == (margins[i] >= 0.0) {
                continue;
            }
            let (mut low, mut high) = (scan[i - 1], scan[i]);
            for _ in 0..100 {
                let middle = 0.5 * (low + high);
                if (margin(middle) >= 0.0) == (margins[i - 1] >= 0.0) { low = middle } else { high = middle }
            }
            crossings += 1;
            // Where the metric barely moves with C its own round-off moves the crossing.
            let slope = (margin(low * 1.001) - margin(low * 0.999)).abs() / 0.002;
            let blur = AGREE + 1e-13 * (1.0 + level.abs()) / slope.max(1e-300);
            let off = ends.iter().map(|end| (end / low - 1.0).abs()).fold(f64::INFINITY, f64::min);
            assert!(off <= blur, "{kind:?} {level}: crossing at {low} F is off by {off} from {set:?}, {lane:?}");
        }
    }
    assert!(crossings > PATHS / 2 && windows > PATHS / 50, "{crossings} crossings, {windows} windows");
}
