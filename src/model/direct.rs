//! The way of direct current to the protector.

use super::{Element, Immittance, Path};

/// What one side of the protector lets through of direct current, of one line to ground.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DirectWay {
    /// Conductance of everything resistive on this side in siemens, seen from the protector.
    pub conductance: f64,
    /// Whether an inductance to ground lets direct current through on this side.
    pub inductive: bool,
    /// Whether a series capacitance parts the end of this side from the protector.
    pub parted: bool,
}

impl DirectWay {
    /// Whether direct current reaches the protector from this side.
    pub fn passes(self) -> bool {
        !self.parted || self.inductive || self.conductance > 0.0
    }
}

impl Path {
    /// The way of direct current to the protector, from the outer and from the inner side; what is stated across a pair
    /// counts `across` times (1/2 for one line of a pair, 1 for a single line).
    ///
    /// With the part off every node of a resistive side is at the line's own voltage V, wherever its ends lead: seen from
    /// the part it is a source of V behind the resistance of that side (Thévenin). The resistance of cables and traces is
    /// left out, which would only lower what flows.
    pub fn direct_ways(&self, across: f64) -> [DirectWay; 2] {
        self.direct_ways_to(self.protector_index(), across)
    }

    /// As [`Path::direct_ways`], to the element of this index.
    pub fn direct_ways_to(&self, element: usize, across: f64) -> [DirectWay; 2] {
        let (outward, inward) = self.elements.split_at(element.min(self.elements.len()));
        let step = |way: DirectWay, element: &Element| {
            let shunt = |ohm: f64| DirectWay { conductance: way.conductance + 1.0 / (across * ohm), ..way };
            match element {
                Element::Driver(driver) => shunt(driver.impedance.0),
                Element::Receiver(receiver) => receiver.impedance.map_or(way, |z| shunt(z.0)),
                Element::Shunt(Immittance::Resistance(r)) => shunt(r.0),
                Element::Shunt(Immittance::Inductance(_)) => DirectWay { inductive: true, ..way },
                Element::Series(Immittance::Resistance(r)) => {
                    DirectWay { conductance: way.conductance / (1.0 + way.conductance * r.0), ..way }
                }
                Element::Series(Immittance::Capacitance(_)) => DirectWay { parted: true, ..DirectWay::default() },
                _ => way,
            }
        };
        let outer = outward.iter().fold(DirectWay::default(), |way, place| step(way, &place.element));
        let inner = inward.iter().rev().fold(DirectWay::default(), |way, place| step(way, &place.element));
        [outer, inner]
    }
}
