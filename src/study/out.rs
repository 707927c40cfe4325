//! A line with an element or a value of it taken out.

use std::fmt;

use crate::model::{Address, Barrel, Element, Guard, Immittance, Line, Owner, Stated, ValueName, Via};
use crate::units::{Dimension, Farad, Henry, Metre, Ohm};

/// What is taken out of a path.
#[derive(Debug, Clone, PartialEq)]
pub enum Out {
    /// A whole element, by its number: it keeps its place, and its values are nothing.
    Element(usize),
    /// A pad, a stub, a ground inductance or a series resistance.
    Value(Address),
}

impl fmt::Display for Out {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Out::Element(number) => write!(f, "{number}"),
            Out::Value(address) => write!(f, "{address}"),
        }
    }
}

/// The word of each element of a path, with its number.
pub fn elements(line: &Line) -> Vec<(usize, &'static str)> {
    let elements = line.path().into_iter().flat_map(|path| &path.elements);
    elements.map(|place| (place.number, place.element.word())).collect()
}

/// Everything that can be taken out of a line, in the order of its sheet.
pub(super) fn all(line: &Line) -> Vec<Out> {
    let mut elements: Vec<_> = line.path().map_or(Vec::new(), |path| path.elements.iter().collect());
    elements.sort_by_key(|place| place.number);
    let mut found = Vec::new();
    for place in elements {
        found.extend(nothing(&place.element).map(|_| Out::Element(place.number)));
        let own = line.head.values.iter().filter(|value| value.address.owner == Owner::Element(place.number));
        let there = own.filter(|value| value.nominal.is_some_and(|nominal| nominal > 0.0));
        let taken = there.filter(|value| is_taken(&place.element, value.address.value, value.range.dimension));
        found.extend(taken.map(|value| Out::Value(value.address.clone())));
    }
    found
}

/// Whether a value is taken out by itself.
fn is_taken(element: &Element, value: ValueName, of: Dimension) -> bool {
    match element {
        Element::Driver(_) | Element::Receiver(_) | Element::Radio(_) | Element::Pin(_) => value == ValueName::Pad,
        Element::Via(_) => value == ValueName::Stub && of == Dimension::Length,
        Element::Protector(_) | Element::Guard(_) => {
            matches!(value, ValueName::Pad | ValueName::Stub | ValueName::Inductance | ValueName::Resistance)
        }
        _ => false,
    }
}

/// The line without it; `None` where that is no line.
pub(super) fn without(line: &Line, out: &Out) -> Option<Line> {
    match out {
        Out::Value(address) => line.with_values([(address, 0.0)]).ok(),
        Out::Element(number) => {
            let mut line = line.clone();
            let place = line.path_mut()?.elements.iter_mut().find(|place| place.number == *number)?;
            place.element = nothing(&place.element)?;
            place.stated = Stated::AsIs;
            Line::new(line.head, line.kind).ok()
        }
    }
}

/// An element of this kind that does nothing; `None` of those that are not taken out.
fn nothing(element: &Element) -> Option<Element> {
    Some(match element {
        Element::Connector { .. } => Element::Connector { capacitance: Farad::ZERO, inductance: None },
        Element::Via(_) => {
            let barrel = Barrel::Lumped { capacitance: Farad::ZERO, inductance: None };
            Element::Via(Via { barrel, stub: None })
        }
        Element::Series(_) => Element::Series(Immittance::Resistance(Ohm::ZERO)),
        Element::Shunt(_) => Element::Shunt(Immittance::Capacitance(Farad::ZERO)),
        Element::Guard(guard) => Element::Guard(Guard {
            capacitance: Farad::ZERO,
            pad: Farad::ZERO,
            inductance: Henry::ZERO,
            stub: Metre::ZERO,
            ..guard.clone()
        }),
        _ => return None,
    })
}
