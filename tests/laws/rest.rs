//! The chain at f = 0.

use approx::assert_abs_diff_eq;

use crate::support::lanes::*;
use crate::support::paths::{Kind, random_lane};
use crate::support::random::Random;
use lanecap::model::{Element, Lane};
use lanecap::network::{Chain, Scattering};
use lanecap::units::Hertz;

fn dc(elements: Vec<Element>) -> Scattering {
    Chain::new(&lane(50.0, 5e9, elements, Vec::new())).at(Hertz(0.0)).at(1e-12)
}

#[test]
fn a_path_without_resistance_is_a_wire() {
    let elements = vec![
        driver(50.0, 1e-12),
        lossy(50.0, 0.5, 4.0, 1e9, 0.5, 0.02),
        connector(1e-12, 1e-9),
        place(),
        via(1e-12, 1e-9, Some((1e-3, 4.0, lanecap::model::StubSide::Inner))),
        receiver(50.0, 1e-12),
    ];
    let s = dc(elements);
    assert_eq!((s.s11.norm(), s.s21.re, s.s22.norm(), s.transfer.re), (0.0, 1.0, 0.0, 1.0));
}

/// The resistive divider: 10 ohm in the line and 100 ohm to ground.
#[test]
fn resistances_divide() {
    let s = dc(vec![driver(40.0, 0.0), series_r(10.0), place(), shunt_r(100.0), receiver(100.0, 0.0)]);
    // 100 ∥ 100 = 50 behind 50: half of the source, times 140/100.
    assert_abs_diff_eq!(s.transfer.re, 0.7, epsilon = 1e-15);
    let looking_in = 10.0 + 100.0 / 3.0;
    assert_abs_diff_eq!(s.s11.re, (looking_in - 50.0) / (looking_in + 50.0), epsilon = 1e-15);
    let looking_back = 1.0 / (1.0 / 60.0 + 0.01);
    assert_abs_diff_eq!(s.s22.re, (looking_back - 50.0) / (looking_back + 50.0), epsilon = 1e-15);
}

#[test]
fn series_capacitors_block_and_shunt_inductors_short() {
    let blocked = dc(vec![
        driver(50.0, 0.0),
        series_c(1e-7),
        place(),
        trace(50.0, 0.1, 4.0),
        series_c(1e-7),
        receiver(50.0, 0.0),
    ]);
    assert_eq!((blocked.s11.re, blocked.s21.re, blocked.s22.re, blocked.transfer.re), (1.0, 0.0, 1.0, 0.0));
    let shorted = dc(vec![driver(50.0, 0.0), place(), shunt_l(1e-7), series_r(50.0), open_receiver(0.0)]);
    assert_eq!((shorted.s11.re, shorted.transfer.re), (-1.0, 0.0));
    assert_abs_diff_eq!(shorted.s22.re, 0.0, epsilon = 1e-15);
}

/// The limit is met from above: nothing jumps at 0.
#[test]
fn every_path_is_continuous_at_rest() {
    let mut r = Random(6);
    let close = |lane: &Lane| {
        let chain = Chain::new(lane);
        let (rest, slow) = (chain.at(Hertz(0.0)).at(1e-12), chain.at(Hertz(1e-6)).at(1e-12));
        // Behind an open receiver's series capacitor no current flows at all: H(0) is 0 by definition there, and the
        // limit from above is a capacitive divider.
        let open = lane.path.receiver().is_some_and(|r| r.impedance.is_none());
        let transfer = if open { rest.transfer } else { slow.transfer };
        for (a, b) in [(rest.s11, slow.s11), (rest.s21, slow.s21), (rest.s22, slow.s22), (rest.transfer, transfer)] {
            assert!((a - b).norm() < 1e-6, "{a} at rest, {b} at 1 µHz of {lane:?}");
        }
    };
    for _ in 0..300 {
        close(&random_lane(&mut r, Kind::Any));
    }
}
