//! From the command line to what a sheet describes.

use std::collections::HashMap;

use super::read::{read_include, read_sheet};
use super::{Failure, SheetArgs};
use crate::diag::{Diagnostic, Severity, Sources};
use crate::model::Design;
use crate::reading;
use crate::sheet::{LoadFault, gather};

/// A sheet as it was read.
#[derive(Debug)]
pub struct Loaded {
    /// Its files.
    pub sources: Sources,
    /// Its errors; where it has none, its warnings.
    pub diagnostics: Vec<Diagnostic>,
    /// What it describes; `None` where it has errors.
    pub design: Option<Design>,
    /// The canonical paths of its files.
    pub identities: Vec<String>,
}

impl Loaded {
    /// How many diagnostics there are of this severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.diagnostics.iter().filter(|diagnostic| diagnostic.severity == severity).count()
    }
}

/// Reads and understands the sheet named on the command line.
///
/// # Errors
/// Where it cannot be read at all. Mistakes in it are among the diagnostics.
pub fn load(args: &SheetArgs) -> Result<Loaded, Failure> {
    let root = read_sheet(args).map_err(Failure::new)?;
    let mut folders = HashMap::from([(root.file.identity.clone(), root.folder)]);
    let gathered = gather(root.file, &mut |from, path| {
        let folder = folders.get(from).cloned().unwrap_or_default();
        let included = read_include(&folder, path).map_err(|message| LoadFault { message })?;
        folders.insert(included.file.identity.clone(), included.folder);
        Ok(included.file)
    });
    let identities = folders.into_keys().collect();
    let (diagnostics, design) = match reading::read(&gathered) {
        Ok(design) => (warnings(&design), Some(design)),
        Err(errors) => (errors, None),
    };
    Ok(Loaded { sources: gathered.sources, diagnostics, design, identities })
}

/// The warnings of a sheet, in the order of their places.
fn warnings(design: &Design) -> Vec<Diagnostic> {
    let heads = design.lines.iter().map(|line| &line.head);
    let notes = heads.flat_map(|head| head.warnings.iter().map(move |note| (head.span, note)));
    let mut warnings: Vec<Diagnostic> = notes
        .map(|(line, note)| Diagnostic {
            severity: Severity::Warning,
            ..Diagnostic::error(note.code, note.span.unwrap_or(line), note.text.clone())
        })
        .collect();
    warnings.sort_by_key(|warning| warning.primary.0);
    warnings
}
