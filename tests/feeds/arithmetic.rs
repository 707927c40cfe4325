//! Closed forms and published figures of a feed's match.

use approx::assert_relative_eq;
use num_complex::Complex64;

use crate::support::feeds::{feed, fitted, parallel, radio, resistive};
use crate::support::lanes::{limit, place, protector, series_l, series_r, trace};
use lanecap::budget::{Verdict, size_feed};
use lanecap::figures::*;
use lanecap::response::{mismatch_loss, return_loss, vswr};

/// |Γ| of a standing-wave ratio.
fn reflection(s: f64) -> f64 {
    (s - 1.0) / (s + 1.0)
}

/// VSWR, return loss and mismatch loss; the return loss to one digit as quoted in a secondary source (a common table of
/// VSWR and return loss), all digits recomputed from RL = 20 log10((s + 1)/(s − 1)), ML = −10 log10(4s/(s + 1)²).
#[test]
fn the_ratios_and_losses_of_a_reflection() {
    for (s, rl, ml) in [
        (1.1, 26.4444, 0.00986),
        (1.2, 20.8279, 0.03604),
        (1.5, 13.9794, 0.17729),
        (2.0, 9.5424, 0.51153),
        (3.0, 6.0206, 1.24939),
        (5.828427, 3.0103, 3.0103),
        (10.0, 1.7430, 4.80725),
    ] {
        let g = reflection(s);
        assert_relative_eq!(vswr(g).unwrap(), s, max_relative = 1e-12);
        assert!((return_loss(g).unwrap() - rl).abs() < 5e-5, "{s}");
        assert!((mismatch_loss(g).unwrap() - ml).abs() < 6e-6, "{s}");
    }
    assert_eq!((vswr(1.0), mismatch_loss(1.0)), (None, None));
}

/// A shunt capacitance on a matched 50 ohm feed: |Γ| = x/√(1 + x²), x = π f C Z, here at 2.45 GHz.
#[test]
fn a_capacitance_across_a_matched_feed() {
    for (c, gamma, vswr, rl, ml) in [
        (0.1e-12, 0.038456, 1.079988, 28.3007, 0.00643),
        (0.3e-12, 0.114692, 1.259100, 18.8094, 0.05751),
        (0.5e-12, 0.188956, 1.465958, 14.4728, 0.15790),
        (1.0e-12, 0.359166, 2.120932, 8.8941, 0.59982),
    ] {
        let elements = vec![parallel(2.45e9, 50.0, 10.0), place(), radio(0.0)];
        let feed = fitted(feed((2.45e9, 2.45e9), elements, vec![]), c);
        let outcome = size_feed(&feed).unwrap();
        let metrics = outcome.sized.fitted.as_ref().unwrap().at.figures.band;
        assert!((metrics.reflection - gamma).abs() < 6e-7);
        assert!((metrics.vswr().unwrap() - vswr).abs() < 6e-7);
        assert!((metrics.return_loss().unwrap() - rl).abs() < 6e-5);
        assert!((metrics.mismatch_loss().unwrap() - ml).abs() < 6e-6);
        // Nothing on the way takes power.
        assert_relative_eq!(metrics.transducer_loss.unwrap(), metrics.mismatch_loss().unwrap(), max_relative = 1e-9);
        assert_eq!(outcome.sized.absent.band.return_loss(), None);
        assert_eq!(outcome.sized.budget.verdict, Verdict::Unbounded);
    }
}

/// Bandwidth of a matched resonance: (s − 1)/(Q√s) of f0 between the frequencies of VSWR s (Yaghjian and Best, *IEEE
/// Trans. AP* 53(4), 1298–1324 (2005), formula from memory; Balanis, *Antenna Theory*, p. 762, as quoted in a secondary
/// source). For Q = 10 and s = 2 the edges are 0.96526947 f0 and 1.03598014 f0.
#[test]
fn a_resonance_fills_its_band_and_no_more() {
    for (q, s, width) in
        [(10.0, 2.0, 0.070_710_7), (10.0, 3.0, 0.115_470_1), (20.0, 2.0, 0.035_355_3), (5.0, 2.0, 0.141_421_4)]
    {
        let half: f64 = 0.5 * width;
        let (low, high) = ((1.0 + half * half).sqrt() - half, (1.0 + half * half).sqrt() + half);
        if (q, s) == (10.0, 2.0) {
            assert!((low - 0.96526947).abs() < 2e-8 && (high - 1.03598014).abs() < 2e-8);
        }
        let elements = vec![parallel(1e9, 50.0, q), place(), radio(0.0)];
        let outcome = size_feed(&feed((low * 1e9, high * 1e9), elements, vec![])).unwrap();
        assert_relative_eq!(outcome.sized.absent.band.vswr().unwrap(), s, max_relative = 1e-6);
    }
}

/// The largest capacitance of a return loss on a matched feed, C = 1/(π f Z √(10^{RL/10} − 1)), at the highest frequency.
#[test]
fn the_band_is_bound_at_its_upper_end() {
    let elements = || vec![resistive(50.0), place(), radio(0.0)];
    let closed = 1.0 / (std::f64::consts::PI * 2.5e9 * 50.0 * 3.0);
    for (kind, level) in [
        (&RETURN_LOSS, 10.0),
        (&VSWR, (1.0 + 0.1f64.sqrt()) / (1.0 - 0.1f64.sqrt())),
        (&MISMATCH_LOSS, -10.0 * 0.9f64.log10()),
    ] {
        let outcome = size_feed(&feed((2.4e9, 2.5e9), elements(), vec![limit(kind, level)])).unwrap();
        assert_relative_eq!(outcome.sized.budget.capacitance.unwrap().0, closed, max_relative = 1e-9);
        assert_eq!(outcome.sized.budget.set_by, Some(kind));
        assert_eq!(outcome.sized.budget.set_at.unwrap().0, 2.5e9);
        let at = outcome.sized.at_budget.unwrap();
        assert_eq!((at.figures.resonance, at.changes.detuning, at.changes.retune), (None, None, None));
    }
}

/// Bode–Fano (Pozar, *Microwave Engineering*, 2nd ed., section 5.9, number from memory): 50 ohm beside 1 pF over 5 GHz
/// cannot be matched better than exp(−2) = 0.135335, a return loss of 17.3718 dB.
#[test]
fn no_match_beats_bode_and_fano() {
    let elements = |place| vec![resistive(50.0), place, radio(0.0)];
    let band = (1e9, 6e9);
    let bound = |place| size_feed(&fitted(feed(band, elements(place), vec![]), 0.9e-12)).unwrap().bode_fano;
    let mut padded = protector();
    padded.pad.0 = 0.1e-12;
    let element = |p| lanecap::model::Element::Protector(p);
    let rl = bound(element(padded.clone())).unwrap();
    assert!((rl - 17.3718).abs() < 5e-5, "{rl}");
    assert!((10f64.powf(-rl / 20.0) - 0.135335).abs() < 5e-7);
    // It holds for the protector alone, and directly at the antenna.
    padded.inductance.0 = 1e-10;
    assert_eq!(bound(element(padded)), None);
    let away = vec![resistive(50.0), trace(50.0, 1e-3, 4.0), place(), radio(0.0)];
    assert_eq!(size_feed(&fitted(feed(band, away, vec![]), 1e-12)).unwrap().bode_fano, None);
    // A parallel resonance brings Q/(2π f0 R) of its own.
    let own = vec![parallel(3.5e9, 50.0, 2.0), place(), radio(0.0)];
    let total = 1e-12 + 2.0 / (2.0 * std::f64::consts::PI * 3.5e9 * 50.0);
    let expected = 20.0 * std::f64::consts::LOG10_E / (2.0 * 50.0 * total * 5e9);
    let rl = size_feed(&fitted(feed(band, own, vec![]), 1e-12)).unwrap().bode_fano;
    assert_relative_eq!(rl.unwrap(), expected, max_relative = 1e-12);
}

/// The share of the radio's open voltage at the part, the highest of the band.
fn share(feed: &lanecap::model::Feed) -> f64 {
    size_feed(feed).unwrap().sized.fitted.unwrap().at.figures.band.voltage
}

/// √(2 P Z): 1 W in 50 ohm is 10 V at the peak, twice that where nothing takes the power (1 GΩ).
#[test]
fn the_peak_voltage_of_a_power() {
    let of = |antenna: f64| {
        let mut feed = fitted(feed((1e9, 2e9), vec![resistive(antenna), place(), radio(0.0)], vec![]), 0.0);
        assert_eq!(feed.peak_voltage(0.5), None);
        feed.power = Some(lanecap::units::Watt(1.0));
        feed.peak_voltage(share(&feed)).unwrap().0
    };
    assert_relative_eq!(of(50.0), 10.0, max_relative = 1e-12);
    assert_relative_eq!(of(1e9), 20.0, max_relative = 1e-6);
}

/// An antenna of 500 ohm, matched by 0.39 pF at the protector and 9.74 nH in series towards a radio of 33 dBm: all of the
/// power reaches the antenna, √(2 · 1.995 W · 500 ohm) = 44.67 V, while √(2 P Z)(1 + |Γ|) of the radio is below 15 V. Over
/// the band by Ohm's law: V = V_0 Z_p/(Z_p + jωL + Z), V_0 = √(8 P Z), Z_p = 500 ohm beside C.
#[test]
fn the_peak_voltage_is_that_at_the_protector() {
    let (c, l, power) = (0.39e-12, 9.74e-9, 10f64.powf(3.3) * 1e-3);
    let band = (2.4e9, 2.5e9);
    let mut feed = fitted(feed(band, vec![resistive(500.0), place(), series_l(l), radio(0.0)], vec![]), c);
    feed.power = Some(lanecap::units::Watt(power));
    let by_hand = |f: f64| {
        let omega = 2.0 * std::f64::consts::PI * f;
        let z = 1.0 / Complex64::new(1.0 / 500.0, omega * c);
        (8.0 * power * 50.0).sqrt() * (z / (z + Complex64::new(50.0, omega * l))).norm()
    };
    let highest = (0..=10_000).map(|i| by_hand(2.4e9 + 1e4 * f64::from(i))).fold(0.0, f64::max);
    let peak = feed.peak_voltage(share(&feed)).unwrap().0;
    assert_relative_eq!(peak, highest, max_relative = 1e-8);
    assert!((peak - (2.0 * power * 500.0).sqrt()).abs() < 0.01, "{peak}");
    let reflection = size_feed(&feed).unwrap().sized.fitted.unwrap().at.figures.band.reflection;
    assert!((2.0 * power * 50.0).sqrt() * (1.0 + reflection) < 15.0);
}

/// At the end of a stub, an open line with its pad alone: V = V_0 · V_j/V_0 / (cos θ + j Z Y_p sin θ) (Pozar), the junction
/// between two 50 ohm having half the open voltage of the radio beside the stub.
#[test]
fn the_part_at_the_end_of_a_stub_has_the_voltage_there() {
    let mut at_stub = protector();
    (at_stub.stub.0, at_stub.stub_permittivity, at_stub.pad.0) = (6e-3, 4.0, 0.2e-12);
    (at_stub.inductance.0, at_stub.resistance.0) = (0.5e-9, 2.0);
    let (f, c) = (3e9, 0.4e-12);
    let place = lanecap::model::Element::Protector(at_stub);
    let feed = fitted(feed((f, f * (1.0 + 1e-9)), vec![resistive(50.0), place, radio(0.0)], vec![]), c);
    let omega = 2.0 * std::f64::consts::PI * f;
    let (sin, cos) = (omega * 6e-3 * 2.0 / 299_792_458.0).sin_cos();
    let part = 1.0 / (Complex64::new(2.0, omega * 0.5e-9 - 1.0 / (omega * c)));
    let load = part + Complex64::new(0.0, omega * 0.2e-12);
    let along = cos + Complex64::new(0.0, 50.0 * sin) * load;
    let y = (load * cos + Complex64::new(0.0, sin / 50.0)) / along;
    let expected = (1.0 / (2.0 + 50.0 * y) / along).norm();
    assert_relative_eq!(share(&feed), expected, max_relative = 1e-6);
}

/// 10 ohm in series between 50 ohm and 50 ohm: the antenna gets 4·50·50/110² of the power available, while the radio sees
/// 60 ohm (elementary circuit theory). A shunt C after it takes no power, and is seen across 60 ohm.
#[test]
fn a_path_that_takes_power() {
    let elements = vec![resistive(50.0), series_r(10.0), place(), radio(0.0)];
    let (f, c) = (2e9, 0.5e-12);
    let outcome = size_feed(&fitted(feed((f, f), elements, vec![]), c)).unwrap();
    assert_relative_eq!(outcome.sized.absent.band.reflection, 10.0 / 110.0, max_relative = 1e-12);
    let absent = -10.0 * (4.0 * 2500.0 / (110.0f64 * 110.0)).log10();
    assert_relative_eq!(outcome.sized.absent.band.transducer_loss.unwrap(), absent, max_relative = 1e-12);
    // Of the power that gets in, 50/60 reaches the antenna.
    let y = num_complex::Complex64::new(1.0 / 60.0, 2.0 * std::f64::consts::PI * f * c);
    let gamma = (1.0 - 50.0 * y) / (1.0 + 50.0 * y);
    let with = -10.0 * ((1.0 - gamma.norm_sqr()) * 50.0 / 60.0).log10();
    let judged = outcome.sized.fitted.unwrap().at;
    assert_relative_eq!(judged.figures.band.transducer_loss.unwrap(), with, max_relative = 1e-12);
    assert_relative_eq!(judged.changes.added_loss.unwrap(), with - absent, max_relative = 1e-10);
}
