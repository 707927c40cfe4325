//! A further part in the path, against closed forms of what is known from outside.

use std::f64::consts::{FRAC_PI_2, TAU};

use approx::{assert_abs_diff_eq, assert_relative_eq};
use num_complex::Complex64;

use crate::support::lanes::{bare, driver, guard, lane, place, receiver, shunt_c, trace};
use lanecap::model::{Element, Guard, Lane};
use lanecap::network::{Chain, Scattering};
use lanecap::units::{Farad, Henry, Hertz, Metre, Ohm};

const Z: f64 = 50.0;
const C0: f64 = 299_792_458.0;

fn between(elements: Vec<Element>) -> Lane {
    let ends = (driver(Z, 0.0), receiver(Z, 0.0));
    lane(Z, 5e9, [ends.0].into_iter().chain(elements).chain([ends.1]).collect(), Vec::new())
}

fn at(lane: &Lane, f: f64, c: f64) -> Scattering {
    Chain::new(lane).at(Hertz(f)).at(c)
}

fn same(a: Complex64, b: Complex64) {
    assert_abs_diff_eq!(a.re, b.re, epsilon = 1e-12);
    assert_abs_diff_eq!(a.im, b.im, epsilon = 1e-12);
}

fn hung(guard: Guard) -> Lane {
    between(vec![Element::Guard(guard), place()])
}

/// One shunt C: S11 = −jx/(2 + jx), S21 = 2/(2 + jx), x = ωCZ (from Pozar, *Microwave Engineering*, ABCD tables).
#[test]
fn a_guard_alone_is_a_shunt_capacitance() {
    for (f, c) in [(1e8, 2e-12), (5e9, 0.5e-12), (2e10, 0.05e-12)] {
        let x = Complex64::new(0.0, TAU * f * c * Z);
        let lane = hung(guard(c));
        let absent = Chain::new(&lane).at(Hertz(f)).absent;
        same(absent.s11, -x / (2.0 + x));
        same(absent.s21, 2.0 / (2.0 + x));
        // Beside the protector both add up.
        same(at(&lane, f, 0.3e-12).s21, at(&bare(Z, f, Vec::new()), f, c + 0.3e-12).s21);
        let plain = between(vec![shunt_c(c), place()]);
        same(at(&lane, f, 0.3e-12).transfer, at(&plain, f, 0.3e-12).transfer);
    }
}

/// Two shunts r = −jx/(2 + jx), t = 2/(2 + jx) on a matched line of θ: the sum over all round trips (from Pozar, *Microwave
/// Engineering*, multiple reflections), S11 = r1 + t1² r2 e^{−2jθ}/(1 − r1 r2 e^{−2jθ}), S21 = t1 t2 e^{−jθ}/(1 − r1 r2 e^{−2jθ}).
#[test]
fn a_guard_and_a_protector_on_a_line() {
    let (length, permittivity) = (0.02, 3.4);
    for f in [2e8, 2.5e9, 7e9, 2e10] {
        for (c1, c2) in [(1.2e-12, 0.3e-12), (0.1e-12, 0.8e-12)] {
            let shunt = |c: f64| {
                let x = Complex64::new(0.0, TAU * f * c * Z);
                (-x / (2.0 + x), 2.0 / (2.0 + x))
            };
            let ((r1, t1), (r2, t2)) = (shunt(c1), shunt(c2));
            let turn = Complex64::from_polar(1.0, -TAU * f * length * f64::sqrt(permittivity) / C0);
            let round = 1.0 - r1 * r2 * turn * turn;
            let outer = between(vec![Element::Guard(guard(c1)), trace(Z, length, permittivity), place()]);
            let got = at(&outer, f, c2);
            same(got.s11, r1 + t1 * t1 * r2 * turn * turn / round);
            same(got.s21, t1 * t2 * turn / round);
            // Two guards, the protector absent.
            let two =
                vec![Element::Guard(guard(c1)), trace(Z, length, permittivity), Element::Guard(guard(c2)), place()];
            same(Chain::new(&between(two)).at(Hertz(f)).absent.s21, got.s21);
        }
    }
}

/// At f0 = 1/(2π√(LC)) the branch is R alone: S21 = 2R/(2R + Z) (from Pozar, shunt impedance on a matched line); without R it
/// is a short, and still a number.
#[test]
fn at_its_series_resonance_a_guard_is_its_resistance() {
    let c: f64 = 1e-12;
    let (own, via) = (0.7e-9, 0.3e-9);
    let f0 = 1.0 / (TAU * (c * (own + via)).sqrt());
    let made = |r: f64| {
        let (part_inductance, inductance, part_resistance) = (Henry(own), Henry(via), Ohm(r));
        hung(Guard { part_inductance, inductance, part_resistance, ..guard(c) })
    };
    assert_relative_eq!(at(&made(1.0), f0, 0.0).s21.norm(), 2.0 / 52.0, max_relative = 1e-9);
    for f in [f0, f0.next_up(), f0.next_down()] {
        let short = at(&made(0.0), f, 0.2e-12);
        assert!(short.is_finite() && short.s21.norm() < 1e-9, "{short:?}");
    }
    let found = Chain::new(&made(0.0)).resonances(Hertz(1e9), Hertz(1e10), 4);
    assert!(found.iter().any(|f| (f / f0 - 1.0).abs() < 1e-12), "{found:?}");
    // Across the pair the ground via is not in its way.
    let across = hung(Guard { part_inductance: Henry(own), inductance: Henry(via), across: true, ..guard(c) });
    let alone = hung(Guard { part_inductance: Henry(own), ..guard(c) });
    assert_eq!(at(&across, 3e9, 0.0), at(&alone, 3e9, 0.0));
}

/// A pad and a part at the end of a lossless line: Y = jY0 tan(θ + atan(ωCZ)) (from Pozar, an open line with its end lengthened
/// by the capacitance).
#[test]
fn a_guard_at_the_end_of_a_stub() {
    let (c, pad, length, permittivity) = (0.4e-12, 0.1e-12, 2e-3, 3.2);
    let made = hung(Guard { pad: Farad(pad), stub: Metre(length), stub_permittivity: permittivity, ..guard(c) });
    for f in [1e8, 2e9, 6e9] {
        let angle = TAU * f * length * f64::sqrt(permittivity) / C0 + (TAU * f * (c + pad) * Z).atan();
        assert!(angle < FRAC_PI_2);
        let y = Complex64::new(0.0, angle.tan());
        same(at(&made, f, 0.0).s21, 2.0 / (2.0 + y));
    }
}
