//! Peak distortion of given cursors against every pattern there is.

use approx::assert_abs_diff_eq;
use proptest::prelude::*;

use lanecap::response::Cursors;

/// The eye between the two top levels over all patterns of the symbols around, by counting through them.
/// Levels run from 0 to 1, so the ideal eye is 1/(M−1); the result is relative to it.
fn brute(cursors: &Cursors, levels: u32) -> f64 {
    let others: Vec<f64> = cursors.before.iter().chain(&cursors.after).copied().collect();
    let step = 1.0 / f64::from(levels - 1);
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for pattern in 0..levels.pow(others.len() as u32) {
        let (mut rest, mut sum) = (pattern, 0.0);
        for h in &others {
            sum += h * f64::from(rest % levels) * step;
            rest /= levels;
        }
        low = low.min(cursors.main + sum);
        high = high.max(cursors.main * (1.0 - step) + sum);
    }
    (low - high) / step
}

fn first() -> Cursors {
    Cursors { before: vec![0.08, -0.02], main: 0.80, after: vec![0.15, -0.06, 0.04] }
}

fn second() -> Cursors {
    Cursors { before: vec![-0.01], main: 0.80, after: vec![0.05, -0.02] }
}

#[test]
fn worked_pulses() {
    // Own calculation confirmed by brute force (no published numeric example could be read); formulas as in
    // S. H. Hall, H. L. Heck, *Advanced Signal Integrity for High-Speed Digital Designs* (2009), eqs (13-41), (13-42).
    // Values there for ±1 levels, divided by the ideal eye 2/(M−1).
    for (cursors, levels, eye) in [
        (first(), 2, 0.90 / 2.0),
        (first(), 4, -0.166_666_666_667 / (2.0 / 3.0)),
        (second(), 2, 1.44 / 2.0),
        (second(), 3, 0.64),
        (second(), 4, 0.373_333_333_333 / (2.0 / 3.0)),
    ] {
        assert_abs_diff_eq!(cursors.eye_height(levels), eye, epsilon = 1e-9);
        assert_abs_diff_eq!(cursors.eye_height(levels), brute(&cursors, levels), epsilon = 1e-9);
    }
}

#[test]
fn the_worst_pattern_is_spelt_in_the_order_it_is_sent() {
    let worst = first().worst_pattern(2, 16);
    // Sent first: the symbol that adds h_3 = 0.04, so a 0 hurts; last: the one that adds h_−2 = −0.02, so a 1 hurts.
    assert_eq!((worst.symbols.as_str(), worst.main), ("010101", 3));
    assert_abs_diff_eq!(worst.opening, 0.45, epsilon = 1e-12);
    assert_eq!(first().worst_pattern(4, 1).symbols, "030");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_pattern_is_worse(
        main in 0.3..1.0f64,
        before in prop::collection::vec(-0.2..0.2f64, 0..3),
        after in prop::collection::vec(-0.2..0.2f64, 0..4),
        levels in 2u32..5,
    ) {
        let cursors = Cursors { before, main, after };
        prop_assert!((cursors.eye_height(levels) - brute(&cursors, levels)).abs() < 1e-9);
    }

    #[test]
    fn the_named_pattern_gives_the_least_one(
        main in 0.3..1.0f64,
        before in prop::collection::vec(-0.2..0.2f64, 0..3),
        after in prop::collection::vec(-0.2..0.2f64, 0..4),
    ) {
        let cursors = Cursors { before, main, after };
        let worst = cursors.worst_pattern(2, 16);
        let bits: Vec<f64> = worst.symbols.bytes().map(|b| f64::from(b - b'0')).collect();
        let seen = |bits: &[f64]| -> f64 {
            let sent = |k: i64| bits.get((worst.main as i64 - k) as usize).copied().unwrap_or(0.0);
            let later = (1..).zip(&cursors.before).map(|(k, h)| h * sent(-k));
            let earlier = (1..).zip(&cursors.after).map(|(k, h)| h * sent(k));
            cursors.main * sent(0) + later.sum::<f64>() + earlier.sum::<f64>()
        };
        let opposite: Vec<f64> = bits.iter().map(|b| 1.0 - b).collect();
        prop_assert!((seen(&bits) - seen(&opposite) - worst.opening).abs() < 1e-12);
    }
}
