//! A part on a line: what it puts there at worst.

use super::junction::{JunctionOutcome, worst_case};
use crate::model::{CapacitanceRating, Part, PartOnLine, VoltageRange, Voltages};
use crate::units::{Farad, Henry, Ohm, Volt};

impl Part {
    /// The part on a single line, or on a pair where `differential`; `None` for a part stated across a pair alone on a
    /// single line.
    ///
    /// A value to ground is moved to the worst bias of a line to ground, one across the pair to the least magnitude of the
    /// voltage between the lines. `seen` is told each rating that was moved.
    pub fn on_line(
        &self,
        differential: bool,
        voltages: Voltages,
        mut seen: impl FnMut(&CapacitanceRating, JunctionOutcome),
    ) -> Option<PartOnLine> {
        let mut worst = |rating: CapacitanceRating, range, lines: f64| {
            let outcome = worst_case(&rating, self.polarity, self.grading, range);
            seen(&rating, outcome);
            (lines * outcome.capacitance.0, outcome.moved_to)
        };
        let ground = self.to_ground.map(|rating| worst(rating, voltages.line, 1.0));
        let across = self.across.filter(|_| differential).map(|rating| {
            let bias = rating.bias.map(|bias| Volt(bias.0.abs()));
            let least = voltages.pair.map(|pair| pair.magnitudes().low);
            worst(CapacitanceRating { bias, ..rating }, least.map(|low| VoltageRange { low, high: low }), 2.0)
        });
        let is_across = across.map(|(c, _)| c) > ground.map(|(c, _)| c);
        let scale = if is_across { 0.5 } else { 1.0 };
        let (capacitance, bias) = if is_across { across? } else { ground? };
        let capacitance = Farad(capacitance);
        let apart = if self.is_taken_twice(differential) { self.apart(capacitance) } else { None };
        Some(PartOnLine {
            capacitance,
            bias,
            inductance: Henry(self.inductance.0 * scale),
            resistance: Ohm(self.resistance.0 * scale),
            across: is_across,
            mismatch: self.mismatch.or(apart),
        })
    }

    /// Whether it is stated across a pair alone, and so takes one channel for a pair.
    pub fn is_across_alone(&self) -> bool {
        self.to_ground.is_none() && self.across.is_some()
    }
}
