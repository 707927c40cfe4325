//! A high-speed lane.

use super::{DEFAULT_RISE_UI, Element, LaneLimit, Limit, Note, Path};
use crate::units::{Baud, Hertz, Ohm, Second, significant};

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

/// The least reference, in ohm, that is more often one of a pair (common practice, no source).
const PAIR_REFERENCE: f64 = 75.0;

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

    /// What is noted of a lane that is taken as single-ended at a reference that is more often one of a pair.
    pub fn single_ended_note(&self) -> Option<Note> {
        let said = || {
            let words = format!("`reference {} ohm differential`", significant(self.reference.0, 4));
            format!("a reference of {} without `differential`: single-ended; of a pair write {words}", self.reference)
        };
        let doubtful = !self.differential && self.reference.0 >= PAIR_REFERENCE;
        doubtful.then(|| Note { code: "default-single-ended", text: said(), span: None })
    }

    /// What is noted of an edge that the driver does not state.
    pub fn edge_note(&self) -> Option<Note> {
        let unstated = |e: &Element| matches!(e, Element::Driver(driver) if driver.rise.is_none());
        let driver = self.path.elements.iter().find(|place| unstated(&place.element))?;
        let edge = Second(DEFAULT_RISE_UI / self.symbol_rate.0);
        let text =
            format!("no rise time stated: {DEFAULT_RISE_UI} unit intervals, {edge} (common practice, no source)");
        Some(Note { code: "default-rise", text, span: Some(driver.span) })
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
