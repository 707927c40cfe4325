//! What a reader should know of a value: what was taken where nothing is stated, and how far a formula reaches.

use std::fmt;

use super::geometry::RangeNote;
use super::surroundings::DEFAULT_PERMITTIVITY;
use crate::model::Medium;
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
}

impl Remark {
    /// Stable identifier in kebab case.
    pub fn code(&self) -> &'static str {
        match self {
            Remark::DefaultPermittivity(_) | Remark::DefaultViaStubPermittivity => "default-permittivity",
            Remark::GeometryRange(_) => "geometry-range",
            Remark::Uncoupled => "default-gap",
            Remark::TraceFromGeometry { .. } => "geometry-at-nyquist",
            Remark::ApproximateLoss(_) => "loss-approximate",
            Remark::ViaFromGeometry { .. } => "via-estimate",
        }
    }

    /// Whether it warns; else it tells of a value that is not stated.
    pub fn is_warning(&self) -> bool {
        matches!(self, Remark::GeometryRange(_) | Remark::ApproximateLoss(_))
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
        }
    }
}
