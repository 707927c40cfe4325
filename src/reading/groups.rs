//! Groups of one row, whose name is likely misspelt.

use std::collections::BTreeMap;

use crate::diag::{Span, nearest, shorten};
use crate::model::{AddressedValue, Design, Note, Owner};
use crate::sheet::schema::TOGETHER;

/// A row of the sheet: the line whose element it is, and the address of the element or of the row.
type Row = (Option<usize>, String);

/// Warns where one row alone of the sheet is of a group, and another group has a name near to its own: at the first line of
/// which that row is.
pub(super) fn warn_of_groups_of_one(design: &mut Design) {
    let mut groups: BTreeMap<&str, BTreeMap<Row, (usize, Span)>> = BTreeMap::new();
    for (index, line) in design.lines.iter().enumerate() {
        for value in line.head.values.iter() {
            let Some(tolerance) = &value.tolerance else { continue };
            let Some(group) = &tolerance.together else { continue };
            groups.entry(group).or_default().entry(row(index, value)).or_insert((index, tolerance.span));
        }
    }
    let mut found = Vec::new();
    for (name, rows) in groups.iter().filter(|(_, rows)| rows.len() == 1) {
        let near = nearest(name, groups.keys().copied().filter(|other| other != name));
        let Some((near, (line, span))) = near.zip(rows.values().next()) else { continue };
        let [name, near] = [*name, near].map(|name| shorten(name, 60));
        let text = format!("`{TOGETHER} \"{name}\"` stands in one row alone: did you mean \"{near}\"?");
        found.push((*line, Note { code: "group-of-one", text, span: Some(*span) }));
    }
    for (line, note) in found {
        design.lines.get_mut(line).into_iter().for_each(|line| line.head.warnings.push(note.clone()));
    }
}

fn row(line: usize, value: &AddressedValue) -> Row {
    match &value.address.owner {
        Owner::Element(number) => (Some(line), number.to_string()),
        _ => (None, value.address.to_string()),
    }
}
