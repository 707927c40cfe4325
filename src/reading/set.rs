//! A sheet with other values than it states at some addresses.

use super::{Addresses, edited, listed, without_address};
use crate::diag::{Diagnostic, nearest, shorten};
use crate::model::{
    Address, AddressedValue, Attenuation, Design, Line, LineMake, Owner, Path, SetValue, Stated, ValueName,
};
use crate::resolve::{Surroundings, least_place, place_at_protector, traces_at_protector};
use crate::sheet::{Edit, Gathered, How, lone_quantity};
use crate::units::Dimension;

/// A value asked for: `camera link/7.length=3 mm`, `part "p".inductance=0.3 nH`.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The whole text.
    pub text: String,
    line: Option<String>,
    address: Address,
    value: f64,
    dimension: Dimension,
}

/// Why a value cannot be another.
#[derive(Debug, Clone)]
pub enum NotSet {
    /// The sheet itself, or the sheet with that value, has errors.
    Sheet(Vec<Diagnostic>),
    /// What was asked, what is wrong with it, and its cure.
    Asked(String, String, Option<String>),
}

const FORM: &str = "write LINE/ADDRESS=VALUE, e.g. \"camera link/7.length=3 mm\", or 'part \"NAME\".inductance=0.3 nH'";

impl std::str::FromStr for Asked {
    type Err = (String, Option<String>);

    fn from_str(text: &str) -> Result<Asked, Self::Err> {
        let wrong = |what: &str| (what.to_owned(), Some(FORM.to_owned()));
        let (place, value) = text.rsplit_once('=').ok_or_else(|| wrong("there is no `=`"))?;
        let whole = place.parse::<Address>().ok();
        let (line, address) = match (whole, place.rsplit_once('/')) {
            (Some(address), _) => (None, address),
            (None, Some((line, address))) => {
                let address = address.parse::<Address>().map_err(|no| wrong(&no.to_string()))?;
                (Some(line.trim().to_owned()), address)
            }
            (None, None) => return Err(wrong("this names no value of the sheet")),
        };
        let quantity = lone_quantity(value)?;
        if quantity.tolerance.is_some() {
            return Err(wrong("a value is set without a tolerance: that of the sheet stays"));
        }
        let dimension = quantity.dimension.ok_or_else(|| wrong("the unit is unknown"))?;
        Ok(Asked { text: text.to_owned(), line, address, value: quantity.value, dimension })
    }
}

impl Asked {
    fn refused(&self, message: String, help: String) -> NotSet {
        NotSet::Asked(self.text.clone(), message, Some(help))
    }
}

/// Reads the files of a sheet as if it stated these values, in their order; where there are none, as it stands, with these
/// addresses.
///
/// # Errors
/// The errors of the sheet as it stands, or with those values; an address it does not have, a value of another dimension, an
/// address asked for twice.
pub fn read_set(gathered: &Gathered, asked: &[Asked], addresses: Addresses) -> Result<Design, NotSet> {
    if asked.is_empty() {
        return edited(gathered, &[], &[], addresses).map_err(NotSet::Sheet);
    }
    let mut design = edited(gathered, &[], &[], Addresses::All).map_err(NotSet::Sheet)?;
    let (mut edits, mut nyquist, mut set) = (Vec::new(), Vec::new(), Vec::new());
    for one in asked {
        let (line, value) = found(&design, one)?;
        let name = line.filter(|_| !is_of_block(&one.address)).map(|line| line.head.name.clone());
        if set.iter().any(|earlier: &SetValue| earlier.line == name && earlier.address == one.address) {
            return Err(one.refused(format!("`{}` is set twice", one.address), "keep one of them".to_owned()));
        }
        if let Some(other) = line.and_then(|line| same_trace(line, &one.address, &set)) {
            let message = format!("`{}` and `{other}` both say how long that trace is", one.address);
            return Err(one.refused(message, "keep one of them".to_owned()));
        }
        check(one, value)?;
        match (line, one.address.value) {
            (Some(line), ValueName::Place) => moved(line, one.value, &mut edits),
            (Some(line), ValueName::Rate) => {
                let surroundings = Surroundings::of(line).map(|own| (line.head.name.clone(), own.frequency.0));
                nyquist.extend(surroundings);
                edits.push(instead(value, one.value));
            }
            _ => edits.push(instead(value, one.value)),
        }
        let entry = SetValue {
            line: name,
            address: one.address.clone(),
            value: one.value,
            dimension: one.dimension,
            stated: value.nominal,
        };
        set.push(entry);
        let at = value.span;
        design = edited(gathered, &edits, &nyquist, Addresses::All).map_err(|errors| {
            let told = |error: Diagnostic| {
                error.also(at, format!("set to another value by `--set \"{}\"`", shorten(&one.text, 60)))
            };
            NotSet::Sheet(errors.into_iter().map(told).collect())
        })?;
    }
    design.set = set;
    Ok(design)
}

/// What is set already and moves a trace that this address moves, too: `place` and the lengths of the two traces beside the
/// protector.
fn same_trace<'s>(line: &Line, address: &Address, set: &'s [SetValue]) -> Option<&'s Address> {
    let path = line.path()?;
    let beside = traces_at_protector(path)?.map(|index| path.elements.get(index).map(|place| place.number));
    let of_trace = |address: &Address| match address.owner {
        Owner::Element(number) => address.value == ValueName::Length && beside.contains(&Some(number)),
        _ => false,
    };
    let is_place = |address: &Address| address.value == ValueName::Place;
    let own = set.iter().filter(|set| set.line.as_deref() == Some(line.head.name.as_str())).map(|set| &set.address);
    own.into_iter().find(|other| is_place(address) && of_trace(other) || of_trace(address) && is_place(other))
}

fn is_of_block(address: &Address) -> bool {
    matches!(address.owner, Owner::Part(_) | Owner::Laminate(_))
}

/// The value that is asked for, and its line.
fn found<'d>(design: &'d Design, asked: &Asked) -> Result<(Option<&'d Line>, &'d AddressedValue), NotSet> {
    if is_of_block(&asked.address) {
        if let Some(line) = &asked.line {
            let message =
                format!("a part or a laminate is the same on every line, not on \"{}\" alone", shorten(line, 60));
            return Err(asked.refused(message, format!("write it without a line: '{}=…'", asked.address)));
        }
        let value = design.values.iter().find(|value| value.address == asked.address);
        return value.map(|value| (None, value)).ok_or_else(|| unknown(asked, &design.values, None, "the sheet"));
    }
    let line = match &asked.line {
        None if design.lines.len() == 1 => design.lines.first(),
        None => None,
        Some(name) => design.lines.iter().find(|line| line.head.name == *name),
    };
    let Some(line) = line else {
        let names = design.names();
        let Some(name) = &asked.line else {
            let first = names.first().copied().unwrap_or_default();
            let help = format!("write the name before it, e.g. \"{}/{}=…\"", shorten(first, 60), asked.address);
            return Err(asked.refused("this does not say of which line".to_owned(), help));
        };
        let help = match nearest(name, names.iter().copied()) {
            Some(near) => format!("did you mean \"{}\"?", shorten(near, 60)),
            None => listed(&names),
        };
        return Err(asked.refused(format!("the sheet has no line \"{}\"", shorten(name, 60)), help));
    };
    let value = line.addressed(&asked.address);
    let whose = format!("line \"{}\"", shorten(&line.head.name, 60));
    value.map(|value| (Some(line), value)).ok_or_else(|| unknown(asked, &line.head.values, line.path(), &whose))
}

/// An address that is not there, with those that are.
fn unknown(asked: &Asked, values: &[AddressedValue], path: Option<&Path>, whose: &str) -> NotSet {
    let address = asked.address.to_string();
    let help = without_address(&address, values, path);
    asked.refused(format!("{whose} has no value `{address}`"), help)
}

fn check(asked: &Asked, value: &AddressedValue) -> Result<(), NotSet> {
    let range = value.range;
    let address = &value.address;
    if asked.dimension != range.dimension {
        let message = format!("`{address}` is a {}, and this is a {}", range.dimension, asked.dimension);
        return Err(
            asked.refused(message, format!("write it in the unit of the sheet, e.g. {}", range.dimension.example()))
        );
    }
    if !range.contains(asked.value) {
        let message = format!("this {} is out of range for `{address}`", range.dimension);
        return Err(asked.refused(message, format!("`{address}` takes {}", range.range())));
    }
    Ok(())
}

/// Another number in the place of this value.
fn instead(value: &AddressedValue, number: f64) -> Edit {
    let Address { owner, value: name } = &value.address;
    let how = match (value.nominal, owner, *name) {
        (Some(_), Owner::Part(_), ValueName::Capacitance) => How::AsMaximum,
        (Some(_), ..) => How::Instead,
        (None, Owner::Part(_) | Owner::Laminate(_), name) => How::InRow(name.word()),
        (None, _, name) => How::Added(name.word()),
    };
    Edit { span: value.span, value: number, dimension: value.range.dimension, how }
}

/// The protector elsewhere along its two traces: their lengths, and their shares of a total loss.
fn moved(line: &Line, outer: f64, edits: &mut Vec<Edit>) {
    let Some((path, (was, sum))) = line.path().and_then(|path| Some((path, place_at_protector(path)?))) else { return };
    let Some(traces) = traces_at_protector(path) else { return };
    // The rest may come out below the neck by a rounding.
    let inner = (sum.0 - outer).max(least_place(path).0);
    for (index, (old, new)) in traces.into_iter().zip([(was.0, outer), (sum.0 - was.0, inner)]) {
        let Some(place) = path.elements.get(index) else { continue };
        let mut put = |name: ValueName, number: f64| {
            let address = Address { owner: Owner::Element(place.number), value: name };
            edits.extend(line.addressed(&address).map(|value| instead(value, number)));
        };
        put(ValueName::Length, new);
        let Stated::Line(stated) = &place.stated else { continue };
        let LineMake::Impedance(make) = &stated.make else { continue };
        for (name, loss) in [ValueName::Loss, ValueName::SecondLoss].into_iter().zip(&make.losses) {
            if let Attenuation::Total(total) = loss.loss {
                put(name, if old > 0.0 { total * new / old } else { 0.0 });
            }
        }
    }
}
