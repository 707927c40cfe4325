//! The sheet named on the command line: a file, standard input, or the demonstration.

use std::io;

use super::{Failure, SheetArgs, SourceArgs};
use crate::diag::shorten;
use crate::load::{FileRead, SheetRead, load_with, read_bounded, read_root};
use crate::reading::{Addresses, Asked};

/// The sheet behind `--demo`.
const DEMO: &str = include_str!("../../fixtures/sheets/ok/demo.lanes");

/// Reads the sheet named on the command line.
///
/// # Errors
/// Why it cannot be read: missing, a folder, no permission, larger than 16 MiB.
pub fn read_sheet(args: &SourceArgs) -> Result<FileRead, String> {
    let Some(path) = &args.sheet else {
        return Ok(FileRead::without_path("demonstration", DEMO.as_bytes().to_vec()));
    };
    if path.as_os_str() == "-" {
        let bytes = read_bounded(io::stdin().lock()).map_err(|why| format!("cannot read standard input: {why}"))?;
        return Ok(FileRead::without_path("-", bytes));
    }
    read_root(path)
}

/// Reads and understands the sheet named on the command line.
///
/// # Errors
/// Where it cannot be read at all. Mistakes in it are among the diagnostics.
pub(super) fn load_sheet(args: &SheetArgs, addresses: Addresses) -> Result<SheetRead, Failure> {
    let set = args.set.iter().map(|text| text.parse().map_err(|why| refused(text, why)));
    let set = set.collect::<Result<Vec<Asked>, Failure>>()?;
    let root = read_sheet(&args.from).map_err(Failure::new)?;
    load_with(root, &set, addresses).map_err(|(text, why)| refused(&text, why))
}

/// Why a value of `--set` cannot stand.
fn refused(text: &str, (message, help): (String, Option<String>)) -> Failure {
    let failure = Failure::new(format!("--set \"{}\": {message}", shorten(text, 60)));
    Failure { help, ..failure }
}
