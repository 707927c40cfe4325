//! The values of a line that vary, and a setting of them as a point of the unit cube.

use std::collections::HashMap;

use crate::model::{
    Address, AddressedValue, Distribution, Element, Head, Line, Owner, PathElement, Stated, ValueName, ViaMake,
};
use crate::resolve::SetFault;
use crate::units::Farad;

/// How far from half way a share may lie by round-off and count as half way.
const MIDDLE: f64 = 1e-9;

/// A value that varies.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// The value, with its tolerance.
    pub of: AddressedValue,
    /// What is stated of it, in SI.
    pub nominal: f64,
    /// Its least value.
    pub low: f64,
    /// Its largest one.
    pub high: f64,
    /// The direction it varies in, as an index below [`Varying::directions`].
    pub direction: usize,
    /// Whether it is the capacitance of what is fitted and of nothing else, which no budget depends on.
    pub fitted: bool,
}

impl Place {
    /// The value at this share of the way from its least to its largest one; both ends, and half way what is stated, are met
    /// to the last digit.
    pub fn at(&self, share: f64) -> f64 {
        if share >= 1.0 {
            self.high
        } else if share == self.share() {
            self.nominal
        } else {
            self.low + share * (self.high - self.low)
        }
    }

    /// How far from its least to its largest value what is stated lies.
    pub fn share(&self) -> f64 {
        let share = (self.nominal - self.low) / (self.high - self.low);
        let middle = !share.is_finite() || (share - 0.5).abs() < MIDDLE;
        if middle { 0.5 } else { share.clamp(0.0, 1.0) }
    }
}

/// The values of a line that vary.
///
/// Those of one kind in one group share a direction: each deviates by the same share of its own tolerance. A point of the
/// unit cube, one coordinate a direction, is a setting of them all.
#[derive(Debug, Clone, PartialEq)]
pub struct Varying {
    /// Each, in the order of the sheet.
    pub places: Vec<Place>,
    /// How many vary independently.
    pub directions: usize,
    /// How they lie between their bounds.
    pub distribution: Distribution,
}

impl Varying {
    /// Those of a line; `None` where it states no `±`.
    pub fn of(line: &Line) -> Option<Varying> {
        let head: &Head = &line.head;
        if !head.has_tolerance() {
            return None;
        }
        let mut groups: HashMap<(String, ValueName), usize> = HashMap::new();
        let (mut places, mut directions) = (Vec::new(), 0);
        for value in head.values.iter() {
            let (Some(tolerance), Some(nominal)) = (&value.tolerance, value.nominal) else { continue };
            if is_replaced(line, value) {
                continue;
            }
            let mut new = || {
                directions += 1;
                directions - 1
            };
            let direction = match &tolerance.together {
                Some(group) => *groups.entry((group.clone(), kind(line, &value.address))).or_insert_with(new),
                None => new(),
            };
            let (low, high) = (tolerance.low, tolerance.high);
            places.push(Place { of: value.clone(), nominal, low, high, direction, fitted: is_fitted(line, value) });
        }
        Some(Varying { places, directions, distribution: head.distribution })
    }

    /// The point at which every value is what is stated.
    pub fn nominal(&self) -> Vec<f64> {
        let mut point = vec![0.5; self.directions];
        for place in &self.places {
            point[place.direction] = place.share();
        }
        point
    }

    /// The values at a point, in the order of [`Varying::places`].
    pub fn at<'v>(&'v self, point: &'v [f64]) -> impl Iterator<Item = f64> + 'v {
        self.places.iter().map(|place| place.at(point[place.direction]))
    }

    /// The line at these values, in the order of [`Varying::places`].
    ///
    /// # Errors
    /// As [`Line::with_values`].
    pub fn set(&self, line: &Line, values: &[f64]) -> Result<Line, SetFault> {
        line.with_values(self.places.iter().map(|place| &place.of.address).zip(values.iter().copied()))
    }
}

/// Whether something else is fitted in the place of what states this value.
fn is_replaced(line: &Line, value: &AddressedValue) -> bool {
    match (&value.address.owner, value.address.value) {
        (Owner::Element(number), ValueName::Capacitance) => {
            line.element(*number).is_some_and(PathElement::is_protector)
                && line.fitted().map(|Farad(c)| c) != value.nominal
        }
        (Owner::Part(name), ValueName::Capacitance) => !is_judged(line, name),
        (Owner::Part(_), _) => {
            let same = value.nominal.map(|nominal| line.with_values([(&value.address, nominal)]));
            !matches!(same, Some(Ok(_)))
        }
        _ => false,
    }
}

/// Whether the capacitance of a part is one that is judged, or that of a guard.
fn is_judged(line: &Line, name: &str) -> bool {
    let of_element = |element: &Element| match element {
        Element::Protector(protector) => protector.part.as_ref().is_some_and(|part| part.name == name),
        Element::Guard(guard) => guard.part.name == name,
        _ => false,
    };
    line.part().is_some_and(|part| part.name == name)
        || line.path().is_some_and(|path| path.elements.iter().any(|place| of_element(&place.element)))
}

/// Whether a value that varies is the capacitance of the protector and not that of a guard, too.
fn is_fitted(line: &Line, value: &AddressedValue) -> bool {
    let elements = || line.path().into_iter().flat_map(|path| &path.elements);
    value.address.value == ValueName::Capacitance
        && match &value.address.owner {
            Owner::Element(number) => line.element(*number).is_some_and(PathElement::is_protector),
            Owner::Part(name) => {
                !elements().any(|place| matches!(&place.stated, Stated::Guard(guard) if guard.part.name == *name))
            }
            _ => false,
        }
}

/// Of what kind a value is within its group: the last word of its address, a pad's being a capacitance, but for the pad of a
/// via from its geometry, and a stub's a length.
fn kind(line: &Line, address: &Address) -> ValueName {
    match address.value {
        ValueName::Stub | ValueName::NeckLength => ValueName::Length,
        ValueName::NeckImpedance => ValueName::Impedance,
        ValueName::Pad if !is_of_geometry(line, address) => ValueName::Capacitance,
        other => other,
    }
}

fn is_of_geometry(line: &Line, address: &Address) -> bool {
    let Owner::Element(number) = address.owner else { return false };
    line.element(number).is_some_and(|place| match &place.stated {
        Stated::Via(via) => matches!(via.make, ViaMake::Geometry { .. }),
        _ => false,
    })
}
