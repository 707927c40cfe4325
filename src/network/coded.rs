//! A chain as coded data see it.

use super::{Chain, Section};
use crate::model::{Block, TRANSPARENT_UI};
use crate::units::{Ohm, Second};

impl Chain {
    /// The same lane in time, for symbols of this length: what blocks direct current for 50 of them or more is a wire, a
    /// capacitance in series a short and an inductance to ground an open.
    pub fn for_data(&self, symbol: Second) -> Chain {
        let (source, receiver) = self.ends();
        let seen = |section: &Section| {
            let block = match *section {
                Section::SeriesCapacitance(c) => Block::Series(c),
                Section::ShuntInductance(l) => Block::Shunt(l),
                other => return other,
            };
            let lasts = block.time_constant(source, receiver).0 / symbol.0;
            if lasts >= TRANSPARENT_UI { Section::SeriesResistance(Ohm(0.0)) } else { *section }
        };
        Chain { sections: self.sections.iter().map(seen).collect(), ..self.clone() }
    }
}
