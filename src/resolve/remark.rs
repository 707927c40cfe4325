//! What a reader should know of a value: what was taken where nothing is stated, and how far a formula reaches.

use std::fmt;

use super::flaw::Place;
use super::geometry::RangeNote;
use super::surroundings::DEFAULT_PERMITTIVITY;
use crate::diag::Span;
use crate::model::{Medium, Note};
use crate::units::{Farad, Henry, Hertz, Ohm, significant};

/// A value, and what a reader should know of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Resolved<T> {
    /// The value.
    pub value: T,
    /// The remarks, in order.
    pub remarks: Vec<Remark>,
}

/// What a reader should know of a value. Its text is the remark in words.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// A line states no permittivity.
    DefaultPermittivity(Medium),
    /// A via's stub states no permittivity.
    DefaultViaStubPermittivity,
    /// A geometry lies outside the published range of a formula.
    GeometryRange(RangeNote),
    /// A pair from its geometry states no gap.
    Uncoupled,
    /// A trace was made from its geometry.
    TraceFromGeometry {
        /// Where it was evaluated.
        frequency: Hertz,
        /// Impedance, across the pair where differential.
        impedance: Ohm,
        /// Effective permittivity.
        permittivity: f64,
        /// Loss of its length in the conductor, in dB.
        conductor: f64,
        /// Loss of its length in the dielectric, in dB.
        dielectric: f64,
    },
    /// The stated loss is met approximately: the internal share of the line's series reactance is large.
    ApproximateLoss(f64),
    /// A via was made from its geometry.
    ViaFromGeometry {
        /// Where it was evaluated.
        frequency: Hertz,
        /// Per line to ground.
        capacitance: Farad,
        /// Per line, in series.
        inductance: Henry,
    },
    /// The part of this name states a typical capacitance alone.
    TypicalAsMaximum(String),
    /// The part of this name states a bias, and the line no voltage.
    NoLineVoltage(String),
    /// The part of this name states no grading, and a default one raised its capacitance.
    DefaultGrading(String),
    /// The part of this name states no polarity.
    PolarityAssumed(String),
    /// The part hangs across the pair, and the footprint states a ground via.
    GroundInductanceLeftOut,
    /// The path has no trace that the protector's stub could be of.
    StubWithoutTrace,
}

impl Remark {
    /// Stable identifier in kebab case.
    pub fn code(&self) -> &'static str {
        match self {
            Remark::DefaultPermittivity(_) | Remark::DefaultViaStubPermittivity | Remark::StubWithoutTrace => {
                "default-permittivity"
            }
            Remark::GeometryRange(_) => "geometry-range",
            Remark::Uncoupled => "default-gap",
            Remark::TraceFromGeometry { .. } => "geometry-at-nyquist",
            Remark::ApproximateLoss(_) => "loss-approximate",
            Remark::ViaFromGeometry { .. } => "via-estimate",
            Remark::TypicalAsMaximum(_) => "typical-as-maximum",
            Remark::NoLineVoltage(_) => "no-line-voltage",
            Remark::DefaultGrading(_) => "default-grading",
            Remark::PolarityAssumed(_) => "polarity-assumed",
            Remark::GroundInductanceLeftOut => "across-ground-inductance",
        }
    }

    /// The note it makes of a line, at its place in a sheet.
    pub fn note(&self, span: Option<Span>) -> Note {
        Note { code: self.code(), text: self.to_string(), span }
    }

    /// Whether it warns; else it tells of a value that is not stated.
    pub fn is_warning(&self) -> bool {
        !matches!(
            self,
            Remark::DefaultPermittivity(_)
                | Remark::DefaultViaStubPermittivity
                | Remark::Uncoupled
                | Remark::TraceFromGeometry { .. }
                | Remark::ViaFromGeometry { .. }
                | Remark::DefaultGrading(_)
                | Remark::StubWithoutTrace
        )
    }

    /// The value it speaks of.
    pub fn place(&self) -> Place {
        match self {
            Remark::TypicalAsMaximum(_) => Place::Named,
            Remark::NoLineVoltage(_) | Remark::DefaultGrading(_) | Remark::PolarityAssumed(_) => Place::Part,
            _ => Place::Element,
        }
    }
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Remark::DefaultPermittivity(medium) => {
                write!(f, "no permittivity stated for this {}: {DEFAULT_PERMITTIVITY:.1}", medium.word())
            }
            Remark::DefaultViaStubPermittivity => {
                write!(f, "no permittivity stated for the via's stub: {DEFAULT_PERMITTIVITY:.1}")
            }
            Remark::GeometryRange(note) => write!(f, "{note}"),
            Remark::Uncoupled => f.write_str("no gap stated: the two traces of the pair are taken as uncoupled"),
            Remark::TraceFromGeometry { frequency, impedance, permittivity, conductor, dielectric } => write!(
                f,
                "trace from its geometry at {frequency}: {impedance}, effective permittivity {}, {} dB in the conductor and {} dB \
                 in the dielectric; the causal line carries them over frequency",
                significant(*permittivity, 4),
                significant(*conductor, 4),
                significant(*dielectric, 4)
            ),
            Remark::ApproximateLoss(share) => write!(
                f,
                "R_s is {share:.2} of the line's series reactance at its loss frequency (0.2 at most for the stated loss to be met \
                 within 0.5 %)"
            ),
            Remark::ViaFromGeometry { frequency, capacitance, inductance } => write!(
                f,
                "via from its geometry at {frequency}: {capacitance}, {inductance}; an estimate: the inductance leaves out the \
                 return vias"
            ),
            Remark::TypicalAsMaximum(part) => {
                write!(f, "part \"{part}\" states only a typical capacitance; it is used as the maximum")
            }
            Remark::NoLineVoltage(part) => {
                write!(f, "the line states no line_voltage: the capacitance of part \"{part}\" is taken as stated")
            }
            Remark::DefaultGrading(part) => {
                write!(f, "part \"{part}\" states no grading: 0.7 V and 0.33, and only towards a larger capacitance")
            }
            Remark::PolarityAssumed(part) => {
                write!(f, "part \"{part}\" states no polarity: taken as unidirectional")
            }
            Remark::GroundInductanceLeftOut => f.write_str(
                "the part hangs across the pair: the ground-via inductance is not in its way and is left out",
            ),
            Remark::StubWithoutTrace => {
                write!(f, "no trace in the path to take the stub's permittivity from: {DEFAULT_PERMITTIVITY:.1}")
            }
        }
    }
}
