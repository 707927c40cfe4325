//! The values for which a line holds with what is fitted.

use super::cautions::CAUTIONS;
use crate::model::{AddressedValue, Line};
use crate::study::Holding;

/// The values for which a line holds.
#[derive(Debug, Clone)]
pub struct RangeReport {
    /// Title of the sheet.
    pub title: Option<String>,
    /// Name of the line.
    pub line: String,
    /// The word of its kind.
    pub kind: &'static str,
    /// What is asked for.
    pub of: AddressedValue,
    /// What was found.
    pub found: Holding,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}

impl RangeReport {
    /// What was found of a value of a line.
    pub fn new(title: Option<String>, line: &Line, of: AddressedValue, found: Holding) -> RangeReport {
        let (name, kind) = (line.head.name.clone(), line.word());
        RangeReport { title, line: name, kind, of, found, cautions: CAUTIONS.to_vec() }
    }
}
