//! The elements of a whole path from what is stated of them.

use super::flaw::Flaw;
use super::line::line;
use super::protector::{guard, protector, settle_stubs};
use super::remark::{Remark, Resolved};
use super::surroundings::Surroundings;
use super::via::via;
use crate::model::{Element, Path, Stated};

/// An element from what is stated of it; `None` where that is the element itself.
///
/// # Errors
/// What is stated makes no such element.
pub fn element(stated: &Stated, surroundings: &Surroundings) -> Result<Option<Resolved<Element>>, Flaw> {
    fn some<T>(made: Resolved<T>, element: fn(T) -> Element) -> Option<Resolved<Element>> {
        Some(Resolved { value: element(made.value), remarks: made.remarks })
    }
    Ok(match stated {
        Stated::AsIs => None,
        Stated::Line(stated) => some(line(stated, surroundings)?, Element::Line),
        Stated::Protector(stated) => some(protector(stated, surroundings)?, Element::Protector),
        Stated::Guard(stated) => some(guard(stated, surroundings)?, Element::Guard),
        Stated::Via(stated) => some(via(stated, surroundings)?, Element::Via),
    })
}

/// Makes every element of a path anew from what is stated of it, as after a change of a stated value or of the
/// surroundings; gives the remarks, each with the number of its element.
///
/// # Errors
/// The first element that cannot be made, by its number; the path is then as it was.
pub fn path(path: &mut Path, surroundings: &Surroundings) -> Result<Vec<(usize, Remark)>, (usize, Flaw)> {
    let mut made = Vec::with_capacity(path.elements.len());
    for place in &path.elements {
        made.push(element(&place.stated, surroundings).map_err(|flaw| (place.number, flaw))?);
    }
    let mut remarks = Vec::new();
    for (place, made) in path.elements.iter_mut().zip(made) {
        let Some(Resolved { value, remarks: found }) = made else { continue };
        place.element = value;
        remarks.extend(found.into_iter().map(|remark| (place.number, remark)));
    }
    for (index, remark) in settle_stubs(path) {
        let number = path.elements.get(index).map_or(0, |place| place.number);
        remarks.push((number, remark));
    }
    Ok(remarks)
}
