//! The fast way through the settings of a lane against the lane made anew at each.

use lanecap::budget::{Interval, judge_line};
use lanecap::figures;
use lanecap::study::{Fast, Varying};

use crate::support::lanes::limit;
use crate::support::paths::{Kind as Paths, random_lane};
use crate::support::random::Random;
use crate::support::toleranced::{randomly_toleranced, stated_line};

fn same(a: &[Interval], b: &[Interval], within: f64) -> bool {
    let close = |a: f64, b: f64| a == b || (a - b).abs() <= within * a.abs().max(b.abs());
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| close(a.low, b.low) && close(a.high, b.high))
}

#[test]
fn each_setting_is_that_of_a_line_made_anew() {
    let mut r = Random(11);
    let (mut compared, mut lanes) = (0, 0);
    for _ in 0..300 {
        let mut lane = random_lane(&mut r, Paths::Any);
        lane.limits = vec![
            limit(&figures::ADDED_LOSS, r.between(0.2, 1.5)),
            limit(&figures::EYE_PENALTY, r.between(0.02, 0.15)),
            limit(&figures::RETURN_LOSS, r.between(6.0, 20.0)),
            limit(&figures::RETURN_LOSS_INNER, r.between(4.0, 16.0)),
            limit(&figures::INSERTION_LOSS, r.between(1.0, 12.0)),
        ];
        let count = 1 + r.index(6);
        let Some(line) = stated_line(lane) else { continue };
        let line = randomly_toleranced(line, &mut r, count);
        let Some(varying) = Varying::of(&line) else { continue };
        let Some(mut fast) = Fast::of(&line, &varying) else { continue };
        lanes += 1;
        for _ in 0..6 {
            let point: Vec<f64> = (0..varying.directions).map(|_| r.share()).collect();
            let values: Vec<f64> = varying.at(&point).collect();
            let anew = varying.set(&line, &values).unwrap();
            let slow = judge_line(&anew).unwrap();
            fast.set(&values).unwrap();
            for (quick, slow) in fast.limits().iter().zip(&slow) {
                let quick = quick.allowed();
                assert!(
                    same(quick.intervals(), slow.allowed.intervals(), 1e-12),
                    "{}: {:?} and {:?}",
                    slow.figure.word(),
                    quick.intervals(),
                    slow.allowed
                );
                compared += 1;
            }
        }
    }
    assert!(lanes > 200 && compared > 6000, "only {lanes} lanes, {compared} sets");
}
