//! The eye of whole chains.

use std::f64::consts::PI;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;

use super::special::pole_step;
use super::{channel, data, shunt, skin};
use lanecap::response::{Case, Ctle, Feedback, Signal, Taps, TimeDomain, eye_opening};

const T: f64 = 100e-12;

/// Pulse of a single pole, from its closed-form step.
fn pole_pulse(t: f64, tau: f64, sigma: f64) -> f64 {
    pole_step(t + T / 2.0, tau, sigma) - pole_step(t - T / 2.0, tau, sigma)
}

/// The best eye of a pulse given in closed form, by a fine search over the phase.
fn search(pulse: impl Fn(f64) -> f64, levels: f64, dfe: i32, symbols: i32) -> f64 {
    let height = |t: f64| {
        let others = (-symbols..=symbols).filter(|k| *k < 0 || *k > dfe);
        pulse(t) - (levels - 1.0) * others.map(|k| pulse(t + f64::from(k) * T).abs()).sum::<f64>()
    };
    let coarse = (0..400).map(|i| T * f64::from(i) / 200.0);
    let start = coarse.max_by(|a, b| height(*a).total_cmp(&height(*b))).unwrap_or(0.0);
    let (mut a, mut b) = (start - T / 100.0, start + T / 100.0);
    for _ in 0..80 {
        let (c, d) = (a + (b - a) / 3.0, b - (b - a) / 3.0);
        if height(c) > height(d) { b = d } else { a = c }
    }
    height(0.5 * (a + b))
}

#[test]
fn pulse_of_a_single_pole() {
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 30e-12));
    let sigma = lane.signal().sigma_s();
    let pulse = lane.pulse(Case::With(1e-12), 64);
    for (i, x) in pulse.samples.iter().enumerate().take(40 * pulse.per_symbol) {
        let exact = pole_pulse(i as f64 * pulse.step_s(), 25e-12, sigma);
        assert_abs_diff_eq!(*x, exact, epsilon = 1e-11);
    }
}

#[test]
fn eye_of_a_single_pole() {
    // Rows: capacitance across 50 ohm (τ = 25 ohm · C), levels, rise, feedback taps.
    for (c, levels, rise, dfe) in [
        (0.5e-12, 2, 30e-12, 0),
        (1e-12, 2, 30e-12, 0),
        (2e-12, 2, 10e-12, 0),
        (2e-12, 4, 30e-12, 0),
        (4e-12, 2, 60e-12, 0),
        (2e-12, 4, 30e-12, 1),
        (4e-12, 3, 30e-12, 2),
    ] {
        let signal = Signal { levels, dfe: Feedback::of(dfe), ..data(T, rise) };
        let mut lane = TimeDomain::new(shunt(50.0), signal);
        let (eye, pulse) = lane.eye(Case::With(c)).unwrap();
        let sigma = lane.signal().sigma_s();
        let exact = search(|t| pole_pulse(t, 25.0 * c, sigma), f64::from(levels), dfe as i32, 40);
        assert_abs_diff_eq!(eye.height, exact, epsilon = 1e-7);
        let cursors = pulse.cursors(eye.at_s, &eye.taps);
        assert_abs_diff_eq!(cursors.eye_height(levels), eye.height, epsilon = 1e-9);
    }
}

#[test]
fn single_pole_with_nearly_square_bits() {
    // Closed form 1 − 2 exp(−T/τ), sampled at the end of the bit (own calculation, elementary): 0.5 pF and 50 ohm at
    // 10, 20, 40 Gb/s, and 1 pF at 25 Gb/s. The edge is 2 % of a bit here, so it takes about that much from the slope at the end.
    for (c, rate, ideal) in
        [(0.5e-12, 20e9, 0.963_368_722), (0.5e-12, 40e9, 0.729_329_434), (1e-12, 25e9, 0.596_206_964)]
    {
        let signal = Signal { rise_s: 0.02 / rate, ..Signal::new(rate, 2) };
        let (eye, _) = TimeDomain::new(shunt(50.0), signal).eye(Case::With(c)).unwrap();
        assert!(eye.height < ideal, "an edge cannot open the eye");
        assert_abs_diff_eq!(eye.height, ideal, epsilon = 0.025);
    }
}

#[test]
fn ideal_lane_is_open_all_the_way() {
    let (eye, _) = TimeDomain::new(shunt(50.0), data(T, 30e-12)).eye(Case::Absent).unwrap();
    // The pulse of a Gaussian edge keeps erf(T/(2√2 σ)) at its middle, and its neighbours take the rest.
    let sigma = 30e-12 / 2.563_103_131_089_201;
    let top = 1.0 - super::special::erfc(T / (2.0 * 2f64.sqrt() * sigma));
    assert_abs_diff_eq!(eye.height, 2.0 * top - 1.0, epsilon = 1e-9);
    // NRZ: the eye is positive wherever the pulse exceeds a half, which is one unit interval.
    assert_abs_diff_eq!(eye.width_ui, 1.0, epsilon = 1e-6);
}

#[test]
fn width_of_a_single_pole() {
    let mut lane = TimeDomain::new(shunt(50.0), Signal { levels: 4, ..data(T, 30e-12) });
    let (eye, _) = lane.eye(Case::With(1e-12)).unwrap();
    let sigma = lane.signal().sigma_s();
    let height = |t: f64| {
        let sum: f64 = (-3..40).map(|k| pole_pulse(t + f64::from(k) * T, 25e-12, sigma)).sum();
        4.0 * pole_pulse(t, 25e-12, sigma) - 3.0 * sum
    };
    let left = super::special::solve(height, eye.at_s - T, eye.at_s);
    let right = super::special::solve(|t| -height(t), eye.at_s, eye.at_s + T);
    assert_abs_diff_eq!(eye.width_ui, (right - left) / T, epsilon = 1e-7);
}

#[test]
fn a_closed_eye_is_negative_and_has_no_width() {
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 30e-12));
    let (eye, _) = lane.eye(Case::With(8e-12)).unwrap();
    let exact = search(|t| pole_pulse(t, 200e-12, lane.signal().sigma_s()), 2.0, 0, 80);
    assert_abs_diff_eq!(eye.height, exact, epsilon = 1e-6);
    assert!(eye.height < 0.0);
    assert_eq!(eye.width_ui, 0.0);
}

#[test]
fn delay_moves_the_instant_and_nothing_else() {
    let delayed = |seconds: f64| {
        move |f: f64| Complex64::cis(-2.0 * PI * f * seconds) / Complex64::new(1.0, 2.0 * PI * f * 30e-12)
    };
    let (near, _) = TimeDomain::new(channel(delayed(0.0)), data(T, 30e-12)).eye(Case::Absent).unwrap();
    let (far, _) = TimeDomain::new(channel(delayed(777.7e-12)), data(T, 30e-12)).eye(Case::Absent).unwrap();
    assert_abs_diff_eq!(far.height, near.height, epsilon = 1e-8);
    assert_abs_diff_eq!(far.width_ui, near.width_ui, epsilon = 1e-8);
    assert_abs_diff_eq!(far.at_s - near.at_s, 777.7e-12, epsilon = 1e-3 * T);
}

#[test]
fn a_sequence_never_looks_worse_than_the_worst_pattern() {
    // PRBS7, y[n] = y[n−6] ^ y[n−7] (de-facto pattern; recursion as quoted in a secondary source), through a lane with reflections.
    let echo = |f: f64| {
        (1.0 - 0.12 * Complex64::cis(-2.0 * PI * f * 3.3 * T) + 0.05 * Complex64::cis(-2.0 * PI * f * 7.1 * T))
            / Complex64::new(1.0, 2.0 * PI * f * 40e-12)
    };
    let (eye, pulse) = TimeDomain::new(channel(echo), data(T, 30e-12)).eye(Case::Absent).unwrap();
    let cursors = pulse.cursors(eye.at_s, &[]);
    let mut bits = vec![true; 7];
    while bits.len() < 127 + 40 {
        bits.push(bits[bits.len() - 6] ^ bits[bits.len() - 7]);
    }
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for n in 20..147 {
        let level = |i: usize| if bits[i % 127] { 0.5 } else { -0.5 };
        let after = cursors.after.iter().take(20).enumerate().map(|(k, h)| h * level(n + 127 - 1 - k));
        let before = cursors.before.iter().take(20).enumerate().map(|(k, h)| h * level(n + 1 + k));
        let seen = cursors.main * level(n) + after.sum::<f64>() + before.sum::<f64>();
        if level(n) > 0.0 { low = low.min(seen) } else { high = high.max(seen) }
    }
    assert!(low - high >= eye.height - 1e-9, "{} < {}", low - high, eye.height);
    assert!(low - high < eye.height + 0.25, "the sequence exercises the lane");
}

#[test]
fn transmit_taps_undo_a_single_trailing_cursor() {
    // A chain 1 + a·z^−1 behind taps (1, −a)/(1 + a) leaves (1 − a² z^−2)/(1 + a): worst eye of square bits (1 − a²)/(1 + a) = 1 − a.
    let a = 0.2;
    let chain = move |f: f64| 1.0 + a * Complex64::cis(-2.0 * PI * f * T);
    let taps = Some(Taps { pre: 0.0, main: 1.0 / (1.0 + a), post: -a / (1.0 + a) });
    let (eye, _) = TimeDomain::new(channel(chain), Signal { taps, ..data(T, 10e-12) }).eye(Case::Absent).unwrap();
    assert_abs_diff_eq!(eye.height, 1.0 - a, epsilon = 1e-9);
    let (plain, _) = TimeDomain::new(channel(chain), data(T, 10e-12)).eye(Case::Absent).unwrap();
    assert_abs_diff_eq!(plain.height, 1.0 - a, epsilon = 1e-9);
    // The mirror image for the tap sent early.
    let chain = move |f: f64| 1.0 + a * Complex64::cis(2.0 * PI * f * T);
    let taps = Some(Taps { pre: -a / (1.0 + a), main: 1.0 / (1.0 + a), post: 0.0 });
    let (early, pulse) = TimeDomain::new(channel(chain), Signal { taps, ..data(T, 10e-12) }).eye(Case::Absent).unwrap();
    let cursors = pulse.cursors(early.at_s, &[]);
    assert_abs_diff_eq!(cursors.before[0], 0.0, epsilon = 1e-9);
    assert_abs_diff_eq!(cursors.before[1], -a * a / (1.0 + a), epsilon = 1e-9);
}

#[test]
fn receiver_filter_undoes_its_pole() {
    // Zero at the chain's pole, first pole far away: a single pole at f_p2 remains, exactly.
    let (slow, fast, second) = (2e9, 40e9, 10e9);
    let ctle = Ctle { gain_db: 0.0, zero_hz: slow, poles_hz: (fast, second) };
    let chain = move |f: f64| Complex64::new(1.0, f / fast) / Complex64::new(1.0, f / slow);
    let signal = Signal { ctle: Some(ctle), ..data(T, 30e-12) };
    let (eye, _) = TimeDomain::new(channel(chain), signal).eye(Case::Absent).unwrap();
    let tau = 1.0 / (2.0 * PI * second);
    let sigma = 30e-12 / 2.563_103_131_089_201;
    let exact = search(|t| pole_pulse(t, tau, sigma), 2.0, 0, 40);
    assert_abs_diff_eq!(eye.height, exact, epsilon = 1e-8);
    // 6 dB of peaking: half the gain at rest, IEEE Std 802.3 Annex 93A.
    let six = Ctle::with_peaking(6.0, 10e9);
    assert_relative_eq!(six.at(0.0).re, 10f64.powf(-0.3), max_relative = 1e-12);
    assert_eq!((six.zero_hz, six.poles_hz), (2.5e9, (2.5e9, 10e9)));
}

#[test]
fn the_slow_tail_of_skin_effect_counts_as_interference() {
    // All cursors are positive and sum to H(0) = 1, so EH = 2 max p − 1. The step is erfc(a/(2√t)) (textbook diffusion),
    // here averaged over the Gaussian edge by the trapezoidal rule.
    let a = 4.15e-6 * 0.5f64.sqrt();
    let sigma = 30e-12 / 2.563_103_131_089_201;
    let step = |t: f64| -> f64 {
        let n = 2000;
        let at = |i: i32| sigma * 8.0 * f64::from(i) / f64::from(n);
        let weight = |x: f64| (-0.5 * (x / sigma) * (x / sigma)).exp();
        let value = |x: f64| {
            if t > x { super::special::erfc(a / (2.0 * (t - x).sqrt())) } else { 0.0 }
        };
        let total: f64 = (-n..=n).map(|i| weight(at(i))).sum();
        (-n..=n).map(|i| weight(at(i)) * value(at(i))).sum::<f64>() / total
    };
    let mut lane = TimeDomain::new(channel(move |f| skin(a, f)), data(T, 30e-12));
    let (eye, _) = lane.eye(Case::Absent).unwrap();
    let peak = step(eye.at_s + T / 2.0) - step(eye.at_s - T / 2.0);
    assert_abs_diff_eq!(eye.height, 2.0 * peak - 1.0, epsilon = 2e-6);
    // Told apart from the main cursor, the tail that comes round does not ask for a long record.
    assert!(eye.record <= 256, "{}", eye.record);
}

#[test]
fn margin_agrees_with_the_eye_near_its_bound() {
    let mut lane = TimeDomain::new(shunt(50.0), data(T, 30e-12));
    let (eye, _) = lane.eye(Case::With(1e-12)).unwrap();
    let margin = lane.eye_margin(Case::With(1e-12), eye.height - 1e-6).unwrap();
    assert_abs_diff_eq!(margin, 1e-6, epsilon = 1e-9);
    assert!(lane.eye_margin(Case::With(1e-9), 0.5).unwrap() < -0.5);
    assert!(lane.eye_margin(Case::With(f64::INFINITY), 0.5).unwrap() < -0.5);
}

#[test]
fn opening_in_volt() {
    assert_abs_diff_eq!(eye_opening(0.6, 1.0, 45.0, Some(45.0), 2), 0.6, epsilon = 1e-15);
    assert_abs_diff_eq!(eye_opening(0.6, 1.0, 45.0, None, 4), 0.4, epsilon = 1e-15);
    assert_abs_diff_eq!(eye_opening(0.6, 1.0, 30.0, Some(60.0), 2), 0.8, epsilon = 1e-15);
}

#[test]
fn a_limited_tap_leaves_the_rest_and_stays_over_all_phases() {
    // τ = 25 ohm · 4 pF = T, so that h_1 is about e^−1 of the main cursor, more than a limit of 0.2 takes away.
    let sigma = 30e-12 / 2.563_103_131_089_201;
    let pulse = |t: f64| pole_pulse(t, 100e-12, sigma);
    let others =
        |t: f64| (-40..=40).filter(|k| *k < 0 || *k > 1).map(|k| pulse(t + f64::from(k) * T).abs()).sum::<f64>();
    for limit in [f64::INFINITY, 0.2] {
        let tap = |t: f64| pulse(t + T).min(if limit.is_finite() { limit * pulse(t) } else { 1.0 });
        let free = |t: f64| pulse(t) - (pulse(t + T) - tap(t)).abs() - others(t);
        let (mut a, mut b) = (0.0, 1.5 * T);
        for _ in 0..100 {
            let (c, d) = (a + (b - a) / 3.0, b - (b - a) / 3.0);
            if free(c) > free(d) { b = d } else { a = c }
        }
        let best = 0.5 * (a + b);
        let held = |t: f64| pulse(t) - (pulse(t + T) - tap(best)).abs() - others(t);
        let edge = |way: f64| {
            let far = (1..2000).map(|i| f64::from(i) * T / 1000.0).find(|d| held(best + way * d) <= 0.0).unwrap();
            super::special::solve(|d| -held(best + way * d), far - T / 1000.0, far)
        };
        let dfe = Feedback { taps: 1, limit };
        let (eye, _) = TimeDomain::new(shunt(50.0), Signal { dfe, ..data(T, 30e-12) }).eye(Case::With(4e-12)).unwrap();
        assert_abs_diff_eq!(eye.height, free(best), epsilon = 1e-8);
        assert_abs_diff_eq!(eye.taps[0], tap(best), epsilon = 1e-6);
        assert_abs_diff_eq!(eye.width_ui, (edge(1.0) + edge(-1.0)) / T, epsilon = 1e-5);
    }
}
