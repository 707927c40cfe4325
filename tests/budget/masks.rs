//! Masks of published standards on a matched path with one capacitance, where C_max(f) = 1/(πfZ√(10^(RL/10) − 1)).

use std::f64::consts::PI;

use approx::assert_relative_eq;

use crate::support::lanes::*;
use lanecap::budget::{Figures, LaneOutcome, size_lane};
use lanecap::figures::*;
use lanecap::model::{Element, LaneLimit, Limit};
use lanecap::units::{Henry, Hertz};

const MHZ: f64 = 1e6;
const GHZ: f64 = 1e9;

fn c_max(rl: f64, f: f64, z: f64) -> f64 {
    1.0 / (PI * f * z * (10f64.powf(rl / 10.0) - 1.0).sqrt())
}

/// Sizes a matched pair of 100 ohm.
fn size(limit: Limit<LaneLimit>) -> LaneOutcome {
    let mut lane = bare(100.0, 1.25 * GHZ, vec![limit]);
    lane.differential = true;
    size_lane(&lane, Figures::Nyquist).unwrap()
}

fn check(outcome: &LaneOutcome, c: f64, f: f64) {
    assert_relative_eq!(outcome.sized.budget.capacitance.unwrap().0, c, max_relative = 1e-9);
    assert_relative_eq!(outcome.sized.budget.set_at.unwrap().0, f, max_relative = 1e-6);
    assert_eq!(outcome.sized.budget.limits[0].at, outcome.sized.budget.set_at);
    assert_eq!(outcome.sized.budget.allowed.intervals().len(), 1);
}

fn rl(points: &[(f64, f64)]) -> Limit<LaneLimit> {
    mask(&RETURN_LOSS, points)
}

/// IEEE 802.3, 40.8.3.1, as quoted in a secondary source: 16 dB from 1 to 40 MHz, 10 − 20 log10(f/80) to 100 MHz. The
/// corner at 40 MHz binds, not the top (25.547258 pF and 27.395752 pF: computed outside the project).
#[test]
fn gigabit_over_twisted_pair() {
    let slope = |f: f64| 10.0 - 20.0 * (f / 80.0).log10();
    let outcome = size(rl(&[(16.0, MHZ), (16.0, 40.0 * MHZ), (slope(40.0), 40.0 * MHZ), (slope(100.0), 100.0 * MHZ)]));
    // The upper piece starts at 16.0206 dB, so it is the stricter one of the step at 40 MHz.
    check(&outcome, c_max(slope(40.0), 40.0 * MHZ, 50.0), 40.0 * MHZ);
    let flat = size(rl(&[(16.0, MHZ), (16.0, 40.0 * MHZ), (8.0618, 100.0 * MHZ)]));
    assert_relative_eq!(flat.sized.budget.capacitance.unwrap().0, 25.547258e-12, max_relative = 1e-7);
    let top = size(rl(&[(8.0618, 100.0 * MHZ)]));
    assert_relative_eq!(top.sized.budget.capacitance.unwrap().0, 27.395752e-12, max_relative = 1e-6);
}

/// ANSI X3.263-1995, 9.1.5, as quoted in a secondary source: 16 dB from 2 to 30 MHz, 16 − 20 log10(f/30) to 60 MHz, 10 dB
/// to 80 MHz, with a step of 0.02 dB at 60 MHz.
#[test]
fn fast_ethernet_over_twisted_pair() {
    let end = 16.0 - 20.0 * 2f64.log10();
    let points = [(16.0, 2.0), (16.0, 30.0), (end, 60.0), (10.0, 60.0), (10.0, 80.0)];
    let outcome = size(rl(&points.map(|(db, f)| (db, f * MHZ))));
    let corners = [(16.0, 30.0), (end, 60.0), (10.0, 60.0), (10.0, 80.0)];
    let expected = corners.map(|(db, f)| c_max(db, f * MHZ, 50.0)).into_iter().fold(f64::INFINITY, f64::min);
    check(&outcome, expected, 80.0 * MHZ);
}

/// SATA revision 2.6, 7.2.2.4.3 (receiver) and 7.2.2.2.3 (transmitter), as quoted in a secondary source.
#[test]
fn a_serial_disk() {
    let bands = [0.15, 0.3, 0.6, 1.2, 2.4, 3.0, 5.0];
    for levels in [[18.0, 14.0, 10.0, 8.0, 3.0, 1.0], [14.0, 8.0, 6.0, 6.0, 3.0, 1.0]] {
        let steps = levels.iter().enumerate();
        let points = steps.flat_map(|(i, db)| [(*db, bands[i] * GHZ), (*db, bands[i + 1] * GHZ)]);
        let outcome = size(rl(&points.collect::<Vec<_>>()));
        let tops = levels.iter().zip(&bands[1..]).map(|(db, f)| (c_max(*db, f * GHZ, 50.0), *f * GHZ));
        let (c, f) = tops.reduce(|a, b| if b.0 < a.0 { b } else { a }).unwrap();
        check(&outcome, c, f);
    }
}

/// 10 dB from 0.05 to 1.25 GHz and 8 dB to 2.5 GHz (PCI Express at 5 GT/s: from memory).
#[test]
fn an_expansion_bus() {
    let outcome = size(rl(&[(10.0, 0.05 * GHZ), (10.0, 1.25 * GHZ), (8.0, 1.25 * GHZ), (8.0, 2.5 * GHZ)]));
    check(&outcome, c_max(8.0, 2.5 * GHZ, 50.0), 2.5 * GHZ);
}

/// 9 dB to 2.5 GHz, 9 − 12 log10(f/2.5 GHz) to 7.5 GHz (IEEE 802.3, clause 72: from memory). On the slope
/// |S11|² = G ∝ f^1.2 and C² ∝ G/(f²(1 − G)), least at G = 0.4: the binding frequency lies between all points.
#[test]
fn a_backplane_binds_between_its_points() {
    let end = 9.0 - 12.0 * 3f64.log10();
    let outcome = size(rl(&[(9.0, 0.05 * GHZ), (9.0, 2.5 * GHZ), (end, 7.5 * GHZ)]));
    let f = 2.5 * GHZ * (0.4 / 10f64.powf(-0.9)).powf(1.0 / 1.2);
    let c = (0.4f64 / 0.6).sqrt() / (PI * f * 50.0);
    assert!(2.5 * GHZ < f && f < 7.5 * GHZ && c < c_max(9.0, 2.5 * GHZ, 50.0));
    check(&outcome, c, f);
}

/// 12 dB to f_b/4, 12 − 15 log10(4f/f_b) above: 7.48 dB at f_b/2 = 14.5 GHz (OIF-CEI-56G, medium reach: the value as
/// quoted in a secondary source, the formula from memory). G ∝ f^1.5, least C at G = 1/4, beyond the corner.
#[test]
fn a_chip_to_module_channel() {
    let level = |f: f64| 12.0 - 15.0 * (4.0 * f / (29.0 * GHZ)).log10();
    assert!((level(14.5 * GHZ) - 7.48).abs() < 0.005);
    let outcome = size(rl(&[(12.0, 0.05 * GHZ), (12.0, 7.25 * GHZ), (level(29.0 * GHZ), 29.0 * GHZ)]));
    let f = 7.25 * GHZ * (0.25 / 10f64.powf(-1.2)).powf(1.0 / 1.5);
    check(&outcome, (1.0f64 / 3.0).sqrt() / (PI * f * 50.0), f);
}

#[test]
fn one_point_is_that_frequency_alone() {
    let outcome = size(rl(&[(10.0, 3.0 * GHZ)]));
    check(&outcome, c_max(10.0, 3.0 * GHZ, 50.0), 3.0 * GHZ);
    let step = size(rl(&[(10.0, 3.0 * GHZ), (12.0, 3.0 * GHZ)]));
    check(&step, c_max(12.0, 3.0 * GHZ, 50.0), 3.0 * GHZ);
}

/// A part with inductance and no resistance is a short at ω² = 1/(LC). With |B| ≤ b, b = 2√(10^(IL/10) − 1)/Z, the
/// capacitances from b/(ω + bω²L) to b/(bω²L − ω) are forbidden at each frequency; over the mask that range slides, and
/// what is left are the two ends.
#[test]
fn a_sliding_resonance_leaves_no_false_islands() {
    let inductance = 0.5e-9;
    for (il, low, high) in [(3.0, 2.0 * GHZ, 12.0 * GHZ), (30.0, 1.0 * GHZ, 10.0 * GHZ), (50.0, 1.0 * GHZ, 6.0 * GHZ)] {
        let mut p = protector();
        p.part_inductance = Henry(inductance);
        let elements = vec![driver(50.0, 0.0), Element::Protector(p), receiver(50.0, 0.0)];
        let mask = mask(&INSERTION_LOSS, &[(il, low), (il, high)]);
        let outcome = size_lane(&lane(50.0, 3.0 * GHZ, elements, vec![mask]), Figures::Nyquist).unwrap();
        let b = 2.0 * (10f64.powf(il / 10.0) - 1.0).sqrt() / 50.0;
        let (w1, w2) = (2.0 * PI * low, 2.0 * PI * high);
        let first = b / (w2 + b * w2 * w2 * inductance);
        let island = b * w1 * inductance > 1.0;
        assert_eq!(
            outcome.sized.budget.allowed.intervals().len(),
            1 + usize::from(island),
            "{:?}",
            outcome.sized.budget.allowed
        );
        assert_relative_eq!(outcome.sized.budget.capacitance.unwrap().0, first, max_relative = 1e-9);
        assert_eq!(outcome.sized.budget.set_at, Some(Hertz(high)));
        if island {
            let second = b / (b * w1 * w1 * inductance - w1);
            assert_relative_eq!(outcome.sized.budget.allowed.intervals()[1].low, second, max_relative = 1e-9);
        }
    }
}

/// A via stub is a short at its quarter wave, however narrow beside the mask: no capacitance helps.
#[test]
fn a_notch_between_grid_points_counts() {
    let quarter = 7.3 * GHZ;
    let length = lanecap::units::SPEED_OF_LIGHT / (4.0 * quarter * 2.0);
    let side = lanecap::model::StubSide::Inner;
    let elements = vec![driver(50.0, 0.0), place(), via(1e-15, 100e-9, Some((length, 4.0, side))), receiver(50.0, 0.0)];
    let size = |high: f64| {
        let mask = mask(&INSERTION_LOSS, &[(100.0, GHZ), (100.0, high)]);
        size_lane(&lane(50.0, GHZ, elements.clone(), vec![mask]), Figures::Nyquist).unwrap()
    };
    assert!(size(7.2 * GHZ).sized.budget.capacitance.is_some());
    let notched = size(8.0 * GHZ);
    assert!(notched.sized.budget.allowed.is_empty());
    let limit = &notched.sized.budget.limits[0];
    assert!(!limit.holds_absent() && limit.absent.value.unwrap() > 200.0);
    assert_relative_eq!(limit.absent.at.unwrap().0, quarter, max_relative = 1e-9);
}

/// Headroom is told at the worst frequency, found between the points: here where the return loss falls as fast as the mask.
#[test]
fn headroom_at_the_worst_frequency() {
    let end = 9.0 - 12.0 * 3f64.log10();
    let limit = rl(&[(9.0, 0.05 * GHZ), (9.0, 2.5 * GHZ), (end, 7.5 * GHZ)]);
    let c = 1e-12;
    let outcome = size_lane(&with_fitted(bare(50.0, GHZ, vec![limit]), c), Figures::Nyquist).unwrap();
    let head = outcome.sized.fitted.unwrap().headroom[0];
    // RL − level = 10 log10(1 + 1/x²) − 9 + 12 log10(f/f0) is least where 2/(1 + x²) = 1.2: x² = 2/3.
    let f = (2.0f64 / 3.0).sqrt() / (PI * 50.0 * c);
    let (value, bound) = (10.0 * 2.5f64.log10(), 9.0 - 12.0 * (f / (2.5 * GHZ)).log10());
    assert!(2.5 * GHZ < f && f < 7.5 * GHZ);
    assert_relative_eq!(head.at.unwrap().0, f, max_relative = 1e-6);
    assert_relative_eq!(head.value.unwrap(), value, max_relative = 1e-6);
    assert_relative_eq!(head.bound, bound, max_relative = 1e-6);
    assert_relative_eq!(head.margin.unwrap(), value - bound, max_relative = 1e-9);
    assert_eq!(head.holds, value >= bound);
}

#[test]
fn a_path_too_long_for_its_mask_is_refused() {
    let elements = vec![driver(50.0, 0.0), trace(50.0, 1e6, 4.0), place(), receiver(50.0, 0.0)];
    let limit = mask(&ADDED_LOSS, &[(1.0, GHZ), (1.0, 10.0 * GHZ)]);
    let fault = size_lane(&lane(50.0, GHZ, elements, vec![limit]), Figures::Nyquist).unwrap_err();
    assert_eq!(
        fault.to_string(),
        "the limit added_loss needs more than 262144 frequencies: the path is too long or too resonant for its span"
    );
}
