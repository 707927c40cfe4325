//! The protector's branch to ground.

use std::f64::consts::TAU;

use num_complex::Complex64;

use super::Mobius;
use crate::model::{Guard, Protector};
use crate::units::{Farad, Henry, Hertz, Metre, Ohm, SPEED_OF_LIGHT, Second};

/// What the denominator of a guard's admittance, which is 1 without inductance and stub, is at least.
const LEAST: f64 = 1e-12;

/// The branch of a part, per line: of the protector, whose capacitance C is unknown, or of a guard, whose C is put in.
///
/// Y_p = jωC_pad + jωC/(1 + jωC(R + jωL)); with a stub, Y_p ends a lossless line of the half reference:
/// Y = Y0 (Y_p cos θ + jY0 sin θ)/(Y0 cos θ + jY_p sin θ) (Pozar, *Microwave Engineering*, input impedance of a terminated
/// lossless line).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Branch {
    /// Footprint pad.
    pub pad: Farad,
    /// Inductance of part and ground via in series with C.
    pub inductance: Henry,
    /// Resistance in series with C.
    pub resistance: Ohm,
    /// Characteristic impedance of the stub.
    pub stub_impedance: Ohm,
    /// Delay of the stub.
    pub stub_delay: Second,
}

impl Branch {
    /// The branch as it is laid out; `reference` is the half-circuit reference.
    pub fn new(protector: &Protector, reference: Ohm) -> Self {
        Branch {
            pad: protector.pad,
            inductance: protector.part_inductance + protector.ground_inductance(),
            resistance: protector.part_resistance + protector.resistance,
            stub_impedance: reference,
            stub_delay: stub_delay(protector.stub, protector.stub_permittivity),
        }
    }

    /// The branch of a guard.
    pub fn of_guard(guard: &Guard, reference: Ohm) -> Self {
        Branch {
            pad: guard.pad,
            inductance: guard.part_inductance + guard.ground_inductance(),
            resistance: guard.part_resistance,
            stub_impedance: reference,
            stub_delay: stub_delay(guard.stub, guard.stub_permittivity),
        }
    }

    /// C alone.
    pub(super) fn nothing(reference: Ohm) -> Self {
        Branch {
            pad: Farad(0.0),
            inductance: Henry(0.0),
            resistance: Ohm(0.0),
            stub_impedance: reference,
            stub_delay: Second(0.0),
        }
    }

    /// The branch without pad, stub and ground inductance.
    pub fn without_footprint(protector: &Protector, reference: Ohm) -> Self {
        Branch {
            pad: Farad(0.0),
            inductance: protector.part_inductance,
            stub_delay: Second(0.0),
            ..Self::new(protector, reference)
        }
    }

    /// Admittance as a function of C, in siemens.
    pub fn admittance(&self, frequency: Hertz) -> Mobius {
        let omega = TAU * frequency.0;
        let pad = Complex64::new(0.0, omega * self.pad.0);
        let (r, s) = self.part_denominator(frequency);
        let part = Mobius { p: pad, q: Complex64::new(0.0, omega) + pad * s, r, s };
        if self.stub_delay.0 == 0.0 {
            return part;
        }
        let (sin, cos) = (omega * self.stub_delay.0).sin_cos();
        let y0 = 1.0 / self.stub_impedance.0;
        let across = Complex64::new(0.0, y0 * sin);
        let along = Complex64::new(0.0, sin / y0);
        Mobius {
            p: part.p * cos + part.r * across,
            q: part.q * cos + part.s * across,
            r: part.r * cos + part.p * along,
            s: part.s * cos + part.q * along,
        }
    }

    /// Admittance with C put in, in siemens. At a resonance where it is a short to ground within 1e-12 of the branch's scale,
    /// it is taken as the large admittance there is 1e-12 beside it.
    pub(super) fn admittance_with(&self, c: Farad, frequency: Hertz) -> Complex64 {
        let of = self.admittance(frequency);
        let (over, under) = (of.p + of.q * c.0, of.r + of.s * c.0);
        if under.norm() < LEAST { over / LEAST } else { over / under }
    }

    /// Denominator 1 + C jω(R + jωL) of Y_p, constant and per farad. Over the denominator of [`Branch::admittance`] it is the
    /// voltage at the part and its pad over the one where the stub begins.
    pub(super) fn part_denominator(&self, frequency: Hertz) -> (Complex64, Complex64) {
        let omega = TAU * frequency.0;
        let slope = Complex64::new(-omega * omega * self.inductance.0, omega * self.resistance.0);
        (Complex64::new(1.0, 0.0), slope)
    }
}

fn stub_delay(length: Metre, permittivity: f64) -> Second {
    Second(length.0 * permittivity.sqrt() / SPEED_OF_LIGHT)
}
