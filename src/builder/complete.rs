//! What follows from stated values, with the remarks of a sheet.

use crate::model::{Bus, Flaw, Flaws, Head, Line, Path, Place};
use crate::resolve::{self, Remark, Surroundings, part_on_line, within_rails};

/// Makes the elements of a path of what is stated of them; gives the head of their line with the remarks.
///
/// `line` is the line as yet without them: what is stated is in its ranges before anything is made of it.
pub(super) fn complete(path: &mut Path, line: Line) -> Result<Head, Flaws> {
    let Some(surroundings) = Surroundings::of(&line) else { return Ok(line.head) };
    let remarks = resolve::path(path, &surroundings).map_err(|(number, why)| {
        let index = number - 1;
        flaws(&why, why.place().name().map_or(Place::Element(index), |name| Place::Value(index, name)))
    })?;
    Ok(noted(line.head, remarks.into_iter().map(|(_, remark)| remark)))
}

/// Gives a bus the worst capacitance of its part.
pub(super) fn fit(bus: &mut Bus, head: Head) -> Result<Head, Flaws> {
    let Some(part) = &bus.part else { return Ok(head) };
    let worst = within_rails(part, head.voltage).and_then(|()| part_on_line(part, false, head.voltage));
    let worst = worst.map_err(|why| flaws(&why, Place::Field("part")))?;
    bus.fitted = Some(worst.value.capacitance);
    Ok(noted(head, worst.remarks))
}

fn noted(mut head: Head, remarks: impl IntoIterator<Item = Remark>) -> Head {
    for remark in remarks {
        let list = if remark.is_warning() { &mut head.warnings } else { &mut head.defaults };
        list.push(remark.note(None));
    }
    head
}

fn flaws(why: &resolve::Flaw, at: Place) -> Flaws {
    Flaws { list: vec![Flaw { code: why.code(), at, message: why.to_string(), help: Some(why.cure().to_owned()) }] }
}
