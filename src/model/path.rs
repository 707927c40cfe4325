//! The elements a path is made of, from the outer end to the inner end.

use std::sync::Arc;

use super::{
    Antenna, Chip, Driver, Guard, Laminate, LineMake, Part, PartOnLine, Pin, Protector, Radio, Receiver, StatedGuard,
    StatedLine, StatedProtector, StatedVia, TransmissionLine, Via, ViaMake,
};
use crate::diag::Span;
use crate::units::{Farad, Henry, Ohm};

/// A chain of elements, outer end first, whichever way the sheet lists them.
#[derive(Debug, Clone, Default)]
pub struct Path {
    /// Elements from the outer end (cable, link partner) to the inner end (protected chip).
    /// The first and the last are a lane's driver and receiver, either way round, or a feed's antenna and radio; the last of
    /// a bus or a rail is its pin, and the first its connector or whatever is struck. Exactly one is the protector.
    pub elements: Vec<PathElement>,
}

impl Path {
    /// Index of the protector.
    pub fn protector_index(&self) -> usize {
        self.elements.iter().position(PathElement::is_protector).unwrap_or(0)
    }

    /// The protector.
    pub fn protector(&self) -> Option<&Protector> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Protector(p) => Some(p),
            _ => None,
        })
    }

    /// Puts a part in the protector's place, as it is on this line.
    pub fn fit_part(&mut self, part: &Arc<Part>, on_line: &PartOnLine) {
        for place in &mut self.elements {
            if let Element::Protector(protector) = &mut place.element {
                protector.fit_part(part, on_line);
            }
            if let Stated::Protector(stated) = &mut place.stated {
                stated.part = Some(Arc::clone(part));
                stated.capacitance = None;
            }
        }
    }

    /// Judges this capacitance instead of the one the sheet states, without the part's name; a part's
    /// inductance and resistance stay.
    pub fn fit(&mut self, capacitance: Farad) {
        for place in &mut self.elements {
            if let Element::Protector(protector) = &mut place.element {
                protector.fitted = Some(capacitance);
                protector.part = None;
            }
            if let Stated::Protector(stated) = &mut place.stated {
                stated.capacitance = Some(capacitance);
            }
        }
    }

    /// The driver.
    pub fn driver(&self) -> Option<&Driver> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Driver(d) => Some(d),
            _ => None,
        })
    }

    /// The receiver.
    pub fn receiver(&self) -> Option<&Receiver> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Receiver(r) => Some(r),
            _ => None,
        })
    }

    /// The antenna.
    pub fn antenna(&self) -> Option<&Antenna> {
        self.elements.iter().find_map(|e| match &e.element {
            Element::Antenna(a) => Some(a),
            _ => None,
        })
    }

    /// What is stated of the chip at the inner end; `None` where the path ends with no end.
    pub fn inner_chip(&self) -> Option<&Chip> {
        self.elements.last()?.element.chip()
    }

    /// Whether the driver is at the outer end.
    pub fn driver_is_outer(&self) -> bool {
        matches!(self.elements.first().map(|e| &e.element), Some(Element::Driver(_)))
    }
}

/// An element with its place in the sheet.
#[derive(Debug, Clone)]
pub struct PathElement {
    /// What the circuit has.
    pub element: Element,
    /// What the sheet states of it.
    pub stated: Stated,
    /// Number from 1 in the order the sheet lists the path.
    pub number: usize,
    /// Its line in the sheet.
    pub span: Span,
}

impl PathElement {
    /// Whether it is the place of the unknown capacitance.
    pub fn is_protector(&self) -> bool {
        matches!(self.element, Element::Protector(_))
    }
}

/// What the sheet states of an element.
#[derive(Debug, Clone, PartialEq)]
pub enum Stated {
    /// The values of the element themselves; so, too, where there is no sheet.
    AsIs,
    /// A cable or trace.
    Line(StatedLine),
    /// A via.
    Via(StatedVia),
    /// The protector.
    Protector(StatedProtector),
    /// A further part.
    Guard(StatedGuard),
}

impl Stated {
    /// The board it names, where it follows from its dimensions.
    pub fn laminate_mut(&mut self) -> Option<&mut Arc<Laminate>> {
        match self {
            Stated::Line(StatedLine { make: LineMake::Microstrip(shape) | LineMake::Stripline(shape), .. }) => {
                Some(&mut shape.laminate)
            }
            Stated::Via(StatedVia { make: ViaMake::Geometry { laminate, .. }, .. }) => Some(laminate),
            _ => None,
        }
    }

    /// The same, to be read.
    pub fn laminate(&self) -> Option<&Arc<Laminate>> {
        match self {
            Stated::Line(StatedLine { make: LineMake::Microstrip(shape) | LineMake::Stripline(shape), .. }) => {
                Some(&shape.laminate)
            }
            Stated::Via(StatedVia { make: ViaMake::Geometry { laminate, .. }, .. }) => Some(laminate),
            _ => None,
        }
    }

    /// The part it names.
    pub fn part_mut(&mut self) -> Option<&mut Arc<Part>> {
        match self {
            Stated::Protector(protector) => protector.part.as_mut(),
            Stated::Guard(guard) => Some(&mut guard.part),
            _ => None,
        }
    }

    /// The same, to be read.
    pub fn part(&self) -> Option<&Arc<Part>> {
        match self {
            Stated::Protector(protector) => protector.part.as_ref(),
            Stated::Guard(guard) => Some(&guard.part),
            _ => None,
        }
    }
}

/// One element of a path.
#[derive(Debug, Clone)]
pub enum Element {
    /// The sending end.
    Driver(Driver),
    /// The receiving end.
    Receiver(Receiver),
    /// Outer end of a feed.
    Antenna(Antenna),
    /// Inner end of a feed.
    Radio(Radio),
    /// Inner end of a bus or a rail.
    Pin(Pin),
    /// Cable or trace.
    Line(TransmissionLine),
    /// Shunt capacitance with an optional series inductance: a symmetric T.
    Connector {
        /// Per line to ground.
        capacitance: Farad,
        /// Per line, in series.
        inductance: Option<Henry>,
    },
    /// Through-hole: a symmetric π or a line, with an optional stub.
    Via(Via),
    /// In each line.
    Series(Immittance),
    /// Resistance across the pair; capacitance and inductance per line to ground.
    Shunt(Immittance),
    /// Marks the port plane.
    Plane,
    /// The place of the unknown capacitance.
    Protector(Protector),
    /// A further part that is fitted.
    Guard(Guard),
}

impl Element {
    /// The word of the sheet.
    pub fn word(&self) -> &'static str {
        match self {
            Element::Driver(_) => "driver",
            Element::Receiver(_) => "receiver",
            Element::Antenna(_) => "antenna",
            Element::Radio(_) => "radio",
            Element::Pin(_) => "pin",
            Element::Line(line) => line.medium.word(),
            Element::Connector { .. } => "connector",
            Element::Via(_) => "via",
            Element::Series(_) => "series",
            Element::Shunt(_) => "shunt",
            Element::Plane => "plane",
            Element::Protector(_) => "protector",
            Element::Guard(_) => "guard",
        }
    }

    /// What is stated of the chip of an end; `None` for what is no end with a chip.
    pub fn chip(&self) -> Option<&Chip> {
        match self {
            Element::Driver(driver) => Some(&driver.chip),
            Element::Receiver(receiver) => Some(&receiver.chip),
            Element::Radio(radio) => Some(&radio.chip),
            Element::Pin(pin) => Some(&pin.chip),
            _ => None,
        }
    }
}

/// A lumped resistance, inductance or capacitance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Immittance {
    /// Resistance.
    Resistance(Ohm),
    /// Inductance.
    Inductance(Henry),
    /// Capacitance.
    Capacitance(Farad),
}
