//! A high-speed lane.

use super::{Element, LaneLimit, Limit, Path};
use crate::units::{Baud, Hertz, Ohm};

/// A line, or a pair of lines, that carries symbols at a rate.
#[derive(Debug, Clone)]
pub struct Lane {
    /// Modulation.
    pub modulation: Modulation,
    /// Symbol rate f_s.
    pub symbol_rate: Baud,
    /// Reference impedance as stated: across the pair where differential.
    pub reference: Ohm,
    /// Whether the lane is a pair.
    pub differential: bool,
    /// The path between driver and receiver.
    pub path: Path,
    /// The limits, in sheet order.
    pub limits: Vec<Limit<LaneLimit>>,
}

impl Lane {
    /// The Nyquist frequency f_N = f_s/2.
    pub fn nyquist(&self) -> Hertz {
        self.symbol_rate.nyquist()
    }

    /// Reference of the half circuit in ohm: half the stated one for a pair.
    pub fn half_reference(&self) -> Ohm {
        self.reference * self.across_factor()
    }

    /// What an impedance stated across the pair is multiplied by in the half circuit: 1/2, or 1 for a single line.
    pub fn across_factor(&self) -> f64 {
        if self.differential { 0.5 } else { 1.0 }
    }
}

impl Path {
    /// The receiver's `needs`, a limit of its own.
    pub fn needs(&self) -> Option<Limit<LaneLimit>> {
        self.elements.iter().find_map(|place| match &place.element {
            Element::Receiver(receiver) => {
                Some(Limit { of: LaneLimit::EyeOpening(receiver.needs?), span: Some(place.span) })
            }
            _ => None,
        })
    }
}

/// Line code: how many levels a symbol has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Modulation {
    /// Two levels.
    Nrz,
    /// Three levels.
    Pam3,
    /// Four levels.
    Pam4,
    /// Five levels.
    Pam5,
    /// Sixteen levels.
    Pam16,
}

impl Modulation {
    /// The word of the sheet and of the results.
    pub fn word(self) -> &'static str {
        match self {
            Modulation::Nrz => "nrz",
            Modulation::Pam3 => "pam3",
            Modulation::Pam4 => "pam4",
            Modulation::Pam5 => "pam5",
            Modulation::Pam16 => "pam16",
        }
    }

    /// Number of levels M.
    pub fn levels(self) -> u32 {
        match self {
            Modulation::Nrz => 2,
            Modulation::Pam3 => 3,
            Modulation::Pam4 => 4,
            Modulation::Pam5 => 5,
            Modulation::Pam16 => 16,
        }
    }
}
