//! A line with other values at some of its addresses.

use std::fmt;
use std::sync::Arc;

use super::flaw::Flaw;
use super::{Surroundings, part_on_line, path};
use crate::model::{
    Address, AddressedValue, Attenuation, Charging, Element, Flaws, Kind, Laminate, Line, LineMake, Medium, Owner,
    Part, Path, Stated, StatedLength, StatedLine, ValueName,
};
use crate::units::{Farad, Metre, Ohm};

/// A value that cannot stand at an address.
#[derive(Debug, Clone, PartialEq)]
pub enum SetFault {
    /// The line has no such value.
    NoValue(Address),
    /// The value lies outside its range.
    OutOfRange(AddressedValue, f64),
    /// The protector may not stand there: from the first to the second length.
    OffTheTraces(Metre, Metre),
    /// The element of this number cannot be made.
    Element(usize, Flaw),
    /// The line would be none.
    Line(Flaws),
}

impl fmt::Display for SetFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SetFault::NoValue(address) => write!(f, "there is no `{address}` here"),
            SetFault::OutOfRange(value, _) => {
                write!(f, "`{}` takes {}", value.address, value.range.range())
            }
            SetFault::OffTheTraces(low, high) => {
                write!(f, "`place` takes {low} to {high}, what the two traces leave beside a neck")
            }
            SetFault::Element(number, flaw) => write!(f, "element {number}: {flaw}"),
            SetFault::Line(flaws) => write!(f, "{flaws}"),
        }
    }
}

impl std::error::Error for SetFault {}

impl Line {
    /// The value at an address, with its range and tolerance; `None` where the line has none there.
    pub fn addressed(&self, address: &Address) -> Option<&AddressedValue> {
        self.head.values.iter().find(|value| value.address == *address)
    }

    /// This line with other values, each in the SI unit of its dimension, and everything that follows from them. Geometries
    /// and losses without a frequency stay at the frequency of this line where its rate moves. Names, limits, defaults and
    /// warnings are as they were.
    ///
    /// # Errors
    /// An address the line does not have, a value out of its range, and values of which no line can be made.
    pub fn with_values<'v>(&self, values: impl IntoIterator<Item = (&'v Address, f64)>) -> Result<Line, SetFault> {
        let mut line = self.clone();
        let mut values: Vec<_> = values.into_iter().collect();
        // The place goes by the lengths and the neck that the others leave.
        values.sort_by_key(|(address, _)| address.value == ValueName::Place);
        for (address, value) in values {
            let stated = self.addressed(address).ok_or_else(|| SetFault::NoValue(address.clone()))?;
            // Between what it lies goes by what the others have become.
            if address.value != ValueName::Place && !stated.range.contains(value) {
                return Err(SetFault::OutOfRange(stated.clone(), value));
            }
            put(&mut line, stated, value)?;
        }
        // The frequency of this line and not of the changed one.
        if let (Some(surroundings), Some(own)) = (Surroundings::of(self), line.path_mut()) {
            path(own, &surroundings).map_err(|(number, flaw)| SetFault::Element(number, flaw))?;
        }
        Line::new(line.head, line.kind).map_err(SetFault::Line)
    }
}

fn put(line: &mut Line, stated: &AddressedValue, value: f64) -> Result<(), SetFault> {
    if stated.nominal == Some(value) {
        return Ok(());
    }
    let address = &stated.address;
    let missing = || SetFault::NoValue(address.clone());
    match (&address.owner, address.value) {
        (Owner::Element(number), name) => {
            let elements = &mut line.path_mut().ok_or_else(missing)?.elements;
            let place = elements.iter_mut().find(|place| place.number == *number).ok_or_else(missing)?;
            *place.value_mut(name).ok_or_else(missing)? = value;
        }
        (Owner::Line, ValueName::Place) => move_protector(line.path_mut().ok_or_else(missing)?, Metre(value))?,
        (Owner::Line, ValueName::Rate) => match &mut line.kind {
            Kind::Lane(lane) => {
                let stated = stated.nominal.ok_or_else(missing)?;
                line.head.resolved_at.get_or_insert(lane.nyquist());
                lane.symbol_rate.0 *= value / stated;
            }
            _ => return Err(missing()),
        },
        (Owner::Line, name) => *of_bus(line, name).ok_or_else(missing)? = value,
        (Owner::Part(name), of) => {
            change_part(line, name, |part| change(part, of, value, stated)).ok_or_else(missing)?;
        }
        (Owner::Laminate(name), of) => {
            let changed = |laminate: &mut Laminate| laminate.value_mut(of).map(|place| *place = value);
            change_laminate(line, name, changed).ok_or_else(missing)?;
        }
    }
    Ok(())
}

fn of_bus(line: &mut Line, name: ValueName) -> Option<&mut f64> {
    let Kind::Bus(bus) = &mut line.kind else { return None };
    match (name, &mut bus.charging) {
        (ValueName::PullUp, Some(Charging::PullUp(Ohm(r)))) | (ValueName::Source, Some(Charging::Source(Ohm(r)))) => {
            Some(r)
        }
        (ValueName::Wiring, _) => Some(&mut bus.wiring.0),
        (ValueName::Inputs, _) => Some(&mut bus.inputs.0),
        _ => None,
    }
}

/// Changes a value of a part; with its largest capacitance its spread, as its sheet states that: a share, a width, or the
/// typical value, which stays.
fn change(part: &mut Part, of: ValueName, value: f64, stated: &AddressedValue) -> Option<()> {
    let (own, tolerance) = (part.value_mut(of)?, stated.tolerance.as_ref());
    let old = std::mem::replace(own, value);
    if of == ValueName::Capacitance {
        let spread = if part.to_ground.is_some() { &mut part.spread } else { &mut part.across_spread };
        if let Some(Farad(spread)) = spread {
            match tolerance {
                Some(tolerance) if tolerance.relative => *spread *= value / old,
                Some(tolerance) if tolerance.stated => {}
                // The typical value, which is never above the maximum.
                _ => *spread = (*spread + 2.0 * (value - old)).max(0.0),
            }
        }
    }
    Some(())
}

/// Changes a part wherever this line has it; `None` where it has none of this name, or the change finds nothing.
fn change_part(line: &mut Line, name: &str, change: impl Fn(&mut Part) -> Option<()>) -> Option<()> {
    let mut changed: Option<Arc<Part>> = None;
    let mut renew = |part: &mut Arc<Part>| {
        if part.name == name {
            if changed.is_none() {
                let mut own = Part::clone(part);
                change(&mut own)?;
                changed = Some(Arc::new(own));
            }
            *part = Arc::clone(changed.as_ref()?);
        }
        Some(())
    };
    if let Some(path) = line.path_mut() {
        path.elements.iter_mut().filter_map(|place| place.stated.part_mut()).try_for_each(&mut renew)?;
    }
    let voltages = line.head.voltages();
    match &mut line.kind {
        Kind::Bus(bus) => {
            if let Some(part) = &mut bus.part {
                renew(part)?;
                bus.fitted = Some(part_on_line(part, false, voltages).ok()?.value.capacitance);
            }
        }
        Kind::Rail(rail) => rail.part.iter_mut().try_for_each(renew)?,
        Kind::Lane(_) | Kind::Feed(_) => {}
    }
    changed.map(|_| ())
}

/// As [`change_part`], of a board material.
fn change_laminate(line: &mut Line, name: &str, change: impl Fn(&mut Laminate) -> Option<()>) -> Option<()> {
    let mut changed: Option<Arc<Laminate>> = None;
    let laminates = line.path_mut()?.elements.iter_mut().filter_map(|place| place.stated.laminate_mut());
    for laminate in laminates.filter(|laminate| laminate.name == name) {
        if changed.is_none() {
            let mut own = Laminate::clone(laminate);
            change(&mut own)?;
            changed = Some(Arc::new(own));
        }
        *laminate = Arc::clone(changed.as_ref()?);
    }
    changed.map(|_| ())
}

/// The two traces that touch the protector, the outer one first, by their indices; `None` where either is missing or the two
/// are not both stated by length or both by delay.
pub fn traces_at_protector(path: &Path) -> Option<[usize; 2]> {
    let at = path.protector_index();
    let trace = |index: usize| match &path.elements.get(index)?.stated {
        Stated::Line(line) if line.medium == Medium::Trace => Some(matches!(line.length, StatedLength::Length(_))),
        _ => None,
    };
    let beside = [at.checked_sub(1)?, at + 1];
    let [Some(true), Some(true)] = beside.map(trace) else { return None };
    let is_protector = matches!(path.elements.get(at)?.element, Element::Protector(_));
    is_protector.then_some(beside)
}

/// The length of the outer of the two traces that touch the protector, and their sum.
pub fn place_at_protector(path: &Path) -> Option<(Metre, Metre)> {
    let [outer, inner] = traces_at_protector(path)?.map(|index| match &path.elements.get(index)?.stated {
        Stated::Line(StatedLine { length: StatedLength::Length(length), .. }) => Some(*length),
        _ => None,
    });
    let (outer, inner) = (outer?, inner?);
    Some((outer, Metre(outer.0 + inner.0)))
}

/// The least length of either of these traces: that of the neck, which is part of both; 0 for one that is too long for both,
/// which is no line.
pub fn least_place(path: &Path) -> Metre {
    let neck = path.elements.iter().find_map(|place| match &place.stated {
        Stated::Protector(protector) => protector.neck.map(|neck| neck.length),
        _ => None,
    });
    let sum = place_at_protector(path).map_or(Metre::ZERO, |(_, sum)| sum);
    neck.filter(|neck| *neck + *neck <= sum).unwrap_or(Metre::ZERO)
}

/// Moves the protector along its two traces: the outer one gets this length, and their sum stays; a total loss is shared out
/// by length.
fn move_protector(path: &mut Path, outer: Metre) -> Result<(), SetFault> {
    let place = || SetFault::NoValue(Address { owner: Owner::Line, value: ValueName::Place });
    let beside = traces_at_protector(path).ok_or_else(place)?;
    let (_, sum) = place_at_protector(path).ok_or_else(place)?;
    let least = least_place(path);
    if !(least..=sum - least).contains(&outer) {
        return Err(SetFault::OffTheTraces(least, sum - least));
    }
    // The rest may come out below the least by a rounding.
    let inner = Metre((sum - outer).0.max(least.0));
    for (index, new) in beside.into_iter().zip([outer, inner]) {
        if let Stated::Line(line) = &mut path.elements[index].stated {
            stretch(line, new);
        }
    }
    Ok(())
}

/// Gives a line another length, and of its total losses their share.
fn stretch(line: &mut StatedLine, new: Metre) {
    let StatedLength::Length(old) = line.length else { return };
    line.length = StatedLength::Length(new);
    if let LineMake::Impedance(make) = &mut line.make {
        for loss in &mut make.losses {
            if let Attenuation::Total(total) = &mut loss.loss {
                *total *= if old.0 > 0.0 { new.0 / old.0 } else { 0.0 };
            }
        }
    }
}
