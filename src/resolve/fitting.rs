//! A part on a line: what it puts there at worst.

use super::junction::{JunctionOutcome, worst_case};
use crate::model::{CapacitanceRating, Part, PartOnLine, VoltageRange};
use crate::units::{Farad, Henry, Ohm};

impl Part {
    /// The part on a single line, or on a pair where `differential`; `None` for a part stated across a pair alone on a
    /// single line.
    ///
    /// `seen` is told each rating that was moved to the line's worst bias.
    pub fn on_line(
        &self,
        differential: bool,
        line_voltage: Option<VoltageRange>,
        mut seen: impl FnMut(&CapacitanceRating, JunctionOutcome),
    ) -> Option<PartOnLine> {
        let mut worst = |rating: CapacitanceRating| {
            let outcome = worst_case(&rating, self.polarity, self.grading, line_voltage);
            seen(&rating, outcome);
            outcome.capacitance.0
        };
        let ground = self.to_ground.map(&mut worst);
        let across = self.across.filter(|_| differential).map(worst).map(|c| 2.0 * c);
        let is_across = across > ground;
        let scale = if is_across { 0.5 } else { 1.0 };
        Some(PartOnLine {
            capacitance: Farad(if is_across { across? } else { ground? }),
            inductance: Henry(self.inductance.0 * scale),
            resistance: Ohm(self.resistance.0 * scale),
            across: is_across,
        })
    }

    /// Whether it is stated across a pair alone, and so takes one channel for a pair.
    pub fn is_across_alone(&self) -> bool {
        self.to_ground.is_none() && self.across.is_some()
    }
}
