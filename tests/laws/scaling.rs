//! One factor on all impedances, or on all times, scales every result of a lane and nothing else.

use approx::assert_relative_eq;

use crate::support::lanes::limit;
use crate::support::paths::{Kind, random_lane};
use crate::support::random::Random;
use lanecap::budget::{Figures, LaneFigures, LaneOutcome, size_lane};
use lanecap::figures::*;
use lanecap::model::*;
use lanecap::units::*;

/// A lane with all its impedances `z` times and all its times `t` times as large.
fn scaled(lane: &Lane, z: f64, t: f64) -> Lane {
    let (c, l) = (|c: Farad| c * (t / z), |l: Henry| l * (t * z));
    let mut lane = lane.clone();
    lane.symbol_rate = Baud(lane.symbol_rate.0 / t);
    lane.reference = lane.reference * z;
    for element in &mut lane.path.elements {
        match &mut element.element {
            Element::Driver(driver) => {
                (driver.impedance, driver.pad) = (driver.impedance * z, c(driver.pad));
                driver.rise = driver.rise.map(|rise| rise * t);
            }
            Element::Receiver(receiver) => {
                receiver.impedance = receiver.impedance.map(|impedance| impedance * z);
                receiver.pad = c(receiver.pad);
            }
            Element::Line(line) => {
                (line.impedance, line.length) = (line.impedance * z, line.length * t);
                line.loss.reference = Hertz(line.loss.reference.0 / t);
                line.loss.conductor /= t;
            }
            Element::Connector { capacitance, inductance } => {
                (*capacitance, *inductance) = (c(*capacitance), inductance.map(l));
            }
            Element::Via(via) => {
                via.barrel = match via.barrel {
                    Barrel::Lumped { capacitance, inductance } => {
                        Barrel::Lumped { capacitance: c(capacitance), inductance: inductance.map(l) }
                    }
                    Barrel::Line { impedance, length, permittivity } => {
                        Barrel::Line { impedance: impedance * z, length: length * t, permittivity }
                    }
                };
                via.stub.iter_mut().for_each(|stub| stub.length = stub.length * t);
            }
            Element::Series(of) | Element::Shunt(of) => {
                *of = match *of {
                    Immittance::Resistance(r) => Immittance::Resistance(r * z),
                    Immittance::Inductance(of) => Immittance::Inductance(l(of)),
                    Immittance::Capacitance(of) => Immittance::Capacitance(c(of)),
                };
            }
            Element::Protector(p) => {
                (p.pad, p.fitted) = (c(p.pad), p.fitted.map(c));
                (p.part_inductance, p.inductance) = (l(p.part_inductance), l(p.inductance));
                (p.part_resistance, p.resistance) = (p.part_resistance * z, p.resistance * z);
                p.stub = p.stub * t;
                p.neck = p.neck.map(|neck| Neck { impedance: neck.impedance * z, length: neck.length * t });
            }
            Element::Guard(g) => {
                (g.pad, g.capacitance) = (c(g.pad), c(g.capacitance));
                (g.part_inductance, g.inductance) = (l(g.part_inductance), l(g.inductance));
                (g.part_resistance, g.stub) = (g.part_resistance * z, g.stub * t);
            }
            _ => {}
        }
    }
    for limit in &mut lane.limits {
        if let LaneLimit::ImpedanceDip(least, _) = &mut limit.of {
            *least = *least * z;
        }
    }
    lane
}

/// A random lane that has limits in frequency and in time; no dielectric loss, whose frequencies are those of the material.
fn random(r: &mut Random) -> Lane {
    let mut lane = random_lane(r, Kind::Any);
    for element in &mut lane.path.elements {
        match &mut element.element {
            Element::Line(line) => line.loss.loss_tangent = 0.0,
            Element::Protector(p) => p.fitted = Some(Farad(r.decade(0.02, 1.0) / (50.0 * lane.symbol_rate.0))),
            _ => {}
        }
    }
    lane.modulation = *r.pick(&[Modulation::Nrz, Modulation::Pam3, Modulation::Pam4]);
    lane.limits = vec![limit(&ADDED_LOSS, r.between(0.2, 2.0)), limit(&WORST_EYE_PENALTY, r.between(0.05, 0.3))];
    if r.chance(0.5) {
        lane.limits.push(limit(&IMPEDANCE_DIP, lane.reference.0 * r.between(0.3, 0.9)));
    }
    lane
}

fn same(a: Option<f64>, b: Option<f64>, scale: f64, what: &str) {
    assert_eq!(a.is_some(), b.is_some(), "{what}: {a:?} {b:?}");
    if let (Some(a), Some(b)) = (a, b) {
        assert!((a * scale - b).abs() <= 1e-6 * (b.abs() + scale.abs()), "{what}: {a} * {scale} is not {b}");
    }
}

fn figures(a: &LaneFigures, b: &LaneFigures, z: f64, t: f64) {
    same(a.loss.insertion_loss, b.loss.insertion_loss, 1.0, "insertion loss");
    same(Some(a.loss.reflection), Some(b.loss.reflection), 1.0, "reflection");
    // Below 1e-4 an eye is closed, and what is left of its height is round-off.
    let open = |height: Option<f64>| height.map(|height| if height.abs() < 1e-4 { 0.0 } else { height });
    same(open(a.time.eye_height), open(b.time.eye_height), 1.0, "eye height");
    same(a.time.eye_width, b.time.eye_width, 1.0, "eye width");
    same(a.time.rise.map(|rise| rise * 1e9), b.time.rise.map(|rise| rise * 1e9), t, "rise");
    same(a.time.impedance_dip, b.time.impedance_dip, z, "impedance dip");
}

fn holds(lane: &Lane, z: f64, t: f64) -> bool {
    let (one, other) = (size_lane(lane, Figures::All), size_lane(&scaled(lane, z, t), Figures::All));
    let (LaneOutcome { sized: one, .. }, LaneOutcome { sized: other, .. }) = match (one, other) {
        (Ok(one), Ok(other)) => (one, other),
        (one, other) => {
            assert_eq!(one.is_err(), other.is_err());
            return false;
        }
    };
    let capacitance = t / z;
    figures(&one.absent, &other.absent, z, t);
    let (a, b) = (one.budget.allowed.ends(), other.budget.allowed.ends());
    assert_eq!(a.len(), b.len(), "{a:?} {b:?}");
    for ((low, high), (scaled_low, scaled_high)) in a.iter().zip(&b) {
        assert_relative_eq!(low * capacitance, *scaled_low, max_relative = 1e-6);
        assert_eq!(high.is_some(), scaled_high.is_some());
        if let (Some(high), Some(scaled)) = (high, scaled_high) {
            assert_relative_eq!(high * capacitance, *scaled, max_relative = 1e-6);
        }
    }
    if let (Some(a), Some(b)) = (&one.fitted, &other.fitted) {
        figures(&a.at.figures, &b.at.figures, z, t);
        same(a.at.changes.droop, b.at.changes.droop, 1.0, "droop");
        same(a.at.changes.time.worst_eye_penalty, b.at.changes.time.worst_eye_penalty, 1.0, "worst eye penalty");
    }
    true
}

/// How many of `count` random lanes settle, the law being kept by all.
fn keep(seed: u64, count: usize) -> usize {
    let mut r = Random(seed);
    (0..count)
        .filter(|_| {
            let lane = random(&mut r);
            let factor = r.decade(0.03, 30.0);
            let (z, t) = if r.chance(0.5) { (factor, 1.0) } else { (1.0, factor) };
            holds(&lane, z, t)
        })
        .count()
}

#[test]
fn impedances_and_times_scale() {
    assert!(keep(0x5ca1e, 16) >= 8);
}

/// Takes minutes: `cargo test --test suite -- --ignored over_two_thousand`.
#[test]
#[ignore = "minutes"]
fn impedances_and_times_scale_over_two_thousand_lanes() {
    let mut kept = 0;
    for batch in 0..16 {
        kept += keep(0x5ca1ed + batch, 125);
        println!("{kept} of {} lanes", 125 * (batch + 1));
    }
    assert!(kept >= 1000);
}
