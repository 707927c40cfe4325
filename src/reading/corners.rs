//! What the values of an element ask of each other, at the ends of their tolerances.

use std::sync::Arc;

use super::{Findings, Surroundings};
use crate::diag::Diagnostic;
use crate::model::{Address, AddressedValue, Laminate, Owner, Path, PathElement, Stated, ValueName};
use crate::resolve::{Flaw, element, path as resolve_path};

/// The most values whose ends are tried with each other: 1 024 corners.
const MOST: usize = 10;

/// Holds an element against its tolerances and those of its board: it must be one at every corner.
pub(crate) fn check(
    place: &PathElement,
    own: &[AddressedValue],
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) {
    if place.stated == Stated::AsIs {
        return;
    }
    let board = place.stated.laminate().and_then(|laminate| {
        surroundings.context.values.get(&("laminate", laminate.name.as_str())).map(|(_, values)| values)
    });
    let varying: Vec<&AddressedValue> =
        own.iter().chain(board.into_iter().flatten()).filter(|value| value.tolerance.is_some()).take(MOST).collect();
    if varying.is_empty() {
        return;
    }
    let electrical = surroundings.electrical();
    for corner in 0..1_u32 << varying.len() {
        let mut tried = place.clone();
        for (bit, value) in varying.iter().enumerate() {
            let Some(tolerance) = &value.tolerance else { continue };
            put(&mut tried, value, if corner >> bit & 1 == 0 { tolerance.low } else { tolerance.high });
        }
        if let Err(flaw) = element(&tried.stated, &electrical) {
            findings.errors.push(error(&flaw, &varying));
            return;
        }
    }
}

fn put(place: &mut PathElement, value: &AddressedValue, to: f64) {
    let name = value.address.value;
    if matches!(value.address.owner, Owner::Laminate(_)) {
        let Some(board) = place.stated.laminate_mut() else { return };
        let mut changed = Laminate::clone(board);
        changed.value_mut(name).into_iter().for_each(|own| *own = to);
        *board = Arc::new(changed);
    } else {
        place.value_mut(name).into_iter().for_each(|own| *own = to);
    }
}

/// Holds a neck against the traces it is cut from where its tolerance makes it longest and theirs make them shortest.
pub(crate) fn check_neck(
    path: &Path,
    values: &[AddressedValue],
    surroundings: &Surroundings<'_, '_, '_>,
) -> Option<Diagnostic> {
    path.protector()?.neck?;
    let mut tried = path.clone();
    let of = |number: usize, name: ValueName| {
        let address = Address { owner: Owner::Element(number), value: name };
        values.iter().find(|value| value.address == address).and_then(|value| value.tolerance.as_deref())
    };
    for place in &mut tried.elements {
        let longest = of(place.number, ValueName::NeckLength).map(|tolerance| (ValueName::NeckLength, tolerance.high));
        let shortest = of(place.number, ValueName::Length).map(|tolerance| (ValueName::Length, tolerance.low));
        for (name, to) in longest.into_iter().chain(shortest) {
            place.value_mut(name).into_iter().for_each(|own| *own = to);
        }
    }
    // What cannot be resolved is told of its element.
    resolve_path(&mut tried, &surroundings.electrical()).ok()?;
    let fault = tried.neck_fault()?;
    let number = tried.elements.get(tried.protector_index())?.number;
    let neck = Address { owner: Owner::Element(number), value: ValueName::NeckLength };
    let neck = values.iter().find(|value| value.address == neck)?;
    let varies = neck.tolerance.is_some();
    varies.then_some(()).or_else(|| of(tried.elements.get(fault.beside?)?.number, ValueName::Length).map(|_| ()))?;
    let span = neck.tolerance.as_ref().map_or(neck.span, |tolerance| tolerance.span);
    let message = format!("within its tolerances this element cannot be: {}", fault.message);
    let help = fault.most.map_or(fault.help, |most| {
        let own = if varies { ", its own tolerance included," } else { "" };
        format!("a neck of at most {most}{own} fits the shortest trace")
    });
    Some(Diagnostic::error("tolerance-corner", span, message).help(help))
}

/// At the tolerance of the value that shows it, or else at the first one.
fn error(flaw: &Flaw, varying: &[&AddressedValue]) -> Diagnostic {
    let named = flaw.place().name();
    let at = varying.iter().find(|value| Some(value.address.value.word()) == named).or(varying.first());
    let span = at.and_then(|value| value.tolerance.as_ref()).map(|tolerance| tolerance.span).unwrap_or_default();
    let message = format!("within its tolerances this element cannot be: {flaw}");
    Diagnostic::error("tolerance-corner", span, message).help(format!("state smaller tolerances: {}", flaw.cure()))
}
