//! Mode conversion of what is reflected, against the mixed-mode matrix of a whole four-port.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use ndarray::{Array2, array};
use num_complex::Complex64;

use crate::support::cascade::Cascade;
use crate::support::lanes::*;
use lanecap::budget::{Figures, LaneOutcome, size_lane};
use lanecap::figures::{MODE_CONVERSION, MODE_CONVERSION_REFLECTED};
use lanecap::model::{Element, Lane, LaneLimit, Limit, Mismatch};
use lanecap::units::Farad;

const NYQUIST: f64 = 4e9;
const C: f64 = 0.3e-12;
const DIFFERENCE: f64 = 0.04e-12;

/// A pair with its connector and protector, behind so much of a lossy cable.
fn pair(cable: f64, limits: Vec<Limit<LaneLimit>>) -> Lane {
    let mut elements = vec![driver(90.0, 0.0)];
    elements.extend((cable > 0.0).then(|| lossy(90.0, cable, 2.2, NYQUIST, 0.19, 0.002)));
    let protector = Element::Protector(lanecap::model::Protector {
        fitted: Some(Farad(C)),
        pad: Farad(0.05e-12),
        mismatch: Some(Mismatch::Absolute(Farad(DIFFERENCE))),
        ..protector()
    });
    elements.extend([connector(0.12e-12, 0.3e-9), trace(90.0, 4e-3, 3.4), protector, trace(80.0, 25e-3, 3.4)]);
    elements.push(receiver(90.0, 0.2e-12));
    Lane { differential: true, ..lane(90.0, NYQUIST, elements, limits) }
}

/// S_cd11 and S_cd21 of a pair by its 4 by 4 scattering, ports 1 and 2 outside, 3 and 4 inside, turned into differential and
/// common waves (D. E. Bockelman, W. R. Eisenstadt, IEEE Trans. MTT 43(7), 1995, from memory). The two lines come from the
/// direct cascade, the port plane outside the connector.
fn four_port(lane: &Lane, c: f64) -> [f64; 2] {
    let cascade = Cascade::new(lane, NYQUIST);
    let [p, n] = [c + DIFFERENCE / 2.0, c - DIFFERENCE / 2.0].map(|c| cascade.at(c));
    let zero = Complex64::ZERO;
    let s: Array2<Complex64> = array![
        [p.s11, zero, p.s12, zero],
        [zero, n.s11, zero, n.s12],
        [p.s21, zero, p.s22, zero],
        [zero, n.s21, zero, n.s22],
    ];
    let h = Complex64::new(0.5f64.sqrt(), 0.0);
    // Rows: differential and common outside, differential and common inside.
    let m = array![[h, -h, zero, zero], [h, h, zero, zero], [zero, zero, h, -h], [zero, zero, h, h]];
    let mixed = m.dot(&s).dot(&m.t());
    [mixed[[1, 0]], mixed[[3, 0]]].map(|s| 20.0 * s.norm().log10())
}

fn conversions(outcome: &LaneOutcome) -> [Option<f64>; 2] {
    let unlike = outcome.sized.fitted.as_ref().unwrap().at.changes.unlike.unwrap();
    [unlike.reflected, unlike.conversion]
}

#[test]
fn the_four_port_agrees_and_a_cable_hides_nothing() {
    let size = |cable| size_lane(&pair(cable, Vec::new()), Figures::Nyquist).unwrap();
    let (near, far) = (conversions(&size(0.0)), conversions(&size(3.0)));
    for (cable, found) in [(0.0, near), (3.0, far)] {
        let [reflected, through] = four_port(&pair(cable, Vec::new()), C);
        assert_relative_eq!(found[0].unwrap(), reflected, max_relative = 1e-9);
        assert_relative_eq!(found[1].unwrap(), through, max_relative = 1e-9);
    }
    // What passes falls with the loss of the cable, some 5 dB here; what is reflected at the port plane does not.
    assert_abs_diff_eq!(near[0].unwrap(), far[0].unwrap(), epsilon = 1e-9);
    assert!(far[1].unwrap() < near[1].unwrap() - 4.0, "{near:?} {far:?}");
}

#[test]
fn its_limit_allows_what_the_four_port_does() {
    let level = four_port(&pair(0.0, Vec::new()), C)[0] + 1.0;
    let outcome = size_lane(&pair(0.0, vec![limit(&MODE_CONVERSION_REFLECTED, level)]), Figures::Nyquist).unwrap();
    let own = &outcome.sized.budget.limits[0];
    assert!(own.fitted.unwrap().holds && own.holds_absent());
    assert_relative_eq!(own.fitted.unwrap().value.unwrap(), level - 1.0, max_relative = 1e-9);
    let lane = pair(0.0, Vec::new());
    for k in 1..400 {
        let c = 0.05e-12 * f64::from(k) / 10.0;
        if c < DIFFERENCE / 2.0 {
            continue;
        }
        let value = four_port(&lane, c)[0];
        assert!(own.allowed.contains(c) == (value <= level) || (value - level).abs() < 1e-9, "{c} {value} {level}");
    }
}

#[test]
fn nothing_is_seen_from_a_plane_inward_of_the_protector() {
    let mut lane = pair(0.0, vec![limit(&MODE_CONVERSION_REFLECTED, -199.0), limit(&MODE_CONVERSION, -1.0)]);
    let at = lane.path.elements.len() - 1;
    let mut plane = lane.path.elements[at].clone();
    plane.element = Element::Plane;
    lane.path.elements.insert(at, plane);
    let outcome = size_lane(&lane, Figures::Nyquist).unwrap();
    assert!(conversions(&outcome)[0].is_none() && conversions(&outcome)[1].is_some());
    assert!(outcome.sized.budget.limits[0].allowed.is_all() && outcome.sized.fitted.unwrap().holds);
}
