//! The causal line: wideband Debye dielectric, skin effect with its internal inductance.

use std::f64::consts::TAU;

use num_complex::Complex64;

use super::TwoPort;
use crate::model::TransmissionLine;
use crate::resolve::wideband;
use crate::units::{Hertz, Metre, Ohm, SPEED_OF_LIGHT, Second};

/// A line with its constants worked out, so that one frequency costs little.
///
/// - ε(f) = ε_inf + Δε/(m2 − m1)·log10((10^m2 + jf)/(10^m1 + jf)), with ε_r and tan δ met at f_ref (Djordjević, Biljić,
///   Likar-Smiljanić, Sarkar, *IEEE Trans. EMC* 43(4), 2001);
/// - R'(f) = (1 + j) R_s √(f/f_ref), R_s = 2 Z0 α_c; L' = Z0 √ε_r/c − R_s/(2π f_ref);
/// - jωC' + G' = jω √ε_r/(Z0 c)·ε(f)/ε_r.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CausalLine {
    length: f64,
    impedance: f64,
    delay: f64,
    /// L' in H/m.
    inductance: f64,
    /// √ε_r/(Z0 c) in F/m.
    capacitance: f64,
    /// R_s/√f_ref, so that R'(f) = (1 + j)·this·√f.
    resistance: f64,
    /// ε_inf/ε_r and Δε/ε_r; `None` for a constant permittivity.
    dispersion: Option<(f64, f64)>,
}

impl CausalLine {
    /// The line of the half circuit: its impedance is the stated one times `across`.
    pub fn new(line: &TransmissionLine, across: f64) -> Self {
        let impedance = line.impedance.0 * across;
        let slowness = line.permittivity.sqrt() / SPEED_OF_LIGHT;
        let surface = 2.0 * impedance * line.loss.conductor;
        let reference = line.loss.reference.0;
        CausalLine {
            length: line.length.0,
            impedance,
            delay: line.length.0 * slowness,
            inductance: impedance * slowness - surface / (TAU * reference),
            capacitance: slowness / impedance,
            resistance: surface / reference.sqrt(),
            dispersion: (line.loss.loss_tangent > 0.0).then(|| {
                let k = wideband(Hertz(reference));
                let slope = -line.loss.loss_tangent / k.im;
                (1.0 - slope * k.re, slope)
            }),
        }
    }

    /// A line without loss, of the impedance it has in the circuit.
    pub fn lossless(impedance: Ohm, length: Metre, permittivity: f64) -> Self {
        let slowness = permittivity.sqrt() / SPEED_OF_LIGHT;
        CausalLine {
            length: length.0,
            impedance: impedance.0,
            delay: length.0 * slowness,
            inductance: impedance.0 * slowness,
            capacitance: slowness / impedance.0,
            resistance: 0.0,
            dispersion: None,
        }
    }

    /// Length.
    pub fn length(&self) -> Metre {
        Metre(self.length)
    }

    /// Z0 of the half circuit, at f_ref.
    pub fn impedance(&self) -> Ohm {
        Ohm(self.impedance)
    }

    /// One-way delay ℓ√ε_r/c, at f_ref.
    pub fn delay(&self) -> Second {
        Second(self.delay)
    }

    /// ε(f)/ε_r: 1 at f_ref but for the loss, −j tan δ.
    pub fn relative_permittivity(&self, frequency: Hertz) -> Complex64 {
        self.permittivity_of(|| wideband(frequency))
    }

    fn permittivity_of(&self, law: impl FnOnce() -> Complex64) -> Complex64 {
        match self.dispersion {
            None => Complex64::new(1.0, 0.0),
            Some((constant, slope)) => law() * slope + constant,
        }
    }

    /// Propagation constant γ in 1/m and characteristic impedance Zc in ohm, f above 0: Re γ ≥ 0, Re Zc > 0.
    pub fn constants(&self, frequency: Hertz) -> (Complex64, Complex64) {
        self.constants_of(frequency, || wideband(frequency))
    }

    pub(super) fn constants_of(&self, frequency: Hertz, law: impl FnOnce() -> Complex64) -> (Complex64, Complex64) {
        let omega = TAU * frequency.0;
        let resistance = self.resistance * frequency.0.sqrt();
        let z = Complex64::new(resistance, resistance + omega * self.inductance);
        let permittivity = self.permittivity_of(law) * (omega * self.capacitance);
        let y = Complex64::new(-permittivity.im, permittivity.re);
        let gamma = root(z * y);
        (gamma, z / gamma)
    }

    /// The line at one frequency; at 0 the exact limit, a through connection.
    pub fn two_port(&self, frequency: Hertz) -> TwoPort {
        self.two_port_of(frequency, || wideband(frequency))
    }

    /// The same, where the law of its dielectric is known at that frequency.
    pub(super) fn two_port_of(&self, frequency: Hertz, law: impl FnOnce() -> Complex64) -> TwoPort {
        if frequency.0 == 0.0 || self.length == 0.0 {
            return TwoPort::IDENTITY;
        }
        if self.resistance == 0.0 && self.dispersion.is_none() {
            let (sin, cos) = (TAU * frequency.0 * self.delay).sin_cos();
            let diagonal = Complex64::new(cos, 0.0);
            return TwoPort {
                a: diagonal,
                b: Complex64::new(0.0, sin * self.impedance),
                c: Complex64::new(0.0, sin / self.impedance),
                d: diagonal,
            };
        }
        let (gamma, impedance) = self.constants_of(frequency, law);
        TwoPort::line(gamma * self.length, impedance)
    }
}

/// The square root in the right half plane, without cancellation.
fn root(z: Complex64) -> Complex64 {
    // `norm` is slow, and needed only where the square leaves the range of numbers.
    let square = z.norm_sqr();
    let size = if (1e-290..1e290).contains(&square) { square.sqrt() } else { z.norm() };
    let t = ((size + z.re.abs()) / 2.0).sqrt();
    if t == 0.0 {
        Complex64::new(0.0, 0.0)
    } else if z.re >= 0.0 {
        Complex64::new(t, z.im / (2.0 * t))
    } else {
        Complex64::new(z.im.abs() / (2.0 * t), t.copysign(z.im))
    }
}
