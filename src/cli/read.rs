//! Reading sheets: whole, of bounded size, and with a reason where that fails.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::SheetArgs;
use crate::diag::{Diagnostic, Span, inert};

/// Largest sheet, in bytes.
pub const LARGEST: u64 = 16 << 20;

/// The sheet behind `--demo`.
const DEMO: &str = include_str!("../../fixtures/sheets/ok/demo.lanes");

/// The text of one file of a sheet, and where it comes from.
#[derive(Debug, Clone)]
pub struct FileText {
    /// The name shown to the user; standard input is `-`.
    pub name: String,
    /// The text; bytes that are not UTF-8 are replaced.
    pub text: String,
    /// Where its includes are looked for, and which file it is.
    pub origin: Origin,
    /// The first byte that is not UTF-8.
    pub not_utf8: Option<u32>,
}

/// Where a text comes from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Origin {
    /// The folder that relative includes start from; empty is the current directory.
    pub folder: PathBuf,
    /// The canonical path: equal for two names of one file. `None` for standard input and the demonstration.
    pub identity: Option<PathBuf>,
}

impl FileText {
    /// The error that says where the text is not UTF-8; `file` is the text's index among the sources.
    pub fn utf8_error(&self, file: u32) -> Option<Diagnostic> {
        let start = self.not_utf8?;
        // The replacement character that now stands there.
        let end = start + '\u{fffd}'.len_utf8() as u32;
        let error = Diagnostic::error("not-utf8", Span { file, start, end }, "the file is not valid UTF-8");
        Some(error.label("this byte").help("save the sheet with the encoding UTF-8"))
    }

    fn new(name: String, bytes: Vec<u8>, origin: Origin) -> FileText {
        let (text, not_utf8) = match String::from_utf8(bytes) {
            Ok(text) => (text, None),
            Err(error) => {
                let valid = error.utf8_error().valid_up_to();
                (
                    String::from_utf8_lossy(error.as_bytes()).into_owned(),
                    Some(valid as u32),
                )
            }
        };
        FileText {
            name,
            text,
            origin,
            not_utf8,
        }
    }
}

/// Reads the sheet named on the command line.
///
/// # Errors
/// Why it cannot be read: missing, a folder, no permission, larger than 16 MiB.
pub fn read_sheet(args: &SheetArgs) -> Result<FileText, String> {
    let Some(path) = &args.sheet else {
        let bytes = DEMO.as_bytes().to_vec();
        return Ok(FileText::new("demonstration".to_owned(), bytes, Origin::default()));
    };
    if path.as_os_str() == "-" {
        let bytes = read_bounded(io::stdin().lock()).map_err(|why| format!("cannot read standard input: {why}"))?;
        return Ok(FileText::new("-".to_owned(), bytes, Origin::default()));
    }
    read_file(path, false).map_err(|why| format!("cannot read {}: {why}", shown(path)))
}

/// Reads the file that the text of `from` includes as `path`.
///
/// # Errors
/// Why it cannot be read, in words that fit an error at the place of the include: missing, a folder, no regular file,
/// no permission, larger than 16 MiB.
pub fn read_include(from: &Origin, path: &str) -> Result<FileText, String> {
    if path.is_empty() {
        return Err("the name of the file is empty".to_owned());
    }
    let path = from.folder.join(path);
    read_file(&path, true).map_err(|why| format!("cannot read {}: {why}", shown(&path)))
}

fn read_file(path: &Path, regular: bool) -> Result<FileText, String> {
    let metadata = fs::metadata(path).map_err(|error| reason(&error))?;
    if metadata.is_dir() {
        return Err("it is a folder, not a file".to_owned());
    }
    if regular && !metadata.is_file() {
        return Err("it is no regular file".to_owned());
    }
    let file = File::open(path).map_err(|error| reason(&error))?;
    let bytes = read_bounded(file)?;
    let origin = Origin {
        folder: path.parent().map(Path::to_owned).unwrap_or_default(),
        identity: fs::canonicalize(path).ok(),
    };
    Ok(FileText::new(shown(path), bytes, origin))
}

fn read_bounded(from: impl Read) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    from.take(LARGEST + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| reason(&error))?;
    if bytes.len() as u64 > LARGEST {
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
