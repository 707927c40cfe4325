//! The best sampling phase, and the pulse of a further capacitance, against the long way round.

use std::f64::consts::PI;

use approx::assert_abs_diff_eq;
use num_complex::Complex64;

use super::{channel, constant, data, skin};
use lanecap::network::Mobius;
use lanecap::response::{Case, ChainSample, Feedback, Sample, Signal, TimeDomain};

const T: f64 = 100e-12;

/// H = 2/(2 + Z_0 Y) of a branch across a matched line of 50 ohm: R, L and C in series.
fn branch(resistance: f64, inductance: f64, c: f64, f: f64) -> Complex64 {
    let w = 2.0 * PI * f;
    let impedance = Complex64::new(resistance, w * inductance - 1.0 / (w * c));
    2.0 / (2.0 + 50.0 / impedance)
}

#[test]
fn a_further_capacitance_is_the_sum_of_its_harmonics() {
    let (resistance, inductance) = (0.4, 0.35e-9);
    let source = move |f: f64| {
        let w = 2.0 * PI * f;
        // Y = jωC/(1 + jωRC − ω²LC), and H = 2/(2 + Z_0 Y) cleared of its fraction.
        let (drop, y) = (Complex64::new(-w * w * inductance, w * resistance), Complex64::new(0.0, w));
        let with = Mobius { p: 2.0.into(), q: 2.0 * drop, r: 2.0.into(), s: 2.0 * drop + 50.0 * y };
        ChainSample { transfer: Sample { absent: Complex64::ONE, with }, reflection: constant(Complex64::ZERO) }
    };
    let signal = data(T, 30e-12);
    let sigma = signal.sigma_s();
    let mut lane = TimeDomain::new(source, signal);
    for (c, record) in [(0.3e-12, 32), (5e-12, 64), (0.05e-12, 128)] {
        let pulse = lane.pulse(Case::With(c), record);
        let spacing = 1.0 / (record as f64 * T);
        for i in (0..pulse.samples.len()).step_by(17) {
            let t = i as f64 * pulse.step_s();
            let harmonic = |k: usize| {
                let f = k as f64 * spacing;
                let (x, edge) = (PI * f * T, -0.5 * (2.0 * PI * f * sigma).powi(2));
                branch(resistance, inductance, c, f) * (x.sin() / x * edge.exp()) * Complex64::cis(2.0 * PI * f * t)
            };
            let count = (9.0 / (2.0 * PI * sigma) / spacing) as usize;
            let sum = 1.0 + 2.0 * (1..count).map(|k| harmonic(k).re).sum::<f64>();
            // The edge filter is 7e-10 at the highest harmonic that is kept.
            assert_abs_diff_eq!(pulse.samples[i], sum / record as f64, epsilon = 1e-9);
        }
    }
}

#[test]
fn no_phase_of_the_record_opens_the_eye_further() {
    let echoes = |f: f64| {
        let late = |a: f64, symbols: f64| a * Complex64::cis(-2.0 * PI * f * symbols * T);
        skin(2e-6, f) * (1.0 + late(-0.3, 1.37) + late(0.2, 3.61) + late(0.25, 0.48))
    };
    for (levels, dfe, sign) in [(2, 0, 1.0), (4, 0, 1.0), (2, 2, 1.0), (4, 3, 1.0), (3, 0, -1.0)] {
        let signal = Signal { levels, ..data(T, 30e-12) };
        let mut lane = TimeDomain::new(channel(move |f| sign * echoes(f)), signal);
        // Too short a record for its slow tail to be told apart: the eye is the highest of its phases.
        let pulse = lane.pulse(Case::Absent, 32);
        let eye = pulse.eye(levels, Feedback::of(dfe));
        let height = |t: f64| {
            let mut cursors = pulse.cursors(t, &[]);
            cursors.after.iter_mut().take(dfe).for_each(|h| *h = 0.0);
            cursors.eye_height(levels)
        };
        assert_abs_diff_eq!(height(eye.at_s), eye.height, epsilon = 1e-12);
        assert_abs_diff_eq!(pulse.cursors(eye.at_s, &eye.taps).eye_height(levels), eye.height, epsilon = 1e-12);
        let phases = 5 * pulse.samples.len();
        let best = (0..phases).map(|i| height(i as f64 * pulse.step_s() / 5.0)).fold(f64::MIN, f64::max);
        assert!(eye.height >= best - 1e-9, "{} < {best}", eye.height);
        assert!(eye.height <= best + 2e-3, "{} > {best}", eye.height);
    }
}
