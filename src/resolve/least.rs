//! A part on a line: the least it may put there.

use super::junction::least_ratio;
use crate::model::{CapacitanceRating, Part, VoltageRange, Voltages};
use crate::units::{Farad, Volt};

impl Part {
    /// The least capacitance of one line to ground that the part may have on a line, stated `across` the pair or to ground:
    /// as far below its typical value as its maximum lies above, at the bias of least capacitance; not below 0.
    ///
    /// `None` where the part does not state both. An estimate.
    pub fn least_on_line(&self, across: bool, voltages: Voltages) -> Option<Farad> {
        let least = |rating: CapacitanceRating, spread: Option<Farad>, range, lines: f64| {
            let least = (rating.maximum.0 - spread?.0).max(0.0);
            Some(Farad(lines * least * least_ratio(rating.bias, self.polarity, self.grading, range)))
        };
        if !across {
            return least(self.to_ground?, self.spread, voltages.line, 1.0);
        }
        let rating = self.across?;
        let bias = rating.bias.map(|bias| Volt(bias.0.abs()));
        let most = voltages.pair.map(|pair| pair.magnitudes().high);
        let range = most.map(|high| VoltageRange { low: high, high });
        least(CapacitanceRating { bias, ..rating }, self.across_spread, range, 2.0)
    }
}
