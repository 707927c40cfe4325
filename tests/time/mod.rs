//! The time domain against closed forms and brute force.

#![allow(clippy::unwrap_used)]

mod coupled;
mod eye;
mod global;
mod pair;
mod patterns;
mod phase;
mod profile;
mod profile_limits;
mod reflected;
mod scan;
mod settle;
mod special;
mod step;
mod working;

use std::f64::consts::PI;

use num_complex::Complex64;

use lanecap::network::Mobius;
use lanecap::response::{ChainSample, Sample, Signal};

/// A value that does not depend on the capacitance.
pub(super) fn constant(value: Complex64) -> Sample {
    let with = Mobius { p: value, q: Complex64::ZERO, r: Complex64::ONE, s: Complex64::ZERO };
    Sample { absent: value, with }
}

/// A capacitance across a matched lossless line of `z` ohm, and nothing else:
/// H = 1/(1 + jx), Γ = −jx/(1 + jx), x = πfZC (Pozar, *Microwave Engineering*, ABCD of a shunt admittance).
pub(super) fn shunt(z: f64) -> impl Fn(f64) -> ChainSample {
    move |f| {
        let x = Complex64::new(0.0, PI * f * z);
        let form = |p: f64, q: Complex64| Mobius { p: p.into(), q, r: Complex64::ONE, s: x };
        ChainSample {
            transfer: Sample { absent: Complex64::ONE, with: form(1.0, Complex64::ZERO) },
            reflection: Sample { absent: Complex64::ZERO, with: form(0.0, -x) },
        }
    }
}

/// A chain of which only the transfer matters.
pub(super) fn channel(h: impl Fn(f64) -> Complex64) -> impl Fn(f64) -> ChainSample {
    move |f| ChainSample { transfer: constant(h(f)), reflection: constant(Complex64::ZERO) }
}

/// A transfer of skin effect alone, exp(−a√(jω)), `a` in √s.
pub(super) fn skin(a: f64, f: f64) -> Complex64 {
    (-a * Complex64::new(0.0, 2.0 * PI * f).sqrt()).exp()
}

/// Two-level data of `symbol_s` and an edge of `rise_s`.
pub(super) fn data(symbol_s: f64, rise_s: f64) -> Signal {
    Signal { rise_s, ..Signal::new(1.0 / symbol_s, 2) }
}
