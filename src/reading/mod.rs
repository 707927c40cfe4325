//! From the tree of a sheet to the port: names resolved, values in SI, every rule that takes more than one line.

mod addressed;
mod antenna;
mod bus;
mod chip;
mod context;
mod corners;
mod design;
mod ends;
mod feed;
mod findings;
mod flat;
mod geometry;
mod groups;
mod head;
mod laminate;
mod lane;
mod limits;
mod line;
mod lumped;
mod named_part;
mod names;
mod part;
mod path;
mod protector;
mod rail;
mod reader;
mod set;
mod slow_path;
mod stated;
mod stated_limit;
mod strength;
mod surroundings;
mod table;
mod transmission_line;
mod unaddressed;
mod unseen;
mod via;

pub(crate) use context::Context;
pub(crate) use findings::Findings;
pub(crate) use names::{name_line, unknown_name};
pub(crate) use reader::Reader;
pub use set::{Asked, NotSet, read_set};
pub(crate) use surroundings::Surroundings;
pub(crate) use unaddressed::{listed, without_address};

use crate::diag::{Diagnostic, Span};
use crate::model::Design;
use crate::sheet::schema::TOGETHER;
use crate::sheet::{Edit, Gathered, MAX_ERRORS, parse};

/// Reads the files of a sheet into what they describe.
///
/// # Errors
/// All errors of the sheet, in the order of their places, at most [`MAX_ERRORS`].
pub fn read(gathered: &Gathered) -> Result<Design, Vec<Diagnostic>> {
    edited(gathered, &[], &[], Addresses::All)
}

/// Of which sheets the values are kept by their addresses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Addresses {
    /// Of every one.
    All,
    /// Of those that may state a tolerance: a sheet of thousands of lines without one is read faster.
    Toleranced,
}

impl Addresses {
    /// Whether those of this sheet are kept.
    fn of(self, gathered: &Gathered) -> bool {
        let signs = ["±", "+-", TOGETHER];
        let files = &gathered.sources.files;
        self == Addresses::All || files.iter().any(|file| signs.iter().any(|sign| file.text.contains(sign)))
    }
}

/// The same of a sheet with some other numbers; lanes among `nyquist` are resolved at that frequency.
fn edited(
    gathered: &Gathered,
    edits: &[Edit],
    nyquist: &[(String, f64)],
    addresses: Addresses,
) -> Result<Design, Vec<Diagnostic>> {
    let mut errors = gathered.errors.clone();
    if errors.iter().any(|error| error.code == "not-utf8") {
        return Err(errors);
    }
    let mut sheets = Vec::new();
    let mut design = Design::default();
    for (index, source) in gathered.sources.files.iter().enumerate() {
        let (mut sheet, found) = parse(index as u32, &source.text);
        edits.iter().filter(|edit| edit.span.file == index as u32).for_each(|edit| sheet.edit(edit));
        sheets.push(sheet);
        errors.extend(found);
    }
    let incomplete = !gathered.errors.is_empty();
    if errors.len() < MAX_ERRORS {
        let (read, found) = {
            let context = Context {
                incomplete,
                addresses: addresses.of(gathered),
                nyquist: nyquist.iter().map(|(name, frequency)| (name.as_str(), *frequency)).collect(),
                ..Context::default()
            };
            design::lower(&sheets, &gathered.includes, context)
        };
        design = read;
        errors.extend(found);
    }
    if design.lines.is_empty() && errors.is_empty() {
        errors.push(
            Diagnostic::error("empty-sheet", Span::default(), "this sheet has no line")
                .help("add a `lane \"name\" { … }`; `lanecap starter` prints a sheet to begin from"),
        );
    }
    if errors.is_empty() {
        return Ok(design);
    }
    errors.sort_by_key(|error| error.primary.0);
    errors.truncate(MAX_ERRORS);
    Err(errors)
}
