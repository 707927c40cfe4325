//! The struck circuit as its pieces, to be told, and why there is none.

use std::fmt;

use super::circuit::{Series, Shunt};
use super::conductor::Piece;
use super::curve::part_in_surge;
use super::{Conductor, MissingWord, NotStruck, Sign, SnapBack, StruckLine};
use crate::diag::shorten;
use crate::model::Part;
use crate::units::{Farad, Henry, Ohm, Volt};

/// Columns of a part's name.
const NAME: usize = 60;

/// What is missing, in words.
impl fmt::Display for NotStruck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotStruck::NothingFitted => f.write_str("no part is named in the place of the protector"),
            NotStruck::Missing(name, MissingWord("surge_clamp")) => {
                write!(f, "the part \"{}\" states neither `surge_clamp` nor `clamp`", shorten(name, NAME))
            }
            NotStruck::Missing(name, word) => {
                write!(f, "the part \"{}\" does not state `{}`", shorten(name, NAME), word.0)
            }
            NotStruck::AcrossOnly(name) => write!(
                f,
                "the part \"{}\" is stated across the pair alone, and one line is struck against ground",
                shorten(name, NAME)
            ),
            NotStruck::NotComputable => {
                f.write_str("the circuit cannot be computed: the way to the pin takes more than 500 ns")
            }
        }
    }
}

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

impl PartLines {
    /// Of a part in a surge: its lines alone count there; `None` where a word is missing for them.
    pub fn in_surge(part: &Part, sign: Sign) -> Option<PartLines> {
        let conductor = part_in_surge(part, sign).ok()?;
        let (resistance, inductance, capacitance) = (Ohm::ZERO, Henry::ZERO, Farad::ZERO);
        Some(PartLines { resistance, inductance, capacitance, lines: conductor.lines(), snap: conductor.snap })
    }
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
