//! The current of a contact discharge and the waves of a surge, against the tables and rules of their standards.

use lanecap::transient::{ContactDischarge, SurgeWave, WINDOW};
use lanecap::units::{Second, Volt};

const STEP: f64 = 1e-12;

fn at(kilovolts: f64, nanoseconds: f64) -> f64 {
    ContactDischarge { level: Volt(kilovolts * 1e3) }.current(Second(nanoseconds * 1e-9)).0
}

/// First instant at which `wave` reaches `level`, to a step, before its peak.
fn reaches(wave: impl Fn(f64) -> f64, level: f64, step: f64) -> f64 {
    let mut t = 0.0;
    while wave(t) < level {
        t += step;
    }
    t
}

#[test]
fn levels_of_the_standard() {
    // IEC 61000-4-2:2008, table 2 (from memory): first peak ± 15 %, 30 ns ± 30 %, 60 ns ± 30 %, rise time 0.8 ns ± 25 %.
    for (level, peak, at_30, at_60) in
        [(2.0, 7.5, 4.0, 2.0), (4.0, 15.0, 8.0, 4.0), (6.0, 22.5, 12.0, 6.0), (8.0, 30.0, 16.0, 8.0)]
    {
        let highest = (0..5_000).map(|k| at(level, f64::from(k) * 1e-3)).fold(0.0, f64::max);
        assert!((highest / peak - 1.0).abs() < 0.15, "{level} kV: {highest} A");
        assert!((at(level, 30.0) / at_30 - 1.0).abs() < 0.3);
        assert!((at(level, 60.0) / at_60 - 1.0).abs() < 0.3);
        let wave = |t: f64| at(level, t * 1e9);
        let rise = reaches(wave, 0.9 * highest, STEP) - reaches(wave, 0.1 * highest, STEP);
        assert!((rise / 0.8e-9 - 1.0).abs() < 0.25, "{level} kV: {rise} s");
    }
}

#[test]
fn numbers_at_four_kilovolts() {
    // By numerical evaluation of the formula in another language: fixtures/reference.
    let (instant, peak) = (0..5_000)
        .map(|k| (f64::from(k) * 1e-3, at(4.0, f64::from(k) * 1e-3)))
        .fold((0.0, 0.0), |a, b| if b.1 > a.1 { b } else { a });
    assert!((peak - 14.92).abs() < 0.005 && (instant - 1.46).abs() < 0.006, "{peak} A at {instant} ns");
    assert!((at(4.0, 30.0) - 8.03).abs() < 0.005 && (at(4.0, 60.0) - 4.04).abs() < 0.005);
    let steps = (WINDOW.0 / STEP) as u32;
    let charge: f64 = (0..steps).map(|k| at(4.0, (f64::from(k) + 0.5) * 1e-3) * STEP).sum();
    assert!((charge - 0.581e-6).abs() < 0.0005e-6, "{charge} C");
    let steepest =
        (0..5_000).map(|k| at(8.0, f64::from(k + 1) * 1e-3) - at(8.0, f64::from(k) * 1e-3)).fold(0.0, f64::max);
    assert!((steepest * 1e3 - 37.5).abs() < 0.05, "{} A/ns", steepest * 1e3);
    assert_eq!(at(4.0, 0.0), 0.0);
    assert_eq!(at(4.0, -1.0), 0.0);
}

/// Front, duration between the halves, peak and area: the front from the crossings at two shares of the peak, scaled.
fn front_and_half(wave: SurgeWave, low: f64, high: f64, scale: f64) -> (f64, f64, f64, f64) {
    let value = |t: f64| wave.at(Second(t));
    let step = 1e-9;
    let front = scale * (reaches(value, high, step) - reaches(value, low, step));
    let values = || (0..2_000_000).map(|k| value(f64::from(k) * step));
    let above_half = values().filter(|v| *v > 0.5).count() as f64 * step;
    (front, above_half, values().fold(0.0, f64::max), values().sum::<f64>() * step)
}

#[test]
fn surge_waves() {
    // IEC 61000-4-5:2014, table 2 (from memory): front 8 µs = 1.25 (t90 − t10) ± 20 %, duration 20 µs = 1.18 times the time
    // above the half ± 20 %; 1.2 µs = 1.67 (t90 − t30) ± 30 %, 50 µs above the half ± 20 %.
    let (front, half, peak, area) = front_and_half(SurgeWave::Current, 0.1, 0.9, 1.25);
    assert!((front - 8.02e-6).abs() < 0.01e-6 && (1.18 * half - 19.2e-6).abs() < 0.06e-6, "{front} {half}");
    assert!((peak - 1.0).abs() < 1e-6 && (area - 17.4e-6).abs() < 0.06e-6, "{peak} {area}");
    let (front, half, peak, area) = front_and_half(SurgeWave::Voltage, 0.3, 0.9, 1.67);
    assert!((front - 1.35e-6).abs() < 0.01e-6 && (half / 50e-6 - 1.0).abs() < 0.04, "{front} {half}");
    assert!((peak - 1.0).abs() < 1e-6 && (area - 72e-6).abs() < 1e-6, "{peak} {area}");
}
