//! What a line must not be, and where it is.

use std::error::Error;
use std::fmt;

/// Where a flaw is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Place {
    /// The line as a whole.
    Line,
    /// A value of the line, by its name.
    Field(&'static str),
    /// The limit of this index.
    Limit(usize),
    /// The element of this index, counted from the outer end.
    Element(usize),
    /// A value of that element, by the name of its field.
    Value(usize, &'static str),
}

/// Something a line must not be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flaw {
    /// Stable identifier in kebab case, the same as for a sheet.
    pub code: &'static str,
    /// Where it is.
    pub at: Place,
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// What to do about it.
    pub help: Option<String>,
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.message)?;
        match self.at {
            Place::Line | Place::Field(_) => {}
            Place::Limit(index) => write!(f, " (limit {})", index + 1)?,
            Place::Element(index) => write!(f, " (element {} of the path)", index + 1)?,
            Place::Value(index, name) => write!(f, " ({name} of element {} of the path)", index + 1)?,
        }
        self.help.iter().try_for_each(|help| write!(f, "; {help}"))
    }
}

/// Everything a line must not be and is; at least one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flaws {
    /// In the order of line, limits, elements.
    pub list: Vec<Flaw>,
}

impl fmt::Display for Flaws {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, flaw) in self.list.iter().enumerate() {
            write!(f, "{}{flaw}", if index > 0 { "\n" } else { "" })?;
        }
        Ok(())
    }
}

impl Error for Flaws {}
