//! Elements of a lane that pass no direct current: a capacitance in series, an inductance to ground.

use super::{Element, Immittance, Lane, PathElement};
use crate::units::{Farad, Henry, Ohm, Second};

/// Unit intervals of its time constant from which such an element is transparent to coded data: common practice, no source.
pub const TRANSPARENT_UI: f64 = 50.0;

/// What direct current does not pass, per line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Block {
    /// A capacitance in the line.
    Series(Farad),
    /// An inductance to ground.
    Shunt(Henry),
}

impl Block {
    /// In which time a level runs down behind it: C (Z_s + Z_r), or L (Z_s + Z_r)/(Z_s Z_r), between the ends of the half
    /// circuit; infinite for a capacitance before an open receiver.
    pub fn time_constant(&self, source: Ohm, receiver: Option<Ohm>) -> Second {
        Second(match self {
            Block::Series(c) => receiver.map_or(f64::INFINITY, |z| c.0 * (source.0 + z.0)),
            Block::Shunt(l) => l.0 * (1.0 / source.0 + receiver.map_or(0.0, |z| 1.0 / z.0)),
        })
    }
}

impl Element {
    /// What of it direct current does not pass.
    pub fn block(&self) -> Option<Block> {
        match self {
            Element::Series(Immittance::Capacitance(c)) => Some(Block::Series(*c)),
            Element::Shunt(Immittance::Inductance(l)) => Some(Block::Shunt(*l)),
            _ => None,
        }
    }
}

/// An element that direct current does not pass, on its lane.
#[derive(Debug, Clone, Copy)]
pub struct Coupling<'a> {
    /// The element.
    pub element: &'a PathElement,
    /// Its time constant in unit intervals.
    pub ui: f64,
}

impl Coupling<'_> {
    /// Whether coded data do not see it: it is left out of the time domain.
    pub fn is_transparent(&self) -> bool {
        self.ui >= TRANSPARENT_UI
    }
}

impl Lane {
    /// The elements that pass no direct current.
    pub fn couplings(&self) -> impl Iterator<Item = Coupling<'_>> {
        let across = self.across_factor();
        let source = self.path.driver().map_or(self.reference, |driver| driver.impedance) * across;
        let receiver = self.path.receiver().and_then(|receiver| receiver.impedance).map(|z| z * across);
        self.path.elements.iter().filter_map(move |element| {
            let time_constant = element.element.block()?.time_constant(source, receiver);
            Some(Coupling { element, ui: time_constant.0 * self.symbol_rate.0 })
        })
    }

    /// Whether a step through it settles: whatever blocks direct current is transparent to coded data.
    pub fn passes_direct_current(&self) -> bool {
        self.couplings().all(|coupling| coupling.is_transparent())
    }
}
