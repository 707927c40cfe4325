//! Random paths of a committed seed.

use super::lanes::*;
use super::random::Random;
use lanecap::model::*;
use lanecap::units::*;

/// What a random path may hold.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Kind {
    /// Everything.
    Any,
    /// No loss and no resistance, matched ends.
    Lossless,
}

fn line(r: &mut Random, z: f64, f: f64, lossless: bool) -> Element {
    let (er, length) = (r.between(1.0, 4.6), r.decade(5e-4, 0.3));
    let conductor = if lossless || r.chance(0.3) { 0.0 } else { r.decade(0.05, 3.0) };
    let tangent = if lossless || r.chance(0.4) { 0.0 } else { r.decade(5e-4, 0.03) };
    lossy(z * r.between(0.8, 1.25), length, er, f * r.between(0.5, 1.5), conductor, tangent)
}

/// Two traces beside the protector, and a neck cut from them, once in a while as long as the shorter one.
fn narrow(r: &mut Random, middle: &mut Vec<Element>, z: f64, f: f64, lossless: bool) {
    let at = middle.iter().position(|e| matches!(e, Element::Protector(_))).unwrap();
    let both = [line(r, z, f, lossless), line(r, z, f, lossless)];
    let length = |e: &Element| if let Element::Line(line) = e { line.length.0 } else { 0.0 };
    let share = if r.chance(0.1) { 1.0 } else { r.share() };
    let length = Metre(length(&both[0]).min(length(&both[1])) * share);
    if let Element::Protector(p) = &mut middle[at] {
        p.neck = Some(Neck { impedance: Ohm(z * r.between(0.7, 2.0)), length });
    }
    let [outer, inner] = both;
    middle.insert(at + 1, inner);
    middle.insert(at, outer);
}

fn element(r: &mut Random, z: f64, f: f64, kind: Kind) -> Element {
    let lossless = kind == Kind::Lossless;
    let (c, l) = (r.decade(0.02e-12, 0.6e-12), r.decade(0.05e-9, 1.2e-9));
    match r.below(if lossless { 7 } else { 10 }) {
        0 | 1 => line(r, z, f, lossless),
        2 => connector(c, if r.chance(0.3) { 0.0 } else { l }),
        3 => {
            let side = if r.chance(0.5) { StubSide::Outer } else { StubSide::Inner };
            let stub = r.chance(0.5).then(|| (r.decade(2e-4, 4e-3), r.between(3.0, 4.5), side));
            let mut via = via(c, if r.chance(0.3) { 0.0 } else { l }, stub);
            if let Element::Via(via) = &mut via
                && r.chance(0.3)
            {
                let (impedance, length) = (Ohm(r.between(20.0, 70.0)), Metre(r.decade(2e-4, 4e-3)));
                via.barrel = Barrel::Line { impedance, length, permittivity: r.between(3.0, 4.5) };
            }
            via
        }
        4 => shunt_c(c),
        5 => series_l(l),
        6 => {
            if r.chance(0.5) {
                series_c(r.decade(2e-12, 2e-7))
            } else {
                shunt_l(r.decade(5e-9, 1e-6))
            }
        }
        7 => series_r(r.decade(0.2, 20.0)),
        8 => shunt_r(r.decade(200.0, 1e4)),
        _ => shunt_c(c / 4.0),
    }
}

/// A further part with whatever lies around it.
fn random_guard(r: &mut Random, lossy: bool) -> Guard {
    let mut guard = guard(r.decade(0.05e-12, 1.5e-12));
    if r.chance(0.5) {
        guard.pad = Farad(r.decade(0.01e-12, 0.3e-12));
    }
    if r.chance(0.5) {
        guard.part_inductance = Henry(r.decade(0.05e-9, 0.8e-9));
        guard.inductance = Henry(r.decade(0.05e-9, 0.4e-9));
        guard.across = r.chance(0.2);
    }
    if lossy && r.chance(0.5) {
        guard.part_resistance = Ohm(r.between(0.1, 1.5));
    }
    if r.chance(0.3) {
        guard.stub = Metre(r.decade(1e-4, 3e-3));
        guard.stub_permittivity = r.between(2.0, 4.6);
    }
    guard
}

/// A lane with random elements on both sides of its protector and no limits.
pub(crate) fn random_lane(r: &mut Random, kind: Kind) -> Lane {
    let z = if r.chance(0.5) { 50.0 } else { r.between(80.0, 110.0) };
    let f = r.decade(2e8, 2e10);
    let any = kind == Kind::Any;
    let end = |r: &mut Random| z * if any { r.between(0.85, 1.2) } else { 1.0 };
    let pad = |r: &mut Random| {
        if r.chance(0.5) { r.decade(0.02e-12, 0.5e-12) } else { 0.0 }
    };
    let mut ends = vec![driver(end(r), pad(r))];
    ends.push(if any && r.chance(0.15) { open_receiver(pad(r)) } else { receiver(end(r), pad(r)) });
    if r.chance(0.4) {
        ends.reverse();
    }
    let mut middle: Vec<Element> = (0..1 + r.below(6)).map(|_| element(r, z, f, kind)).collect();
    let mut p = protector();
    if r.chance(0.5) {
        p.pad = Farad(r.decade(0.01e-12, 0.3e-12));
    }
    if r.chance(0.4) {
        p.part_inductance = Henry(r.decade(0.05e-9, 0.8e-9));
        p.inductance = Henry(if r.chance(0.5) { r.decade(0.05e-9, 0.4e-9) } else { 0.0 });
    }
    if any && r.chance(0.4) {
        p.part_resistance = Ohm(r.between(0.1, 1.5));
        p.resistance = Ohm(if r.chance(0.3) { 1.0 } else { 0.0 });
    }
    if r.chance(0.3) {
        p.stub = Metre(r.decade(1e-4, 3e-3));
    }
    let at = r.below(middle.len() as u64 + 1) as usize;
    middle.insert(at, Element::Protector(p));
    if r.chance(0.3) {
        let at = r.below(middle.len() as u64 + 1) as usize;
        middle.insert(at, Element::Guard(random_guard(r, any)));
    }
    if r.chance(0.25) {
        let at = r.below(middle.len() as u64 + 1) as usize;
        middle.insert(at, Element::Plane);
    }
    // Drawn apart: what has no neck is the same as without this.
    let mut apart = Random(r.0 ^ 0x6e65_636b);
    if apart.chance(0.25) {
        narrow(&mut apart, &mut middle, z, f, !any);
    }
    let last = ends.pop();
    let elements = ends.into_iter().chain(middle).chain(last).collect();
    let mut lane = lane(z, f, elements, Vec::new());
    lane.differential = r.chance(0.5);
    lane
}
