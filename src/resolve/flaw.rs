//! Why stated values make no element, and at which of them that shows.

use std::fmt;

use super::DebyeError;
use super::geometry::ViaGeometryError;
use super::loss::LineFault;
use crate::units::{DB_PER_NEPER, Metre, Volt, significant};

/// Total loss beyond which a line is surely mistyped, in dB.
pub const MAX_LOSS: f64 = 1000.0;

/// Why stated values make no element. Its text says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Flaw {
    /// The loss of this index is a total, and the line has no length.
    LossWithoutLength(usize),
    /// The line loses more than [`MAX_LOSS`] by the loss of this index.
    LossOutOfRange(usize),
    /// Two losses and a loss tangent.
    TangentBesideTwoLosses,
    /// No line of this length has these losses.
    Losses(LineFault, Metre),
    /// The conductor's internal inductance alone would exceed the line's.
    LossTooHigh,
    /// A single line has a gap.
    GapOfSingleLine,
    /// The laminate cannot be.
    Laminate(DebyeError),
    /// Copper of this thickness does not fit between the planes of a stripline.
    CopperAbovePlanes(Metre),
    /// No via has these diameters.
    Via(ViaGeometryError),
    /// A part stated across a pair alone, on a single line.
    AcrossOnSingleLine,
    /// The line goes above the rails of the part.
    AboveRails {
        /// Highest voltage of the line.
        high: Volt,
        /// Supply of the rails.
        supply: Volt,
    },
}

/// A stated value of an element.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// The element as a whole.
    Element,
    /// The loss of this index.
    Loss(usize),
    /// The last loss.
    LastLoss,
    /// The loss tangent.
    LossTangent,
    /// The gap of a pair.
    Gap,
    /// The height of a trace.
    Height,
    /// The pad of a via.
    Pad,
    /// The antipad of a via.
    Antipad,
    /// The name of its laminate.
    Laminate,
    /// The name of its part.
    Part,
    /// The laminate or the part itself.
    Named,
}

impl Place {
    /// The name of the value; `None` for the element as a whole.
    pub fn name(self) -> Option<&'static str> {
        match self {
            Place::Element | Place::Named => None,
            Place::Loss(_) | Place::LastLoss => Some("loss"),
            Place::LossTangent => Some("loss_tangent"),
            Place::Gap => Some("gap"),
            Place::Height => Some("height"),
            Place::Pad => Some("pad"),
            Place::Antipad => Some("antipad"),
            Place::Laminate => Some("on"),
            Place::Part => Some("part"),
        }
    }
}

impl Flaw {
    /// Stable identifier in kebab case.
    pub fn code(&self) -> &'static str {
        match self {
            Flaw::LossWithoutLength(_) => "loss-points",
            Flaw::LossOutOfRange(_) => "out-of-range",
            Flaw::TangentBesideTwoLosses => "loss-tangent-twice",
            Flaw::Losses(LineFault::BelowDielectric { .. }, _) => "loss-below-dielectric",
            Flaw::Losses(..) => "loss-points",
            Flaw::LossTooHigh => "loss-too-high",
            Flaw::GapOfSingleLine => "gap-single-ended",
            Flaw::Laminate(_) => "laminate-points",
            Flaw::CopperAbovePlanes(_) => "stripline-height",
            Flaw::Via(_) => "via-geometry",
            Flaw::AcrossOnSingleLine => "across-single-ended",
            Flaw::AboveRails { .. } => "above-rails",
        }
    }

    /// The value at which it shows.
    pub fn place(&self) -> Place {
        match self {
            Flaw::LossWithoutLength(index) | Flaw::LossOutOfRange(index) => Place::Loss(*index),
            Flaw::TangentBesideTwoLosses => Place::LossTangent,
            Flaw::Losses(LineFault::BelowDielectric { .. }, _) => Place::Loss(0),
            Flaw::Losses(..) => Place::LastLoss,
            Flaw::LossTooHigh => Place::Element,
            Flaw::GapOfSingleLine => Place::Gap,
            Flaw::Laminate(_) => Place::Laminate,
            Flaw::CopperAbovePlanes(_) => Place::Height,
            Flaw::Via(ViaGeometryError::AntipadNotAbovePad) => Place::Antipad,
            Flaw::Via(ViaGeometryError::PadNotAboveDrill) => Place::Pad,
            Flaw::AcrossOnSingleLine | Flaw::AboveRails { .. } => Place::Part,
        }
    }

    /// What to do about it.
    pub fn cure(&self) -> &'static str {
        match self {
            Flaw::LossWithoutLength(_) => "state its length, or the loss per length",
            Flaw::LossOutOfRange(_) => "check the loss per length and the length",
            Flaw::TangentBesideTwoLosses => "keep one or the other: two points give the loss tangent themselves",
            Flaw::Losses(fault, _) => match fault {
                LineFault::BelowDielectric { .. } => "state a larger loss or a smaller loss tangent",
                LineFault::SecondOutOfRange { .. } => {
                    "between a loss that grows as the square root of the frequency and one that grows as the frequency"
                }
                LineFault::SameFrequency(_) => "state them at two frequencies",
                LineFault::TangentBesideTwoPoints | LineFault::TooManyPoints(_) => {
                    "state one loss and a loss tangent, or two losses"
                }
            },
            Flaw::LossTooHigh => {
                "the conductor's internal inductance alone would exceed the line's; check the loss and its frequency"
            }
            Flaw::GapOfSingleLine => "delete the `gap`, or write `reference … differential`",
            Flaw::Laminate(_) => "check its permittivity and its loss tangent",
            Flaw::CopperAbovePlanes(_) => "the `height` of a stripline is from plane to plane",
            Flaw::Via(_) => "diameters rise from `drill` to `pad` to `antipad`",
            Flaw::AcrossOnSingleLine => "a single line needs a part with a capacitance to ground",
            Flaw::AboveRails { .. } => "choose a part whose supply is at least the line's highest voltage",
        }
    }
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Flaw::LossWithoutLength(_) => f.write_str("a line without length has no loss"),
            Flaw::LossOutOfRange(_) => write!(f, "this line loses more than {MAX_LOSS} dB"),
            Flaw::TangentBesideTwoLosses => f.write_str("two loss points and a loss tangent say too much"),
            Flaw::Losses(fault, length) => losses(fault, *length, f),
            Flaw::LossTooHigh => f.write_str("this loss is too high for a line of this impedance and delay"),
            Flaw::GapOfSingleLine => f.write_str("a single line has no gap to a partner"),
            Flaw::Laminate(error) => write!(f, "this laminate cannot be: {error}"),
            Flaw::CopperAbovePlanes(copper) => {
                write!(f, "the copper is {copper} thick and does not fit between these planes")
            }
            Flaw::Via(error) => write!(f, "{error}"),
            Flaw::AcrossOnSingleLine => f.write_str("this part states its capacitance across a pair alone"),
            Flaw::AboveRails { high, supply } => {
                write!(f, "the line goes to {high}, above the rails of this part at {supply}")
            }
        }
    }
}

impl std::error::Error for Flaw {}

fn losses(fault: &LineFault, length: Metre, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    // A line without length is spoken of per metre.
    let length = if length.0 > 0.0 { length.0 } else { 1.0 };
    let total = |attenuation: f64| format!("{} dB", significant(attenuation * length * DB_PER_NEPER, 4));
    match *fault {
        LineFault::BelowDielectric { stated, dielectric } => {
            write!(f, "this loss is {}, but the loss tangent alone makes {}", total(stated), total(dielectric))
        }
        LineFault::SecondOutOfRange { low, high, .. } => write!(
            f,
            "no line has these two losses: given the first, the second lies between {} and {}",
            total(low),
            total(high)
        ),
        LineFault::SameFrequency(_) => f.write_str("two losses at one frequency"),
        LineFault::TangentBesideTwoPoints | LineFault::TooManyPoints(_) => {
            f.write_str("this line states more losses than it has")
        }
    }
}
