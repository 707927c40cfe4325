//! The values for which a line holds with what is fitted.

use super::cautions::CAUTIONS;
use crate::model::{AddressedValue, Design, Line, SetValue};
use crate::study::Holding;

/// The values for which a line holds.
#[derive(Debug, Clone)]
pub struct RangeReport {
    /// Title of the sheet.
    pub title: Option<String>,
    /// The values that are others than the sheet's.
    pub set: Vec<SetValue>,
    /// Name of the line.
    pub line: String,
    /// The word of its kind.
    pub kind: &'static str,
    /// Whether a value of the line states a `±`, of which nothing is asked here.
    pub toleranced: bool,
    /// What is asked for.
    pub of: AddressedValue,
    /// What was found.
    pub found: Holding,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}

impl RangeReport {
    /// What was found of a value of a line of a design.
    pub fn new(design: &Design, line: &Line, of: AddressedValue, found: Holding) -> RangeReport {
        RangeReport {
            title: design.title.clone(),
            set: design.set.clone(),
            line: line.head.name.clone(),
            kind: line.word(),
            toleranced: line.head.has_tolerance(),
            of,
            found,
            cautions: CAUTIONS.to_vec(),
        }
    }
}
