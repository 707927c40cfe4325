//! A neck beside the protector, against the closed form of two short lines with a capacitance between them, and against the same
//! traces stated piece by piece.

use std::f64::consts::TAU;

use approx::assert_abs_diff_eq;
use num_complex::Complex64;

use crate::support::lanes::{driver, lane, place, receiver, trace};
use crate::support::{feeds, lanes, read_text};
use lanecap::Figures;
use lanecap::budget::{size_feed, size_lane};
use lanecap::model::{Design, Element, Lane, Line, Neck};
use lanecap::network::{Chain, FeedChain};
use lanecap::transient::{Sign, struck};
use lanecap::units::{Farad, Hertz, Metre, Ohm};

const C0: f64 = 299_792_458.0;

/// A pair of `z`, or one line of `z`, with a neck in the middle.
fn necked(z: f64, differential: bool, narrow: f64, length: f64, permittivity: f64, pad: f64) -> Lane {
    let mut elements =
        vec![driver(z, 0.0), trace(z, 20e-3, permittivity), place(), trace(z, 20e-3, permittivity), receiver(z, 0.0)];
    if let Element::Protector(p) = &mut elements[2] {
        p.pad = Farad(pad);
        p.neck = Some(Neck { impedance: Ohm(narrow), length: Metre(length) });
    }
    Lane { differential, ..lane(z, 5e9, elements, Vec::new()) }
}

/// [c, jZn s; js/Zn, c] [1, 0; jωC, 1] [c, jZn s; js/Zn, c] by hand, s = sin θ, c = cos θ (from Pozar, *Microwave Engineering*,
/// ABCD tables): A = c² − s² − b s c, B = jZn(2 s c − b s²), C = j(2 s c + b c²)/Zn, b = ωC Zn; then S11 and S21 between ends of Z,
/// and the remaining 2·ℓ of matched line.
fn by_hand(f: f64, z: f64, narrow: f64, theta: f64, c: f64) -> (Complex64, Complex64) {
    let (s, co) = theta.sin_cos();
    let b = TAU * f * c * narrow;
    let a = co * co - s * s - b * s * co;
    let over = narrow / z * (2.0 * s * co - b * s * s);
    let under = z / narrow * (2.0 * s * co + b * co * co);
    let sum = Complex64::new(2.0 * a, over + under);
    (Complex64::new(0.0, over - under) / sum, 2.0 / sum)
}

#[test]
fn a_neck_is_two_short_lines_with_the_capacitance_between_them() {
    let (permittivity, length): (f64, f64) = (3.4, 2e-3);
    for differential in [false, true] {
        let z = if differential { 100.0 } else { 50.0 };
        let made = necked(z, differential, 1.4 * z, length, permittivity, 0.06e-12);
        for f in [1e7, 1e9, 5e9, 2e10] {
            let turn = TAU * f * permittivity.sqrt() / C0;
            let (s11, s21) = by_hand(f, 50.0, 70.0, turn * length, 0.36e-12);
            let round = Complex64::from_polar(1.0, -2.0 * turn * (20e-3 - length));
            let got = Chain::new(&made).at(Hertz(f)).at(0.3e-12);
            for (got, want) in [(got.s11, s11 * round), (got.s22, s11 * round), (got.s21, s21 * round)] {
                assert_abs_diff_eq!(got.re, want.re, epsilon = 1e-12);
                assert_abs_diff_eq!(got.im, want.im, epsilon = 1e-12);
            }
        }
    }
}

/// With 2τ(Zn/Z0 − Z0/Zn) = (C + C_pad)·Z0 the reflection has no term in ω; the circuit is lossless and alike from both ends, so
/// that the next one is in ω³.
#[test]
fn a_balanced_neck_reflects_with_the_third_power_of_the_frequency() {
    let (permittivity, length, pad): (f64, f64, f64) = (3.4, 1e-3, 0.03e-12);
    for differential in [false, true] {
        let z = if differential { 100.0 } else { 50.0 };
        let tau = length * permittivity.sqrt() / C0;
        let c = 2.0 * tau * (1.4 - 1.0 / 1.4) / 50.0 - pad;
        let made = necked(z, differential, 1.4 * z, length, permittivity, pad);
        let balances = made.path.neck_balances(made.across_factor(), made.half_reference()).unwrap();
        assert!((balances.0 / (c + pad) - 1.0).abs() < 1e-12, "{balances}");
        let mut without = made.clone();
        if let Element::Protector(p) = &mut without.path.elements[2].element {
            p.neck = None;
        }
        let s11 = |lane: &Lane, f: f64| Chain::new(lane).at(Hertz(f)).at(c).s11.norm();
        let f = 1e9;
        // ωCZ/2 of a small shunt.
        assert!((s11(&without, f) / (TAU * f * (c + pad) * 25.0) - 1.0).abs() < 1e-3);
        assert!(s11(&made, f) < 5e-3 * s11(&without, f), "{} {}", s11(&made, f), s11(&without, f));
        let ratio = s11(&made, 2.0 * f) / s11(&made, f);
        assert!((ratio / 8.0 - 1.0).abs() < 0.01, "{ratio}");
        // Half as narrow and it is no balance: of first order again.
        let other = necked(z, differential, 1.2 * z, length, permittivity, pad);
        assert!((s11(&other, 2.0 * f) / s11(&other, f) - 2.0).abs() < 0.05);
    }
}

/// Two texts alike but for their numbers, and these to `relative`.
fn alike(one: &str, other: &str, relative: f64) {
    let pieces = |text: &str| -> Vec<String> {
        text.split(|c: char| " ,()[]{}:".contains(c)).filter(|piece| !piece.is_empty()).map(str::to_owned).collect()
    };
    let (one, other) = (pieces(one), pieces(other));
    assert_eq!(one.len(), other.len());
    for (a, b) in one.iter().zip(&other) {
        match (a.parse::<f64>(), b.parse::<f64>()) {
            (Ok(x), Ok(y)) if x == y => {}
            (Ok(x), Ok(y)) => assert!((x - y).abs() <= relative * x.abs().max(y.abs()), "{a} is not {b}"),
            _ => assert_eq!(a, b),
        }
    }
}

fn design(sheet: &str) -> Design {
    read_text(sheet).1.unwrap_or_else(|errors| panic!("{errors:?}"))
}

const OUTER: &str = "trace 100 ohm 15 mm loss 0.2 dB/cm at 5 GHz permittivity 3.4 loss_tangent 0.008";
const INNER: &str = "trace 95 ohm 30 mm loss 0.6 dB at 5 GHz permittivity 3.6";
const PLACE: &str = "protector pad 0.06 pF inductance 0.2 nH stub 0.2 mm";

/// The path of a neck, and the same path with its traces stated piece by piece.
fn pair_of_paths(outward: bool) -> [String; 2] {
    let neck = format!("{OUTER}\n{PLACE} neck 1.5 mm 140 ohm\n{INNER}");
    let pieces = format!(
        "{}\n{}\n{PLACE}\ntrace 140 ohm 1.5 mm loss 0.03 dB at 5 GHz permittivity 3.6\n{}",
        OUTER.replace("15 mm", "13.5 mm"),
        OUTER.replace("100 ohm 15 mm", "140 ohm 1.5 mm"),
        "trace 95 ohm 28.5 mm loss 0.57 dB at 5 GHz permittivity 3.6"
    );
    [neck, pieces].map(|middle| {
        let whole =
            format!("driver 100 ohm pad 0.1 pF\nconnector 0.1 pF 0.3 nH\n{middle}\nreceiver 100 ohm pad 0.1 pF");
        match outward {
            false => format!("path {{ {whole} }}"),
            true => {
                let mut rows: Vec<&str> = whole.lines().collect();
                rows.reverse();
                format!("path outward {{ {} }}", rows.join("\n"))
            }
        }
    })
}

#[test]
fn a_neck_is_its_traces_stated_piece_by_piece() {
    for outward in [false, true] {
        let [necked, pieces] = pair_of_paths(outward).map(|path| {
            let sheet = format!(
                "lane \"mast camera\" {{ rate 10 Gb/s nrz; reference 100 ohm differential
                 limit added_loss <= 1 dB; limit return_loss >= 10 dB at 1 GHz, 8 dB at 5 GHz
                 limit worst_eye_penalty <= 15 %; limit impedance_dip >= 75 ohm\n{path} }}"
            );
            lanes(design(&sheet)).remove(0)
        });
        for k in 0..60 {
            let f = Hertz(1e8 * 1.1f64.powi(k));
            let (a, b) = (Chain::new(&necked).at(f), Chain::new(&pieces).at(f));
            for c in [0.0, 0.1e-12, 0.5e-12] {
                let (a, b) = (a.at(c), b.at(c));
                for (a, b) in [(a.s11, b.s11), (a.s21, b.s21), (a.s22, b.s22), (a.transfer, b.transfer)] {
                    assert!((a - b).norm() <= 1e-12, "{a} is not {b} at {f}");
                }
            }
        }
        let budget = |lane: &Lane| format!("{:?}", size_lane(lane, Figures::All).unwrap().sized.budget);
        // The frequency where a mask binds is promised to 1e-6.
        alike(&budget(&necked), &budget(&pieces), 1e-7);
        let nyquist = |lane: &Lane| {
            let mut lane = lane.clone();
            lane.limits.truncate(1);
            let sized = size_lane(&lane, Figures::Nyquist).unwrap().sized;
            format!("{:?} {:?} {:?}", sized.budget, sized.absent, sized.at_budget)
        };
        alike(&nyquist(&necked), &nyquist(&pieces), 1e-12);
        let whole = Chain::new(&necked).delay_estimate().0;
        assert!((whole / Chain::new(&pieces).delay_estimate().0 - 1.0).abs() < 1e-12);
        // A footprint of nothing keeps the neck: it is trace.
        let bare = Chain::new(&necked).without_footprint().at(Hertz(5e9)).at(0.1e-12).s11;
        assert!((bare - Chain::new(&pieces).without_footprint().at(Hertz(5e9)).at(0.1e-12).s11).norm() < 1e-12);
    }
}

#[test]
fn a_neck_in_a_feed_is_its_traces_stated_piece_by_piece() {
    let sheet = |middle: &str| {
        format!(
            "feed \"mast\" {{ band 2.4 GHz to 2.5 GHz; reference 50 ohm; limit return_loss >= 9 dB
             path {{ antenna series 2.45 GHz 45 ohm q 6\n{middle}\nradio 50 ohm pad 0.1 pF }} }}"
        )
    };
    let necked = sheet("trace 50 ohm 4 mm\nprotector pad 0.05 pF neck 80 ohm 3 mm\ntrace 52 ohm 3 mm permittivity 3");
    let pieces = sheet(
        "trace 50 ohm 1 mm\ntrace 80 ohm 3 mm\nprotector pad 0.05 pF\ntrace 80 ohm 3 mm permittivity 3\n\
         trace 52 ohm 0 mm permittivity 3",
    );
    let [a, b] = [necked, pieces].map(|sheet| feeds(design(&sheet)).remove(0));
    for k in 0..40 {
        let f = Hertz(2e9 + 2e7 * f64::from(k));
        let of = |feed: &_| FeedChain::new(feed).at(f).at(0.2e-12).reflection;
        assert!((of(&a) - of(&b)).norm() < 1e-12);
    }
    let [a, b] = [a, b].map(|feed| format!("{:?}", size_feed(&feed).unwrap().sized.budget));
    alike(&a, &b, 1e-9);
}

/// What is struck: ideal lines of the neck's impedance beside the part, in the path of a rail as in that of a lane.
#[test]
fn a_neck_is_struck_as_its_traces() {
    let part = "part \"clamp\" { capacitance 0.5 pF max; inductance 0.3 nH; bidirectional; standoff 5 V
                clamp 9 V at 16 A; dynamic_resistance 0.3 ohm }";
    let rail = |middle: &str| {
        format!(
            "{part}\nrail \"supply\" {{ line_voltage 0 V to 3 V; exposure contact 8 kV
             path {{ connector 0.2 pF 0.4 nH\n{middle}\npin pad 3 pF clamps 4 V 1 ohm survives 5 A }} }}"
        )
    };
    let lane = |middle: &str| {
        format!(
            "{part}\nlane \"link\" {{ rate 1 Gb/s nrz; reference 100 ohm differential; limit added_loss <= 1 dB
             path {{ driver 100 ohm\n{middle}\nreceiver 100 ohm pad 1 pF clamps 4 V 1 ohm }} }}"
        )
    };
    let necked =
        "trace 60 ohm 8 mm\nprotector part \"clamp\" pad 0.1 pF neck 90 ohm 2 mm\ntrace 70 ohm 12 mm permittivity 3";
    let pieces = "trace 60 ohm 6 mm\ntrace 90 ohm 2 mm\nprotector part \"clamp\" pad 0.1 pF
                  trace 90 ohm 2 mm permittivity 3\ntrace 70 ohm 10 mm permittivity 3";
    let circuit = |sheet: String| -> String {
        let line: Line = design(&sheet).lines.remove(0);
        let struck = struck(&line, Sign::Positive).unwrap();
        format!("{:?} {:?} {:?} {:?}", struck.circuit, struck.pin, struck.protector, struck.arrives)
    };
    for of in [&rail as &dyn Fn(&str) -> String, &lane] {
        alike(&circuit(of(necked)), &circuit(of(pieces)), 1e-12);
        assert_ne!(circuit(of(necked)), circuit(of(&necked.replace("90 ohm", "80 ohm"))));
    }
}
