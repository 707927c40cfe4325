//! A limit at one frequency.

use std::f64::consts::LN_10;

use num_complex::Complex64;

use super::modulus::{Measure, Modulus};
use super::{Allowed, at_least, at_most};
use crate::figures::Figure;
use crate::network::{ChainPoint, Function, Mobius};
use crate::response::{Case, PERFECT_MATCH, ROUGH, decibels, mismatch_loss, return_loss, vswr};

/// Size of an excess that stands for an infinite one, in neper.
const BEYOND: f64 = 1e3;

/// A limit at one frequency: the modulus of a Möbius function against a bound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inequality {
    modulus: Modulus,
    level: f64,
    function: Mobius,
    absent: Complex64,
    bound: f64,
}

/// A bound before the function is known whose modulus it bounds, so that a further function costs no power of ten.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    modulus: Modulus,
    level: f64,
    /// The bound itself, or its share of the modulus without the protector.
    own: f64,
}

impl Bound {
    /// That of `modulus` at `level`, see [`Inequality::new`].
    pub fn new(modulus: Modulus, level: f64) -> Self {
        let own = match modulus.measure() {
            Measure::Decibels | Measure::AddedDecibels => 10f64.powf(-level / 20.0),
            Measure::LostShare => 1.0 - level,
            Measure::StandingWave => (level - 1.0) / (level + 1.0),
            Measure::MismatchLoss => (-(-level * LN_10 / 10.0).exp_m1()).sqrt(),
        };
        Bound { modulus, level, own }
    }

    /// What is bounded.
    pub fn modulus(&self) -> Modulus {
        self.modulus
    }

    /// The limit on the modulus of this function; `absent` is its value without the protector.
    pub fn on(self, function: Mobius, absent: Complex64) -> Inequality {
        let Bound { modulus, level, own } = self;
        let bound = match modulus.measure() {
            Measure::AddedDecibels | Measure::LostShare => absent.norm() * own,
            _ => own,
        };
        let bound = if modulus.is_reflection() { bound.max(PERFECT_MATCH) } else { bound };
        Inequality { modulus, level, function, absent, bound }
    }
}

impl Inequality {
    /// The limit of `modulus` at `level` (dB, or a ratio for eye penalty and standing wave), at the chain's frequency.
    ///
    /// A return loss beyond that of a perfect match asks for a perfect match.
    pub fn new(modulus: Modulus, level: f64, point: &ChainPoint) -> Self {
        let absent = &point.absent;
        let (function, absent) = match modulus.function() {
            Function::S11 => (point.s11, absent.s11),
            Function::S21 => (point.s21, absent.s21),
            Function::S22 => (point.s22, absent.s22),
            Function::Transfer => (point.transfer, absent.transfer),
        };
        Self::of(modulus, level, function, absent)
    }

    /// The limit of `modulus` at `level` on the modulus of a function of C; `absent` is its value without the protector.
    pub fn of(modulus: Modulus, level: f64, function: Mobius, absent: Complex64) -> Self {
        Bound::new(modulus, level).on(function, absent)
    }

    /// What is bounded.
    pub fn modulus(&self) -> Modulus {
        self.modulus
    }

    /// The figure that is bounded.
    pub fn figure(&self) -> &'static Figure {
        self.modulus.figure()
    }

    /// The bound as stated.
    pub fn level(&self) -> f64 {
        self.level
    }

    /// The Möbius function whose modulus is bounded.
    pub fn function(&self) -> &Mobius {
        &self.function
    }

    /// The bound on the modulus.
    pub fn bound(&self) -> f64 {
        self.bound
    }

    /// The capacitances that keep the limit.
    pub fn allowed(&self) -> Allowed {
        self.solve(&self.function)
    }

    /// Whether the limit holds with the protector absent.
    pub fn holds_absent(&self) -> bool {
        // Only what is close to the bound takes the exact way.
        let square = self.squared(Case::Absent);
        if (square - 1.0).abs() > 4.0 * ROUGH {
            return square < 1.0;
        }
        !self.solve(&Mobius::constant(self.absent)).intervals().is_empty()
    }

    fn solve(&self, function: &Mobius) -> Allowed {
        if self.modulus.is_reflection() { at_most(function, self.bound) } else { at_least(function, self.bound) }
    }

    fn size(&self, probe: Case) -> f64 {
        match probe {
            Case::Absent => self.absent.norm(),
            Case::With(c) => self.function.at(c).norm(),
        }
    }

    /// By how much the limit is broken, as the logarithm of modulus over bound; negative where it holds.
    pub fn excess(&self, probe: Case) -> f64 {
        if !self.modulus.is_reflection() && self.bound <= 0.0 {
            return -BEYOND;
        }
        let over = (self.size(probe) / self.bound).ln();
        let excess = if self.modulus.is_reflection() { over } else { -over };
        excess.clamp(-BEYOND, BEYOND)
    }

    /// e to twice the excess, to a few units of round-off and without its logarithm; not a number where it is too large or
    /// too small for that.
    pub(super) fn squared(&self, probe: Case) -> f64 {
        const ONE: Complex64 = Complex64::new(1.0, 0.0);
        const SURE: std::ops::Range<f64> = 1e-200..1e200;
        let f = &self.function;
        let (over, under) = match probe {
            Case::Absent => (self.absent, ONE),
            Case::With(c) if c.is_finite() => (f.p + f.q * c, f.r + f.s * c),
            Case::With(c) => (f.at(c), ONE),
        };
        let [over, under] = [over.norm_sqr(), under.norm_sqr() * (self.bound * self.bound)];
        if !(self.bound > 0.0 && SURE.contains(&over) && SURE.contains(&under)) {
            return f64::NAN;
        }
        if self.modulus.is_reflection() { over / under } else { under / over }
    }

    /// The metric in the limit's own unit; `None` where it is infinite.
    pub fn value(&self, probe: Case) -> Option<f64> {
        let modulus = self.size(probe);
        match self.modulus.measure() {
            Measure::Decibels if self.modulus.is_reflection() => return_loss(modulus),
            Measure::Decibels => decibels(modulus),
            Measure::AddedDecibels => decibels(modulus / self.absent.norm()),
            Measure::LostShare => Some(1.0 - modulus / self.absent.norm()),
            Measure::StandingWave => vswr(modulus),
            Measure::MismatchLoss => mismatch_loss(modulus),
        }
    }
}
