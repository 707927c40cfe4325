//! A second, direct route to the figures of a lane: 2×2 matrices multiplied one by one, the protector among them.
//!
//! It shares the model structs with the crate and nothing else.

use std::f64::consts::{PI, TAU};

use ndarray::{Array2, array};
use num_complex::Complex64;

use lanecap::model::{Barrel, Element, Immittance, Lane, StubSide, TransmissionLine};

type Matrix = Array2<Complex64>;

const C0: f64 = 299_792_458.0;

fn real(x: f64) -> Complex64 {
    Complex64::new(x, 0.0)
}

fn j(x: f64) -> Complex64 {
    Complex64::new(0.0, x)
}

fn series(z: Complex64) -> Matrix {
    array![[real(1.0), z], [real(0.0), real(1.0)]]
}

fn shunt(y: Complex64) -> Matrix {
    array![[real(1.0), real(0.0)], [y, real(1.0)]]
}

fn line(gamma_length: Complex64, z: Complex64) -> Matrix {
    let (c, s) = (gamma_length.cosh(), gamma_length.sinh());
    array![[c, z * s], [s / z, c]]
}

fn product(matrices: &[Matrix]) -> Matrix {
    matrices.iter().fold(shunt(real(0.0)), |path, m| path.dot(m))
}

fn causal(stated: &TransmissionLine, half: f64, f: f64) -> Matrix {
    let (z0, er, loss) = (stated.impedance.0 * half, stated.permittivity, stated.loss);
    let reference = loss.reference.0;
    let step = |f: f64| (Complex64::new(1e12, f).ln() - Complex64::new(1e3, f).ln()) / (9.0 * 10f64.ln());
    // Two real unknowns, ε_inf and Δε, from the real and the imaginary part at the reference.
    let delta = if loss.loss_tangent > 0.0 { -er * loss.loss_tangent / step(reference).im } else { 0.0 };
    let permittivity = step(f) * delta + (er - delta * step(reference).re);
    let surface = 2.0 * z0 * loss.conductor;
    let inductance = z0 * er.sqrt() / C0 - surface / (2.0 * PI * reference);
    let z = Complex64::new(1.0, 1.0) * surface * (f / reference).sqrt() + j(TAU * f * inductance);
    let y = j(TAU * f) * (er.sqrt() / (z0 * C0)) * permittivity / er;
    line((z * y).sqrt() * stated.length.0, (z / y).sqrt())
}

/// The figures of a lane with one capacitance, or with the protector absent.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Figures {
    pub(crate) s11: Complex64,
    pub(crate) s21: Complex64,
    pub(crate) s12: Complex64,
    pub(crate) s22: Complex64,
    pub(crate) transfer: Complex64,
}

/// A lane at one frequency, multiplied up to the protector from both sides.
pub(crate) struct Cascade {
    outside: Matrix,
    between: Matrix,
    inner: Matrix,
    /// From the port plane to the inner end, where the plane is inward of the protector.
    inward: Option<Matrix>,
    frequency: f64,
    lane: Lane,
}

impl Cascade {
    pub(crate) fn new(lane: &Lane, f: f64) -> Self {
        let elements = &lane.path.elements;
        let half = if lane.differential { 0.5 } else { 1.0 };
        let at = elements.iter().position(|e| matches!(e.element, Element::Protector(_))).unwrap();
        let plane = elements.iter().position(|e| matches!(e.element, Element::Plane)).unwrap_or_else(|| {
            (0..at).rev().find(|i| matches!(elements[*i].element, Element::Connector { .. })).unwrap_or(0)
        });
        let all: Vec<Matrix> = (0..elements.len())
            .map(|i| {
                let neck = lane.path.protector().and_then(|p| p.neck).filter(|_| i.abs_diff(at) == 1);
                match (&elements[i].element, neck) {
                    (Element::Line(l), Some(neck)) => {
                        let (mut rest, mut narrow) = (l.clone(), l.clone());
                        rest.length.0 -= neck.length.0;
                        (narrow.length, narrow.impedance) = (neck.length, neck.impedance);
                        let (rest, narrow) = (causal(&rest, half, f), causal(&narrow, half, f));
                        if i < at { rest.dot(&narrow) } else { narrow.dot(&rest) }
                    }
                    (element, _) => Self::element(element, half, lane.reference.0 * half, f),
                }
            })
            .collect();
        Cascade {
            outside: product(&all[..plane.min(at)]),
            between: product(&all[plane.min(at)..at]),
            inner: product(&all[at + 1..]),
            inward: (plane > at).then(|| product(&all[plane..])),
            frequency: f,
            lane: lane.clone(),
        }
    }

    fn element(element: &Element, half: f64, reference: f64, f: f64) -> Matrix {
        let w = TAU * f;
        match element {
            Element::Driver(d) => shunt(j(w * d.pad.0)),
            Element::Receiver(r) => shunt(j(w * r.pad.0)),
            Element::Line(l) => causal(l, half, f),
            Element::Connector { capacitance, inductance } => {
                let arm = series(j(w * inductance.map_or(0.0, |l| l.0) / 2.0));
                product(&[arm.clone(), shunt(j(w * capacitance.0)), arm])
            }
            Element::Via(via) => {
                let angle = |length: f64, permittivity: f64| w * length * permittivity.sqrt() / C0;
                let (barrel, z) = match via.barrel {
                    Barrel::Lumped { capacitance, inductance } => {
                        let side = shunt(j(w * capacitance.0 / 2.0));
                        let coil = series(j(w * inductance.map_or(0.0, |l| l.0)));
                        let z = inductance.map_or(reference, |l| (l.0 / capacitance.0).sqrt());
                        (product(&[side.clone(), coil, side]), z)
                    }
                    Barrel::Line { impedance, length, permittivity } => {
                        (line(j(angle(length.0, permittivity)), real(impedance.0)), impedance.0)
                    }
                };
                let Some(stub) = via.stub else { return barrel };
                let theta = angle(stub.length.0, stub.permittivity);
                let hung = shunt(j(theta.tan() / z));
                match stub.side {
                    StubSide::Outer => hung.dot(&barrel),
                    StubSide::Inner => barrel.dot(&hung),
                }
            }
            Element::Series(Immittance::Resistance(r)) => series(real(r.0)),
            Element::Series(Immittance::Inductance(l)) => series(j(w * l.0)),
            Element::Series(Immittance::Capacitance(c)) => series(real(1.0) / j(w * c.0)),
            Element::Shunt(Immittance::Resistance(r)) => shunt(real(1.0 / (r.0 * half))),
            Element::Shunt(Immittance::Inductance(l)) => shunt(real(1.0) / j(w * l.0)),
            Element::Shunt(Immittance::Capacitance(c)) => shunt(j(w * c.0)),
            Element::Radio(r) => shunt(j(w * r.pad.0)),
            Element::Pin(p) => shunt(j(w * p.pad.0)),
            Element::Guard(g) => {
                let path = [g.part_resistance.0, g.part_inductance.0, if g.across { 0.0 } else { g.inductance.0 }];
                let part = real(1.0) / (real(1.0) / j(w * g.capacitance.0) + path[0] + j(w * (path[1] + path[2])));
                let theta = w * g.stub.0 * g.stub_permittivity.sqrt() / C0;
                let hung = line(j(theta), real(reference)).dot(&shunt(j(w * g.pad.0) + part));
                shunt(hung[[1, 0]] / hung[[0, 0]])
            }
            Element::Plane | Element::Protector(_) | Element::Antenna(_) => shunt(real(0.0)),
        }
    }

    fn protector(&self, c: f64) -> Matrix {
        let w = TAU * self.frequency;
        let p = self.lane.path.protector().unwrap();
        let reference = self.lane.reference.0 * if self.lane.differential { 0.5 } else { 1.0 };
        let inductance = p.part_inductance.0 + p.inductance.0;
        let resistance = p.part_resistance.0 + p.resistance.0;
        let part =
            if c == 0.0 { real(0.0) } else { real(1.0) / (real(1.0) / j(w * c) + resistance + j(w * inductance)) };
        let theta = w * p.stub.0 * p.stub_permittivity.sqrt() / C0;
        let stub = line(j(theta), real(reference)).dot(&shunt(j(w * p.pad.0) + part));
        shunt(stub[[1, 0]] / stub[[0, 0]])
    }

    pub(crate) fn absent(&self) -> Figures {
        self.figures(shunt(real(0.0)))
    }

    pub(crate) fn at(&self, c: f64) -> Figures {
        self.figures(self.protector(c))
    }

    fn figures(&self, protector: Matrix) -> Figures {
        let lane = &self.lane;
        let half = if lane.differential { 0.5 } else { 1.0 };
        let z = lane.reference.0 * half;
        let looking = self.between.dot(&protector).dot(&self.inner);
        let whole = self.outside.dot(&looking);
        let looking = self.inward.as_ref().unwrap_or(&looking);
        let sum = |m: &Matrix| m[[0, 0]] + m[[0, 1]] / z + m[[1, 0]] * z + m[[1, 1]];
        let determinant = whole[[0, 0]] * whole[[1, 1]] - whole[[0, 1]] * whole[[1, 0]];
        let source = lane.path.driver().unwrap().impedance.0 * half;
        let load = lane.path.receiver().unwrap().impedance.map(|z| z.0 * half);
        // The receiving end's voltage: matrix of the path in the direction of travel.
        let (a, b, c, d) = match lane.path.driver_is_outer() {
            true => (whole[[0, 0]], whole[[0, 1]], whole[[1, 0]], whole[[1, 1]]),
            false => (whole[[1, 1]], whole[[0, 1]], whole[[1, 0]], whole[[0, 0]]),
        };
        let transfer = match load {
            Some(load) => (source + load) / (a * load + b + c * source * load + d * source),
            None => real(1.0) / (a + c * source),
        };
        Figures {
            s11: (looking[[0, 0]] + looking[[0, 1]] / z - looking[[1, 0]] * z - looking[[1, 1]]) / sum(looking),
            s21: real(2.0) / sum(&whole),
            s12: 2.0 * determinant / sum(&whole),
            s22: (whole[[1, 1]] + whole[[0, 1]] / z - whole[[1, 0]] * z - whole[[0, 0]]) / sum(&whole),
            transfer,
        }
    }
}
