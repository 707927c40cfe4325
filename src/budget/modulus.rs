//! What a limit at one frequency bounds.

use crate::figures::{self, Figure};
use crate::model::Loss;
use crate::network::Function;

/// The modulus that a limit at one frequency bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Modulus {
    /// |S21| against absent: the added loss.
    Added,
    /// |S21|: the insertion loss.
    Insertion,
    /// |S11| of a lane, |Γ| of a feed: the return loss.
    Return,
    /// |S22|: the return loss from the inner end.
    ReturnInner,
    /// |H| against absent: the eye penalty, the loss of the fundamental.
    Fundamental,
    /// |Γ| of a feed by its standing-wave ratio.
    Vswr,
    /// |Γ| of a feed by its mismatch loss.
    Mismatch,
}

/// How the level of a limit tells the bound on the modulus.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// −20 log10 of the modulus, in dB.
    Decibels,
    /// −20 log10 of the modulus over the one without the protector, in dB.
    AddedDecibels,
    /// One minus the modulus over the one without the protector.
    LostShare,
    /// (1 + modulus)/(1 − modulus).
    StandingWave,
    /// −10 log10(1 − modulus²), in dB.
    MismatchLoss,
}

impl Modulus {
    /// The figure that is bounded through it, the function, and what the level measures: one row each.
    const fn row(self) -> (&'static Figure, Function, Measure) {
        use Measure::*;
        match self {
            Modulus::Added => (&figures::ADDED_LOSS, Function::S21, AddedDecibels),
            Modulus::Insertion => (&figures::INSERTION_LOSS, Function::S21, Decibels),
            Modulus::Return => (&figures::RETURN_LOSS, Function::S11, Decibels),
            Modulus::ReturnInner => (&figures::RETURN_LOSS_INNER, Function::S22, Decibels),
            Modulus::Fundamental => (&figures::EYE_PENALTY, Function::Transfer, LostShare),
            Modulus::Vswr => (&figures::VSWR, Function::S11, StandingWave),
            Modulus::Mismatch => (&figures::MISMATCH_LOSS, Function::S11, MismatchLoss),
        }
    }

    /// The figure that is bounded through it.
    pub fn figure(self) -> &'static Figure {
        self.row().0
    }

    /// The function of C.
    pub fn function(self) -> Function {
        self.row().1
    }

    /// What the level of the limit measures.
    pub fn measure(self) -> Measure {
        self.row().2
    }

    /// Whether it bounds a reflection from above.
    pub fn is_reflection(self) -> bool {
        matches!(self.function(), Function::S11 | Function::S22)
    }
}

impl From<Loss> for Modulus {
    fn from(loss: Loss) -> Modulus {
        match loss {
            Loss::Added => Modulus::Added,
            Loss::Insertion => Modulus::Insertion,
            Loss::Return => Modulus::Return,
            Loss::ReturnInner => Modulus::ReturnInner,
        }
    }
}
