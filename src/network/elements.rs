//! The elements of the half circuit and their formulas.

use std::f64::consts::TAU;

use num_complex::Complex64;

use super::{Branch, CausalLine, TwoPort};
use crate::units::{Farad, Henry, Hertz, Ohm, Second};

/// An element of the half circuit, values per line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Section {
    /// R in the line.
    SeriesResistance(Ohm),
    /// L in the line.
    SeriesInductance(Henry),
    /// C in the line.
    SeriesCapacitance(Farad),
    /// R to ground.
    ShuntResistance(Ohm),
    /// L to ground.
    ShuntInductance(Henry),
    /// C to ground: an end's pad, too.
    ShuntCapacitance(Farad),
    /// Cable or trace.
    Line(CausalLine),
    /// A connector as a symmetric T: L/2, shunt C, L/2.
    Tee {
        /// Shunt capacitance.
        capacitance: Farad,
        /// Series inductance.
        inductance: Henry,
    },
    /// A via as a symmetric π: shunt C/2, L, shunt C/2.
    Pi {
        /// Shunt capacitance.
        capacitance: Farad,
        /// Series inductance.
        inductance: Henry,
    },
    /// An open lossless line across the path: Y = j tan(ωτ)/Z.
    OpenStub {
        /// Its characteristic impedance.
        impedance: Ohm,
        /// Its delay τ = ℓ√ε_r/c.
        delay: Second,
    },
    /// A further part to ground: the protector's branch with a capacitance that is known.
    Guard {
        /// Its pad, its stub, and what is in series with the capacitance.
        branch: Branch,
        /// Its capacitance.
        capacitance: Farad,
    },
}

/// What an element is at f = 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Dc {
    /// A wire.
    Wire,
    /// A resistance in the line, in ohm.
    Series(f64),
    /// A conductance to ground, in siemens.
    Shunt(f64),
    /// An open line.
    Open,
    /// A short to ground.
    Short,
}

fn imaginary(x: f64) -> Complex64 {
    Complex64::new(0.0, x)
}

impl Section {
    /// Appends the element to `path` at a frequency above 0.
    pub(super) fn append_to(&self, path: &mut TwoPort, frequency: Hertz) {
        let omega = TAU * frequency.0;
        match *self {
            Section::SeriesResistance(r) => path.append_series(Complex64::new(r.0, 0.0)),
            Section::SeriesInductance(l) => path.append_series(imaginary(omega * l.0)),
            Section::SeriesCapacitance(c) => path.append_series(imaginary(-1.0 / (omega * c.0))),
            Section::ShuntResistance(r) => path.append_shunt(Complex64::new(1.0 / r.0, 0.0)),
            Section::ShuntInductance(l) => path.append_shunt(imaginary(-1.0 / (omega * l.0))),
            Section::ShuntCapacitance(c) => path.append_shunt(imaginary(omega * c.0)),
            Section::Line(line) => *path = path.then(&line.two_port(frequency)),
            Section::Tee { capacitance, inductance } => {
                let half = imaginary(omega * inductance.0 / 2.0);
                path.append_series(half);
                path.append_shunt(imaginary(omega * capacitance.0));
                path.append_series(half);
            }
            Section::Pi { capacitance, inductance } => {
                let half = imaginary(omega * capacitance.0 / 2.0);
                path.append_shunt(half);
                path.append_series(imaginary(omega * inductance.0));
                path.append_shunt(half);
            }
            Section::OpenStub { impedance, delay } => {
                path.append_shunt(imaginary((omega * delay.0).tan() / impedance.0));
            }
            Section::Guard { branch, capacitance } => {
                path.append_shunt(branch.admittance_with(capacitance, frequency));
            }
        }
    }

    /// The element by itself at a frequency above 0.
    pub fn two_port(&self, frequency: Hertz) -> TwoPort {
        let mut alone = TwoPort::IDENTITY;
        self.append_to(&mut alone, frequency);
        alone
    }

    /// The exact limit at f = 0.
    pub(super) fn dc(&self) -> Dc {
        match *self {
            Section::SeriesResistance(r) => Dc::Series(r.0),
            Section::ShuntResistance(r) => Dc::Shunt(1.0 / r.0),
            Section::SeriesCapacitance(_) => Dc::Open,
            Section::ShuntInductance(_) => Dc::Short,
            _ => Dc::Wire,
        }
    }

    /// Its inductance, where it has one.
    pub fn inductance(&self) -> Option<Henry> {
        match *self {
            Section::SeriesInductance(l) | Section::ShuntInductance(l) => Some(l),
            Section::Tee { inductance, .. } | Section::Pi { inductance, .. } => Some(inductance),
            Section::Guard { branch, .. } => Some(branch.inductance),
            _ => None,
        }
    }

    /// Its capacitance, where it has one.
    pub fn capacitance(&self) -> Option<Farad> {
        match *self {
            Section::SeriesCapacitance(c) | Section::ShuntCapacitance(c) => Some(c),
            Section::Tee { capacitance, .. } | Section::Pi { capacitance, .. } => Some(capacitance),
            Section::Guard { branch, capacitance } => Some(capacitance + branch.pad),
            _ => None,
        }
    }
}
