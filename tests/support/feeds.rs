//! Feeds put together from model values, and a direct route to what their radio sees.
//!
//! The route walks inwards from the antenna with one impedance: no matrix, no Möbius form, nothing of the crate's network.

use std::f64::consts::{PI, TAU};
use std::sync::Arc;

use num_complex::Complex64;

use super::lanes::{connector, path, protector, series_r, shunt_c, trace};
use super::random::Random;
use lanecap::diag::Span;
use lanecap::model::*;
use lanecap::units::*;

const C0: f64 = 299_792_458.0;

pub(crate) fn feed(band: (f64, f64), elements: Vec<Element>, limits: Vec<Limit<FeedLimit>>) -> Feed {
    Feed {
        band: Band { low: Hertz(band.0), high: Hertz(band.1) },
        reference: Ohm(50.0),
        power: None,
        current: None,
        path: path(elements),
        limits,
    }
}

pub(crate) fn resonator(f0: f64, r: f64, q: f64) -> Resonator {
    Resonator { frequency: Hertz(f0), resistance: Ohm(r), quality: q }
}

pub(crate) fn parallel(f0: f64, r: f64, q: f64) -> Element {
    Element::Antenna(Antenna::Parallel(resonator(f0, r, q)))
}

pub(crate) fn resistive(r: f64) -> Element {
    Element::Antenna(Antenna::Resistance(Ohm(r)))
}

pub(crate) fn measured(points: &[(f64, f64, f64)]) -> Element {
    let points = points.iter().map(|&(f, magnitude, angle)| (Hertz(f), magnitude, angle));
    let table = ReflectionTable::new("mast".to_owned(), Span::default(), Ohm(50.0), points);
    Element::Antenna(Antenna::Table(Arc::new(table)))
}

pub(crate) fn radio(pad: f64) -> Element {
    Element::Radio(Radio { impedance: Ohm(50.0), pad: Farad(pad), chip: Chip::default() })
}

pub(crate) fn fitted(mut feed: Feed, c: f64) -> Feed {
    feed.path.fit(Farad(c));
    feed
}

/// A feed with an antenna of any kind, lossless lines and lumped parts, and any footprint.
pub(crate) fn random_feed(r: &mut Random) -> Feed {
    let f0 = r.decade(5e8, 5e9);
    let band = (f0 * r.between(0.93, 0.99), f0 * r.between(1.005, 1.06));
    let resistance = r.between(30.0, 80.0);
    let antenna = match r.below(4) {
        0 => Element::Antenna(Antenna::Series(resonator(f0, resistance, r.decade(1.0, 100.0)))),
        1 => resistive(resistance),
        2 => measured(&[
            (0.9 * f0, r.between(0.2, 0.5), r.between(-180.0, 180.0)),
            (0.98 * f0, r.between(0.05, 0.2), r.between(-180.0, 180.0)),
            (1.1 * f0, r.between(0.2, 0.5), r.between(-180.0, 180.0)),
        ]),
        _ => parallel(f0, resistance, r.decade(1.0, 100.0)),
    };
    let mut elements = vec![antenna];
    let some = |elements: &mut Vec<Element>, r: &mut Random| {
        for _ in 0..r.below(3) {
            elements.push(match r.below(4) {
                0 => connector(r.decade(2e-14, 2e-13), r.decade(5e-11, 5e-10)),
                1 => shunt_c(r.decade(1e-14, 1e-13)),
                2 => series_r(r.between(0.1, 3.0)),
                _ => trace(r.between(40.0, 65.0), r.decade(1e-3, 6e-2), r.between(2.0, 4.5)),
            });
        }
    };
    some(&mut elements, r);
    let mut place = protector();
    if r.chance(0.6) {
        place.pad = Farad(r.decade(1e-14, 1e-13));
        place.inductance = Henry(r.decade(5e-11, 5e-10));
        place.resistance = Ohm(r.between(0.0, 1.0));
    }
    if r.chance(0.3) {
        place.stub = Metre(r.decade(1e-4, 2e-3));
    }
    elements.push(Element::Protector(place));
    some(&mut elements, r);
    // Drawn apart: what has no neck is the same as without this.
    let mut apart = Random(r.0 ^ 0x6e65_636b);
    if apart.chance(0.25) {
        let at = elements.iter().position(|e| matches!(e, Element::Protector(_))).unwrap();
        let lengths = [apart.decade(1e-3, 6e-2), apart.decade(1e-3, 6e-2)];
        let length = Metre(apart.share() * lengths[0].min(lengths[1]));
        if let Element::Protector(place) = &mut elements[at] {
            place.neck = Some(Neck { impedance: Ohm(apart.between(35.0, 110.0)), length });
        }
        elements.insert(at + 1, trace(apart.between(40.0, 65.0), lengths[1], apart.between(2.0, 4.5)));
        elements.insert(at, trace(apart.between(40.0, 65.0), lengths[0], apart.between(2.0, 4.5)));
    }
    elements.push(radio(if r.chance(0.5) { r.decade(1e-14, 1e-13) } else { 0.0 }));
    feed(band, elements, Vec::new())
}

fn j(x: f64) -> Complex64 {
    Complex64::new(0.0, x)
}

/// Impedance at the near end of a lossless line ended in `z`.
fn through(z: Complex64, line: f64, theta: f64) -> Complex64 {
    line * (z + j(line * theta.tan())) / (line + j(1.0) * z * theta.tan())
}

fn beside(z: Complex64, y: Complex64) -> Complex64 {
    1.0 / (1.0 / z + y)
}

/// Γ seen by the radio with `c` farad, or with the protector absent, and with a coil to ground at the protector.
pub(crate) fn gamma(feed: &Feed, f: f64, c: Option<f64>, coil: Option<f64>) -> Complex64 {
    let w = TAU * f;
    let mut z = Complex64::new(50.0, 0.0);
    let at = feed.path.elements.iter().position(|e| matches!(e.element, Element::Protector(_))).unwrap();
    let neck = feed.path.protector().unwrap().neck;
    for (i, e) in feed.path.elements.iter().enumerate() {
        z = match &e.element {
            Element::Antenna(antenna) => impedance(antenna, f),
            Element::Line(line) => {
                let theta = |length: f64| w * length * line.permittivity.sqrt() / C0;
                let (own, length) = (line.impedance.0, line.length.0);
                match neck.map(|neck| (neck.impedance.0, neck.length.0)) {
                    Some((narrow, cut)) if i + 1 == at => {
                        through(through(z, own, theta(length - cut)), narrow, theta(cut))
                    }
                    Some((narrow, cut)) if i == at + 1 => {
                        through(through(z, narrow, theta(cut)), own, theta(length - cut))
                    }
                    _ => through(z, own, theta(length)),
                }
            }
            Element::Connector { capacitance, inductance } => {
                let arm = j(w * inductance.map_or(0.0, |l| l.0) / 2.0);
                beside(z + arm, j(w * capacitance.0)) + arm
            }
            Element::Shunt(Immittance::Capacitance(c)) => beside(z, j(w * c.0)),
            Element::Series(Immittance::Resistance(r)) => z + r.0,
            Element::Radio(radio) => beside(z, j(w * radio.pad.0)),
            Element::Protector(p) => {
                let z = c.map_or(z, |c| beside(z, branch(p, c, w)));
                coil.map_or(z, |l| beside(z, 1.0 / j(w * l)))
            }
            Element::Guard(g) => {
                let branch_of = Protector {
                    pad: g.pad,
                    part_inductance: g.part_inductance,
                    part_resistance: g.part_resistance,
                    inductance: if g.across { Henry(0.0) } else { g.inductance },
                    stub: g.stub,
                    stub_permittivity: g.stub_permittivity,
                    ..protector()
                };
                beside(z, branch(&branch_of, g.capacitance.0, w))
            }
            other => panic!("the direct route knows no {}", other.word()),
        };
    }
    (z - 50.0) / (z + 50.0)
}

fn impedance(antenna: &Antenna, f: f64) -> Complex64 {
    let off = |r: &Resonator| Complex64::new(1.0, r.quality * (f / r.frequency.0 - r.frequency.0 / f));
    match antenna {
        Antenna::Series(r) => r.resistance.0 * off(r),
        Antenna::Parallel(r) => r.resistance.0 / off(r),
        Antenna::Resistance(r) => Complex64::new(r.0, 0.0),
        Antenna::Table(table) => {
            let at = table.points.iter().rposition(|p| p.frequency.0 <= f).unwrap();
            let (a, b) = (table.points[at], table.points[(at + 1).min(table.points.len() - 1)]);
            let width = b.frequency.0 - a.frequency.0;
            let share = if width > 0.0 { (f - a.frequency.0) / width } else { 0.0 };
            let size = 10f64.powf((a.decibels + share * (b.decibels - a.decibels)) / 20.0);
            let angle = (a.degrees + share * (b.degrees - a.degrees)) * PI / 180.0;
            let g = Complex64::from_polar(size, angle);
            table.reference.0 * (1.0 + g) / (1.0 - g)
        }
    }
}

fn branch(p: &Protector, c: f64, w: f64) -> Complex64 {
    let mut y = j(w * p.pad.0);
    if c > 0.0 {
        let series = p.resistance.0 + p.part_resistance.0 + j(w * (p.inductance.0 + p.part_inductance.0));
        y += 1.0 / (1.0 / j(w * c) + series);
    }
    let theta = w * p.stub.0 * p.stub_permittivity.sqrt() / C0;
    let (y0, t) = (1.0 / 50.0, theta.tan());
    y0 * (y + j(y0 * t)) / (y0 + j(1.0) * y * t)
}

/// The largest |Γ| over the band, on a dense grid with the points of a table.
pub(crate) fn worst(feed: &Feed, c: Option<f64>, coil: Option<f64>) -> f64 {
    const POINTS: usize = 4000;
    let (low, high) = (feed.band.low.0, feed.band.high.0);
    let points = match feed.path.antenna() {
        Some(Antenna::Table(table)) => table.points.iter().map(|p| p.frequency.0).collect(),
        _ => Vec::new(),
    };
    (0..=POINTS)
        .map(|i| low + (high - low) * i as f64 / POINTS as f64)
        .chain(points.into_iter().filter(|f| (low..=high).contains(f)))
        .map(|f| gamma(feed, f, c, coil).norm())
        .fold(0.0, f64::max)
}
