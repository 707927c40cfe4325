//! Sheets read from files: whole, of bounded size, with what they include, and with a reason where that fails.

use std::collections::HashMap;
use std::error::Error;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::{fmt, fs, io};

use crate::diag::{Diagnostic, Diagnostics, Severity, Sources, inert};
use crate::model::Design;
use crate::reading::{self, Addresses, Asked, NotSet};
use crate::sheet::{Gathered, LoadFault, Loaded, MAX_BYTES, gather};

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
    pub fn without_path(name: &str, bytes: Vec<u8>) -> FileRead {
        FileRead { file: Loaded { identity: name.to_owned(), name: name.to_owned(), bytes }, folder: PathBuf::new() }
    }
}

/// A sheet as it was read.
#[derive(Debug)]
pub struct SheetRead {
    /// Its files.
    pub sources: Sources,
    /// Its errors; where it has none, its warnings.
    pub diagnostics: Vec<Diagnostic>,
    /// What it describes; `None` where it has errors.
    pub design: Option<Design>,
    /// The canonical paths of its files.
    pub identities: Vec<String>,
}

impl SheetRead {
    fn new(gathered: Gathered, identities: Vec<String>, read: Result<Design, Vec<Diagnostic>>) -> SheetRead {
        let (diagnostics, design) = match read {
            Ok(design) => (design.warnings(), Some(design)),
            Err(errors) => (errors, None),
        };
        SheetRead { sources: gathered.sources, diagnostics, design, identities }
    }

    /// How many diagnostics there are of this severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.diagnostics.iter().filter(|diagnostic| diagnostic.severity == severity).count()
    }
}

/// Why a sheet gave no design.
///
/// Its text is what `lanecap check` says on standard error, without colour.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub enum ReadError {
    /// The file cannot be read, and why.
    File(String),
    /// The sheet has errors.
    Sheet(Diagnostics),
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadError::File(why) => writeln!(f, "error: {why}"),
            ReadError::Sheet(errors) => errors.fmt(f),
        }
    }
}

impl Error for ReadError {}

impl Design {
    /// What a sheet held in a text describes. It includes no file: [`Design::read`] does.
    ///
    /// # Errors
    /// All errors of the sheet; in their text it goes by the name `-`, as standard input does.
    pub fn parse(text: &str) -> Result<Design, Diagnostics> {
        let root = FileRead::without_path("-", text.as_bytes().to_vec());
        let mut gathered = gather(root.file, &mut |_, _| {
            Err(LoadFault { message: "a sheet that is no file itself includes none".to_owned() })
        });
        for error in &mut gathered.errors {
            error.help = Some("read the sheet from its file with `Design::read`, or put the blocks into it".to_owned());
        }
        understand(gathered)
    }

    /// What the sheet in a file describes, with the files it includes.
    ///
    /// # Errors
    /// A file that cannot be read or is larger than 16 MiB; all errors of the sheet.
    pub fn read(path: impl AsRef<Path>) -> Result<Design, ReadError> {
        let root = read_root(path.as_ref()).map_err(ReadError::File)?;
        understand(gather_files(root).0).map_err(ReadError::Sheet)
    }
}

fn understand(gathered: Gathered) -> Result<Design, Diagnostics> {
    reading::read(&gathered).map_err(|list| Diagnostics { sources: gathered.sources, list })
}

/// Understands a sheet, with the files it includes.
pub fn load(root: FileRead) -> SheetRead {
    let (gathered, identities) = gather_files(root);
    let read = reading::read(&gathered);
    SheetRead::new(gathered, identities, read)
}

/// Understands a sheet, with the files it includes, as if it stated these values.
///
/// # Errors
/// A value that cannot stand: what was asked, what is wrong, and its cure.
pub fn load_with(
    root: FileRead,
    asked: &[Asked],
    addresses: Addresses,
) -> Result<SheetRead, (String, (String, Option<String>))> {
    let (gathered, identities) = gather_files(root);
    let read = match reading::read_set(&gathered, asked, addresses) {
        Ok(design) => Ok(design),
        Err(NotSet::Sheet(errors)) => Err(errors),
        Err(NotSet::Asked(text, message, help)) => return Err((text, (message, help))),
    };
    Ok(SheetRead::new(gathered, identities, read))
}

/// A sheet with the files it includes, and their canonical paths.
fn gather_files(root: FileRead) -> (Gathered, Vec<String>) {
    let mut folders = HashMap::from([(root.file.identity.clone(), root.folder)]);
    let gathered = gather(root.file, &mut |from, path| {
        let folder = folders.get(from).cloned().unwrap_or_default();
        let included = read_include(&folder, path).map_err(|message| LoadFault { message })?;
        folders.insert(included.file.identity.clone(), included.folder);
        Ok(included.file)
    });
    (gathered, folders.into_keys().collect())
}

/// Reads the file of a sheet.
///
/// # Errors
/// Why it cannot be read: missing, a folder, no permission, larger than 16 MiB.
pub fn read_root(path: &Path) -> Result<FileRead, String> {
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

/// All there is to read, at most 16 MiB.
///
/// # Errors
/// Why it cannot be read.
pub fn read_bounded(from: impl Read) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    from.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() > MAX_BYTES {
        return Err("it is larger than 16 MiB".to_owned());
    }
    Ok(bytes)
}

/// A path as it is shown.
pub(crate) fn shown(path: &Path) -> String {
    inert(&path.to_string_lossy())
}

/// Why the system refused, in plain words.
pub(crate) fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
        io::ErrorKind::NotADirectory => "a part of the path is a file, not a folder".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder, not a file".to_owned(),
        io::ErrorKind::BrokenPipe => "its reader has gone away".to_owned(),
        io::ErrorKind::StorageFull => "no space left on the device".to_owned(),
        _ => error.to_string(),
    }
}
