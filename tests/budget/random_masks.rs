//! Masks on random paths against a dense scan of the direct cascade.

use crate::support::cascade::Cascade;
use crate::support::lanes::mask;
use crate::support::paths::{Kind, random_lane};
use crate::support::random::Random;
use lanecap::budget::{Figures, size_lane};
use lanecap::figures::*;
use lanecap::model::Lane;

static KINDS: [&Figure; 3] = [&ADDED_LOSS, &INSERTION_LOSS, &RETURN_LOSS];
const DENSE: usize = 1500;

/// The least margin in dB over the mask, on a dense grid.
fn least_margin(cascades: &[(f64, Cascade)], figure: &'static Figure, c: f64) -> f64 {
    let db = |x: f64| -20.0 * x.log10();
    let margins = cascades.iter().map(|(level, cascade)| {
        let s = cascade.at(c);
        match figure {
            f if f == &RETURN_LOSS => db(s.s11.norm()) - level,
            f if f == &INSERTION_LOSS => level - db(s.s21.norm()),
            _ => level - db(s.s21.norm() / cascade.absent().s21.norm()),
        }
    });
    margins.fold(f64::INFINITY, f64::min)
}

fn random_mask(r: &mut Random, lane: &Lane, figure: &'static Figure) -> [(f64, f64); 2] {
    let (low, high) = (lane.nyquist().0 * 0.2, lane.nyquist().0 * r.between(0.5, 1.2));
    let cascade = Cascade::new(lane, high);
    let c = r.decade(2e-14, 1e-12);
    let level = match figure {
        f if f == &RETURN_LOSS => -20.0 * cascade.at(c).s11.norm().log10() - 2.0,
        f if f == &INSERTION_LOSS => -20.0 * cascade.at(c).s21.norm().log10() + 1.0,
        _ => r.decade(0.1, 3.0),
    };
    [(level + r.between(-1.0, 1.0), low), (level, high)]
}

#[test]
fn the_budget_of_a_mask_is_where_a_dense_scan_breaks() {
    let mut r = Random(77);
    let mut bounded = 0;
    for _ in 0..40 {
        let mut lane = random_lane(&mut r, Kind::Any);
        let kind = KINDS[r.below(3) as usize];
        let points = random_mask(&mut r, &lane, kind);
        lane.limits = vec![mask(kind, &points)];
        let outcome = size_lane(&lane, Figures::Nyquist).unwrap();
        let Some(budget) = outcome.sized.budget.capacitance.filter(|c| c.0 > 0.0) else {
            continue;
        };
        bounded += 1;
        let [(a, low), (b, high)] = points;
        let bound_at = outcome.sized.budget.set_at.unwrap().0;
        let dense = (0..=DENSE).map(|i| low * (high / low).powf(i as f64 / DENSE as f64)).chain([bound_at]);
        let level = |f: f64| a + (b - a) * (f / low).ln() / (high / low).ln();
        let cascades: Vec<_> = dense.map(|f| (level(f), Cascade::new(&lane, f))).collect();
        let inside = outcome.sized.budget.lowest.unwrap().0.max(budget.0 * (1.0 - 1e-8));
        for c in [inside, 0.5 * (inside + outcome.sized.budget.lowest.unwrap().0)] {
            let margin = least_margin(&cascades, kind, c);
            assert!(margin > -1e-9, "{kind:?} broken by {margin} dB at {c} F below {budget:?} of {lane:?}");
        }
        let beyond = least_margin(&cascades, kind, budget.0 * (1.0 + 1e-7));
        assert!(beyond < 1e-11, "{kind:?} still holds by {beyond} dB above {budget:?} of {lane:?}");
    }
    assert!(bounded >= 15, "{bounded}");
}

/// A mask asks for no less than each of its frequencies does alone.
#[test]
fn a_frequency_more_never_enlarges_the_set() {
    let mut r = Random(78);
    for _ in 0..25 {
        let mut lane = random_lane(&mut r, Kind::Any);
        let kind = KINDS[r.below(3) as usize];
        let [(a, low), (b, high)] = random_mask(&mut r, &lane, kind);
        lane.limits = vec![mask(kind, &[(a, low), (b, high)])];
        let whole = size_lane(&lane, Figures::Nyquist).unwrap().sized.budget.allowed;
        for _ in 0..20 {
            let share = r.share();
            let point = (a + share * (b - a), low * (high / low).powf(share));
            lane.limits = vec![mask(kind, &[point])];
            let alone = size_lane(&lane, Figures::Nyquist).unwrap().sized.budget.allowed;
            for interval in whole.intervals() {
                let within = |i: &&lanecap::budget::Interval| {
                    i.low <= interval.low * (1.0 + 1e-9) && interval.high * (1.0 - 1e-9) <= i.high
                };
                assert!(alone.intervals().iter().any(|i| within(&i)), "{interval:?} is not in {alone:?} at {point:?}");
            }
        }
    }
}
