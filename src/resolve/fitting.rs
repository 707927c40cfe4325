//! A part on a line: what it puts there at worst.

use super::junction::{JunctionOutcome, worst_case};
use crate::model::{CapacitanceRating, Mismatch, Part, PartOnLine, VoltageRange, Voltages};
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
            let moved = if rating.maximum.0 > 0.0 { outcome.capacitance.0 / rating.maximum.0 } else { 1.0 };
            (lines * outcome.capacitance.0, outcome.moved_to, moved)
        };
        let ground = self.to_ground.map(|rating| worst(rating, voltages.line, 1.0));
        let across = self.across.filter(|_| differential).map(|rating| {
            let bias = rating.bias.map(|bias| Volt(bias.0.abs()));
            let least = voltages.pair.map(|pair| pair.magnitudes().low);
            worst(CapacitanceRating { bias, ..rating }, least.map(|low| VoltageRange { low, high: low }), 2.0)
        });
        let is_across = across.map(|(c, ..)| c) > ground.map(|(c, ..)| c);
        let scale = if is_across { 0.5 } else { 1.0 };
        let (capacitance, bias, moved) = if is_across { across? } else { ground? };
        let mismatch = self.mismatch.map(|mismatch| match mismatch {
            Mismatch::Absolute(difference) => Mismatch::Absolute(Farad(difference.0 * moved)),
            share => share,
        });
        let on_line = PartOnLine {
            capacitance: Farad(capacitance),
            bias,
            inductance: Henry(self.inductance.0 * scale),
            resistance: Ohm(self.resistance.0 * scale),
            across: is_across,
            mismatch,
        };
        Some(if self.is_taken_twice(differential) { self.in_two_packages(on_line) } else { on_line })
    }

    /// The same with one channel each of two packages: they differ by the larger of the part's mismatch and its whole
    /// spread, moved to the line's bias as the capacitance is.
    pub fn in_two_packages(&self, on_line: PartOnLine) -> PartOnLine {
        let c = on_line.capacitance;
        let larger = [on_line.mismatch, self.apart(c)].into_iter().flatten();
        let mismatch = larger.max_by(|a, b| a.at(c.0).total_cmp(&b.at(c.0)));
        PartOnLine { mismatch, ..on_line }
    }

    /// Whether it is stated across a pair alone, and so takes one channel for a pair.
    pub fn is_across_alone(&self) -> bool {
        self.to_ground.is_none() && self.across.is_some()
    }
}
