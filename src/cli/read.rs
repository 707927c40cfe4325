//! Reading sheets: whole, of bounded size, and with a reason where that fails.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::{fs, io};

use super::SheetArgs;
use crate::diag::inert;
use crate::sheet::{Loaded, MAX_BYTES};

/// The sheet behind `--demo`.
const DEMO: &str = include_str!("../../fixtures/sheets/ok/demo.lanes");

/// A file of a sheet, and the folder its includes start from.
#[derive(Debug, Clone)]
pub struct FileRead {
    /// Its bytes, its name (standard input is `-`) and its canonical path.
    pub file: Loaded,
    /// Where its includes are looked for; empty is the current directory.
    pub folder: PathBuf,
}

impl FileRead {
    /// Text that comes from no file.
    fn without_path(name: &str, bytes: Vec<u8>) -> FileRead {
        FileRead { file: Loaded { identity: name.to_owned(), name: name.to_owned(), bytes }, folder: PathBuf::new() }
    }
}

/// Reads the sheet named on the command line.
///
/// # Errors
/// Why it cannot be read: missing, a folder, no permission, larger than 16 MiB.
pub fn read_sheet(args: &SheetArgs) -> Result<FileRead, String> {
    let Some(path) = &args.sheet else {
        return Ok(FileRead::without_path("demonstration", DEMO.as_bytes().to_vec()));
    };
    if path.as_os_str() == "-" {
        let bytes = read_bounded(io::stdin().lock()).map_err(|why| format!("cannot read standard input: {why}"))?;
        return Ok(FileRead::without_path("-", bytes));
    }
    read_file(path, false).map_err(|why| format!("cannot read {}: {why}", shown(path)))
}

/// Reads the file that a file of `folder` includes as `path`.
///
/// # Errors
/// Why it cannot be read, in words that fit an error at the place of the include: missing, a folder, no regular file,
/// no permission, larger than 16 MiB.
pub fn read_include(folder: &Path, path: &str) -> Result<FileRead, String> {
    if path.is_empty() {
        return Err("the name of the file is empty".to_owned());
    }
    let path = folder.join(path);
    read_file(&path, true).map_err(|why| format!("cannot read {}: {why}", shown(&path)))
}

fn read_file(path: &Path, regular: bool) -> Result<FileRead, String> {
    let metadata = fs::metadata(path).map_err(|error| reason(&error))?;
    if metadata.is_dir() {
        return Err("it is a folder, not a file".to_owned());
    }
    if regular && !metadata.is_file() {
        return Err("it is no regular file".to_owned());
    }
    let file = File::open(path).map_err(|error| reason(&error))?;
    let bytes = read_bounded(file)?;
    let identity = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    Ok(FileRead {
        file: Loaded { identity: identity.to_string_lossy().into_owned(), name: shown(path), bytes },
        folder: path.parent().map(Path::to_owned).unwrap_or_default(),
    })
}

fn read_bounded(from: impl Read) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    from.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() > MAX_BYTES {
        return Err("it is larger than 16 MiB".to_owned());
    }
    Ok(bytes)
}

/// A path as it is shown.
pub(super) fn shown(path: &Path) -> String {
    inert(&path.to_string_lossy())
}

/// Why the system refused, in plain words.
pub(super) fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
        io::ErrorKind::NotADirectory => "a part of the path is a file, not a folder".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder, not a file".to_owned(),
        io::ErrorKind::StorageFull => "no space left on the device".to_owned(),
        _ => error.to_string(),
    }
}
