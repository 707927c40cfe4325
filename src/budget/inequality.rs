//! A limit at one frequency.

use std::f64::consts::LN_10;

use num_complex::Complex64;

use super::{Allowed, at_least, at_most};
use crate::model::LossKind;
use crate::network::{ChainPoint, Mobius};
use crate::response::{Case, PERFECT_MATCH, decibels, mismatch_loss, return_loss, vswr};

/// Size of an excess that stands for an infinite one, in neper.
const BEYOND: f64 = 1e3;

/// A limit at one frequency: the modulus of a Möbius function against a bound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inequality {
    kind: LossKind,
    level: f64,
    function: Mobius,
    absent: Complex64,
    bound: f64,
}

impl Inequality {
    /// The limit of `kind` at `level` (dB, or a ratio for eye penalty and standing wave), at the chain's frequency.
    ///
    /// A return loss beyond that of a perfect match asks for a perfect match.
    pub fn new(kind: LossKind, level: f64, point: &ChainPoint) -> Self {
        let absent = &point.absent;
        match kind {
            LossKind::Added | LossKind::Insertion => Self::of(kind, level, point.s21, absent.s21),
            LossKind::ReturnInner => Self::of(kind, level, point.s22, absent.s22),
            LossKind::Fundamental => Self::of(kind, level, point.transfer, absent.transfer),
            LossKind::Return | LossKind::StandingWave | LossKind::Mismatch => {
                Self::of(kind, level, point.s11, absent.s11)
            }
        }
    }

    /// The limit of `kind` at `level` on the modulus of a function of C; `absent` is its value without the protector.
    pub fn of(kind: LossKind, level: f64, function: Mobius, absent: Complex64) -> Self {
        let ratio = 10f64.powf(-level / 20.0);
        let bound = match kind {
            LossKind::Added => absent.norm() * ratio,
            LossKind::Insertion => ratio,
            LossKind::Return | LossKind::ReturnInner => ratio.max(PERFECT_MATCH),
            LossKind::Fundamental => absent.norm() * (1.0 - level),
            LossKind::StandingWave => ((level - 1.0) / (level + 1.0)).max(PERFECT_MATCH),
            LossKind::Mismatch => (-(-level * LN_10 / 10.0).exp_m1()).sqrt().max(PERFECT_MATCH),
        };
        Inequality { kind, level, function, absent, bound }
    }

    /// What is bounded.
    pub fn kind(&self) -> LossKind {
        self.kind
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
        !self.solve(&Mobius::constant(self.absent)).intervals().is_empty()
    }

    fn solve(&self, function: &Mobius) -> Allowed {
        if self.kind.is_reflection() { at_most(function, self.bound) } else { at_least(function, self.bound) }
    }

    fn modulus(&self, probe: Case) -> f64 {
        match probe {
            Case::Absent => self.absent.norm(),
            Case::With(c) => self.function.at(c).norm(),
        }
    }

    /// By how much the limit is broken, as the logarithm of modulus over bound; negative where it holds.
    pub fn excess(&self, probe: Case) -> f64 {
        if !self.kind.is_reflection() && self.bound <= 0.0 {
            return -BEYOND;
        }
        let over = (self.modulus(probe) / self.bound).ln();
        let excess = if self.kind.is_reflection() { over } else { -over };
        excess.clamp(-BEYOND, BEYOND)
    }

    /// The metric in the limit's own unit; `None` where it is infinite.
    pub fn value(&self, probe: Case) -> Option<f64> {
        let modulus = self.modulus(probe);
        match self.kind {
            LossKind::Added => decibels(modulus / self.absent.norm()),
            LossKind::Insertion => decibels(modulus),
            LossKind::Return | LossKind::ReturnInner => return_loss(modulus),
            LossKind::Fundamental => Some(1.0 - modulus / self.absent.norm()),
            LossKind::StandingWave => vswr(modulus),
            LossKind::Mismatch => mismatch_loss(modulus),
        }
    }
}
