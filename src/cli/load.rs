//! From the command line to a port.

use super::read::{FileText, Origin, read_sheet};
use super::{Failure, SheetArgs};
use crate::diag::{Diagnostic, Severity, SourceFile, Sources};
use crate::model::Port;

/// A sheet as it was read.
#[derive(Debug)]
pub struct Loaded {
    /// Its files.
    pub sources: Sources,
    /// What is to be said of it.
    pub diagnostics: Vec<Diagnostic>,
    /// What it describes; `None` where it has errors.
    pub port: Option<Port>,
    /// Where it was read from.
    pub origin: Origin,
}

impl Loaded {
    /// How many diagnostics there are of this severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.diagnostics
            .iter()
            .filter(|diagnostic| diagnostic.severity == severity)
            .count()
    }
}

/// Reads and understands the sheet named on the command line.
///
/// # Errors
/// Where it cannot be read at all. Mistakes in it are among the diagnostics.
pub fn load(args: &SheetArgs) -> Result<Loaded, Failure> {
    let root = read_sheet(args).map_err(Failure::new)?;
    let origin = root.origin.clone();
    if let Some(error) = root.utf8_error(0) {
        return Ok(Loaded {
            sources: Sources {
                files: vec![SourceFile::new(root.name, root.text)],
            },
            diagnostics: vec![error],
            port: None,
            origin,
        });
    }
    understand(root)
}

/// Parses the sheet and lowers it to a port, reading its includes on the way.
fn understand(root: FileText) -> Result<Loaded, Failure> {
    Err(Failure::new(format!("{} cannot be understood yet", root.name)))
}
