//! Reciprocity, passivity, losslessness, and the agreement of two routes to one network.

use num_complex::Complex64;

use crate::support::cascade::Cascade;
use crate::support::lanes::{connector, driver, lane, lossy, place, receiver, series_l, shunt_r, via};
use crate::support::paths::{Kind, random_lane};
use crate::support::random::Random;
use lanecap::model::{Element, Lane, StubSide};
use lanecap::network::{Chain, Scattering};
use lanecap::units::Hertz;

const PATHS: usize = 400;

fn close(a: Complex64, b: Complex64, tolerance: f64) -> bool {
    (a - b).norm() <= tolerance * a.norm().max(b.norm()).max(1e-3)
}

fn each_path(seed: u64, kind: Kind, mut check: impl FnMut(&Lane, f64, f64)) {
    let mut r = Random(seed);
    for _ in 0..PATHS {
        let lane = random_lane(&mut r, kind);
        let f = lane.nyquist().0 * r.between(0.3, 1.0);
        let c = r.decade(1e-14, 3e-12);
        check(&lane, f, c);
    }
}

#[test]
fn the_moebius_form_is_the_direct_cascade() {
    each_path(1, Kind::Any, |lane, f, c| {
        let (point, direct) = (Chain::new(lane).at(Hertz(f)), Cascade::new(lane, f));
        for (c, got, want) in [
            (-1.0, point.absent, direct.absent()),
            (0.0, point.at(0.0), direct.at(0.0)),
            (c, point.at(c), direct.at(c)),
        ] {
            let Scattering { s11, s21, s22, transfer } = got;
            for (a, b) in [(s11, want.s11), (s21, want.s21), (s22, want.s22), (transfer, want.transfer)] {
                assert!(close(a, b, 1e-9), "{a} is not {b} at {f} Hz, {c} F of {lane:?}");
            }
        }
    });
}

#[test]
fn a_path_turned_round_passes_the_same() {
    each_path(2, Kind::Any, |lane, f, c| {
        let mut turned = lane.clone();
        turned.path.elements.reverse();
        for e in &mut turned.path.elements {
            if let Element::Via(via) = &mut e.element
                && let Some(stub) = &mut via.stub
            {
                stub.side = if stub.side == StubSide::Outer { StubSide::Inner } else { StubSide::Outer };
            }
        }
        let (a, b) = (Chain::new(lane).at(Hertz(f)).at(c), Chain::new(&turned).at(Hertz(f)).at(c));
        assert!(close(a.s21, b.s21, 1e-10), "{} is not {}", a.s21, b.s21);
        assert!(close(a.transfer, b.transfer, 1e-10), "{} is not {}", a.transfer, b.transfer);
        let direct = Cascade::new(lane, f).at(c);
        assert!(close(a.s21, direct.s12, 1e-9), "S21 {} is not S12 {}", a.s21, direct.s12);
    });
}

#[test]
fn no_path_makes_power() {
    each_path(3, Kind::Any, |lane, f, c| {
        let point = Chain::new(lane).at(Hertz(f));
        for s in [point.absent, point.at(0.0), point.at(c), point.at(1e-9)] {
            let out = s.s21.norm_sqr() + s.s22.norm_sqr();
            assert!(out <= 1.0 + 1e-10 && s.s11.norm() <= 1.0 + 1e-10, "{out} of the power of {lane:?}");
        }
    });
}

#[test]
fn a_lossless_path_loses_nothing() {
    each_path(4, Kind::Lossless, |lane, f, c| {
        let s = Chain::new(lane).at(Hertz(f)).at(c);
        let out = s.s21.norm_sqr() + s.s22.norm_sqr();
        assert!((out - 1.0).abs() < 1e-9, "{out} of the power of {lane:?}");
        // Between ends of the reference impedance the voltage transfer is S21.
        assert!(close(s.s21, s.transfer, 1e-9));
    });
}

#[test]
fn without_a_pad_no_capacitance_is_no_protector() {
    each_path(5, Kind::Any, |lane, f, _| {
        let chain = Chain::new(lane).without_footprint();
        let point = chain.at(Hertz(f));
        let (a, b) = (point.absent, point.at(0.0));
        assert_eq!((a.s11, a.s21, a.s22, a.transfer), (b.s11, b.s21, b.s22, b.transfer));
        let tiny = point.at(1e-27);
        assert!(close(a.s21, tiny.s21, 1e-9) && close(a.s11, tiny.s11, 1e-9));
    });
}

/// Half of what is across the pair, all of what is per line.
#[test]
fn a_pair_is_two_single_lines_of_half_the_impedance() {
    let build = |z: f64, differential: bool| {
        let elements = vec![
            driver(z, 0.2e-12),
            lossy(z * 1.04, 0.2, 2.2, 2e9, 0.4, 0.002),
            connector(0.1e-12, 0.3e-9),
            place(),
            shunt_r(20.0 * z),
            series_l(0.2e-9),
            via(0.2e-12, 0.0, Some((1e-3, 4.0, StubSide::Inner))),
            receiver(1.1 * z, 0.1e-12),
        ];
        let mut lane = lane(z, 5e9, elements, Vec::new());
        lane.differential = differential;
        Chain::new(&lane).at(Hertz(5e9)).at(0.3e-12)
    };
    assert_eq!(build(45.0, false), build(90.0, true));
}
