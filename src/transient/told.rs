//! The struck circuit as its pieces, to be told.

use super::circuit::{Series, Shunt};
use super::conductor::Piece;
use super::{Conductor, SnapBack, StruckLine};
use crate::units::{Farad, Henry, Ohm, Volt};

/// A straight line of a conductor: V = intercept + slope · I, from a voltage on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightLine {
    /// Where it begins.
    pub from: Volt,
    /// Its voltage at no current.
    pub intercept: Volt,
    /// Its slope.
    pub slope: Ohm,
}

/// What hangs at the terminals of a part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartLines {
    /// In series with its capacitance and its lines.
    pub resistance: Ohm,
    /// The same.
    pub inductance: Henry,
    /// Beside its lines.
    pub capacitance: Farad,
    /// Its lines in the direction of the strike, rising; no current below the first.
    pub lines: Vec<StraightLine>,
    /// For one that snaps back in that direction.
    pub snap: Option<SnapBack>,
}

impl Conductor {
    /// Its straight lines with a current above ground, rising.
    pub fn lines(&self) -> Vec<StraightLine> {
        let line = |Piece { from, slope, offset, .. }: &Piece| StraightLine {
            from: Volt(*from),
            intercept: Volt(-offset / slope),
            slope: Ohm(1.0 / slope),
        };
        self.above().iter().map(line).collect()
    }
}

impl StruckLine {
    /// The part of this number, as in [`StruckLine::parts`].
    pub fn lines_of(&self, part: usize) -> Option<PartLines> {
        let terminal = self.circuit.terminals.get(part)?;
        let (_, conductor) = self.circuit.conductors.get(terminal.conductor)?;
        let (resistance, inductance) = match terminal.lead.and_then(|lead| self.circuit.series.get(lead)) {
            Some((_, _, Series::Choke { resistance, inductance })) => (Ohm(*resistance), Henry(*inductance)),
            _ => (Ohm::ZERO, Henry::ZERO),
        };
        let capacitance = match terminal.capacitance.and_then(|c| self.circuit.shunts.get(c)) {
            Some((_, Shunt::Capacitance(c))) => Farad(*c),
            _ => Farad::ZERO,
        };
        let snap = conductor.snap.filter(|_| conductor.snaps[1]);
        Some(PartLines { resistance, inductance, capacitance, lines: conductor.lines(), snap })
    }

    /// The line of the chip's clamp, where one is stated.
    pub fn clamp_line(&self) -> Option<StraightLine> {
        let (_, conductor) = self.circuit.conductors.get(self.clamp?)?;
        conductor.lines().into_iter().next()
    }
}
