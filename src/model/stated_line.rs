//! A cable or trace as the sheet states it.

use std::sync::Arc;

use super::{Laminate, Medium};
use crate::units::{Hertz, Metre, Ohm, Second};

/// A cable or trace as the sheet states it.
#[derive(Debug, Clone, PartialEq)]
pub struct StatedLine {
    /// Cable or trace.
    pub medium: Medium,
    /// How long it is.
    pub length: StatedLength,
    /// What it is made as.
    pub make: LineMake,
}

impl StatedLine {
    /// A line on the board of this length.
    pub fn trace(length: Metre, make: LineMake) -> StatedLine {
        StatedLine { medium: Medium::Trace, length: StatedLength::Length(length), make }
    }
}

/// How long a line is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StatedLength {
    /// By its length.
    Length(Metre),
    /// By its delay at the effective permittivity.
    Delay(Second),
}

/// What a line is made as.
#[derive(Debug, Clone, PartialEq)]
pub enum LineMake {
    /// By what it is on a signal's way.
    Impedance(LineImpedance),
    /// By its geometry over one plane.
    Microstrip(TraceGeometry),
    /// By its geometry between two planes.
    Stripline(TraceGeometry),
}

/// A line by its impedance.
#[derive(Debug, Clone, PartialEq)]
pub struct LineImpedance {
    /// Characteristic impedance, across the pair where differential.
    pub impedance: Ohm,
    /// Effective relative permittivity.
    pub permittivity: Option<f64>,
    /// Losses, in the order stated.
    pub losses: Vec<LineAttenuation>,
    /// Loss tangent.
    pub loss_tangent: Option<f64>,
}

impl From<Ohm> for LineImpedance {
    /// A line of this impedance, of which nothing else is stated.
    fn from(impedance: Ohm) -> LineImpedance {
        LineImpedance { impedance, permittivity: None, losses: Vec::new(), loss_tangent: None }
    }
}

/// One stated loss of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineAttenuation {
    /// How much.
    pub loss: Attenuation,
    /// Where it holds.
    pub frequency: Hertz,
}

/// A loss of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Attenuation {
    /// Of the whole line, in dB.
    Total(f64),
    /// Per length, in dB/m.
    PerMetre(f64),
}

/// The cross-section of a trace.
#[derive(Debug, Clone, PartialEq)]
pub struct TraceGeometry {
    /// Width of the trace.
    pub width: Metre,
    /// From the trace to its plane; of a stripline from plane to plane.
    pub height: Metre,
    /// From edge to edge of a pair.
    pub gap: Option<Metre>,
    /// The board.
    pub laminate: Arc<Laminate>,
}
