//! What the values of lines do to their budgets.

use super::cautions::CAUTIONS;
use super::many::{LineDone, chosen, each_line};
use crate::budget::not_computable;
use crate::diag::Diagnostic;
use crate::model::{Design, Line, SetValue};
use crate::study::{Sensitivity, elements};

/// What the values of the lines of a port do.
#[derive(Debug, Clone)]
pub struct SensitivityReport {
    /// Title of the sheet.
    pub title: Option<String>,
    /// The values that are others than the sheet's.
    pub set: Vec<SetValue>,
    /// The lanes, feeds and buses, kind by kind; rails have no budget.
    pub lines: Vec<SensitiveLine>,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}

/// A line with what its values do.
#[derive(Debug, Clone)]
pub struct SensitiveLine {
    /// Its name.
    pub name: String,
    /// The word of its kind.
    pub kind: &'static str,
    /// The word of each element of its path, with its number.
    pub elements: Vec<(usize, &'static str)>,
    /// What was found.
    pub found: Sensitivity,
}

/// The lines at these places of [`Design::lines`].
///
/// # Errors
/// The lines whose numbers go beyond what can be computed.
pub fn sensitivity(
    design: &Design,
    indices: &[usize],
    done: LineDone<'_>,
) -> Result<SensitivityReport, Vec<Diagnostic>> {
    let lines = each_line(&chosen(design, indices), |line| {
        let found = sensitive(line);
        done();
        found
    })?;
    Ok(SensitivityReport {
        title: design.title.clone(),
        set: design.set.clone(),
        lines: lines.into_iter().flatten().collect(),
        cautions: CAUTIONS.to_vec(),
    })
}

fn sensitive(line: &Line) -> Result<Option<SensitiveLine>, Box<Diagnostic>> {
    let found = Sensitivity::of(line).map_err(|fault| not_computable(line, fault))?;
    Ok(found.map(|found| SensitiveLine {
        name: line.head.name.clone(),
        kind: line.word(),
        elements: elements(line),
        found,
    }))
}
