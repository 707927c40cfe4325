//! The values of a line that vary, and a setting of them as a point of the unit cube.

use std::collections::HashMap;

use crate::model::{Address, AddressedValue, Distribution, Head, Owner, ValueName, ViaMake};
use crate::model::{Line, Stated};

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
}

impl Place {
    /// The value at this share of the way from its least to its largest one.
    pub fn at(&self, share: f64) -> f64 {
        // Both ends are met exactly.
        if share >= 1.0 { self.high } else { self.low + share * (self.high - self.low) }
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
            let mut new = || {
                directions += 1;
                directions - 1
            };
            let direction = match &tolerance.together {
                Some(group) => *groups.entry((group.clone(), kind(line, &value.address))).or_insert_with(new),
                None => new(),
            };
            let (low, high) = (tolerance.low, tolerance.high);
            places.push(Place { of: value.clone(), nominal, low, high, direction });
        }
        Some(Varying { places, directions, distribution: head.distribution })
    }

    /// The point at which every value is what is stated.
    pub fn nominal(&self) -> Vec<f64> {
        let mut point = vec![0.5; self.directions];
        for place in &self.places {
            let width = place.high - place.low;
            point[place.direction] = if width > 0.0 { (place.nominal - place.low) / width } else { 0.5 };
        }
        point
    }

    /// The values at a point, in the order of [`Varying::places`]; the middle is what is stated where the bounds lie alike
    /// around it.
    pub fn at<'v>(&'v self, point: &'v [f64]) -> impl Iterator<Item = (&'v Address, f64)> {
        self.places.iter().map(|place| (&place.of.address, place.at(point[place.direction])))
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
    let place = line.path().and_then(|path| path.elements.iter().find(|place| place.number == number));
    place.is_some_and(|place| match &place.stated {
        Stated::Via(via) => matches!(via.make, ViaMake::Geometry { .. }),
        _ => false,
    })
}
