//! All that is said about a sheet, as an error of the library.

use std::error::Error;
use std::fmt;

use super::render::{Paint, render};
use super::{Diagnostic, Sources};

/// What is said about a sheet, with the files it speaks of.
///
/// Its text is what `lanecap check` prints without colour: each diagnostic with its lines of the sheet and its cure,
/// ended by an empty line. No control or direction character of the sheet reaches it.
#[derive(Debug, Clone, Default)]
pub struct Diagnostics {
    /// The files.
    pub sources: Sources,
    /// What is said, in the order of the places.
    pub list: Vec<Diagnostic>,
}

impl fmt::Display for Diagnostics {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.list.iter().try_for_each(|diagnostic| f.write_str(&render(&self.sources, diagnostic, Paint::Plain)))
    }
}

impl Error for Diagnostics {}
