//! Results: to standard output, or to a file that is replaced whole or not at all.

use std::fs::{File, Metadata, OpenOptions, Permissions};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::{fs, io};

use super::Failure;
use super::replace::{folder, plain, replace, write_all};
use crate::load::{reason, shown};

/// Links that are followed before they count as a circle.
const MOST_LINKS: usize = 40;

/// A place for the result, found writable.
#[derive(Debug)]
pub struct Output {
    /// The name given, for messages.
    name: String,
    target: Target,
}

#[derive(Debug)]
enum Target {
    Stdout,
    /// A pipe or device, written as it is.
    Direct(File),
    /// A file that will be replaced, and the permissions it has where it is there already.
    Replace {
        path: PathBuf,
        permissions: Option<Permissions>,
    },
}

impl Output {
    /// Opens standard output (`-` or nothing), or the file named, without touching what it holds. Links are followed.
    ///
    /// # Errors
    /// Why nothing can be written there: a folder, one that does not exist or is read-only, no permission.
    pub fn open(path: Option<&Path>) -> Result<Output, Failure> {
        let Some(path) = path.filter(|path| *path != Path::new("-")) else {
            return Ok(Output { name: "standard output".to_owned(), target: Target::Stdout });
        };
        let name = shown(path);
        match target(path) {
            Ok(target) => Ok(Output { name, target }),
            Err(why) => Err(cannot_write(&name, &why)),
        }
    }

    /// Refuses to replace a file that the result was made from.
    ///
    /// # Errors
    /// Where the target is one of `inputs`, canonical paths.
    pub fn spare(&self, inputs: &[String]) -> Result<(), Failure> {
        let Target::Replace { path, .. } = &self.target else {
            return Ok(());
        };
        let Ok(path) = fs::canonicalize(path) else {
            return Ok(());
        };
        if inputs.iter().any(|input| path == Path::new(input)) {
            return Err(cannot_write(&self.name, "it is the sheet itself").help("give another file after -o"));
        }
        Ok(())
    }

    /// Writes the whole result.
    ///
    /// # Errors
    /// Why it could not be written, a reader that has gone away included; a file that was to be replaced is then as it was.
    pub fn write(self, text: &str) -> Result<(), Failure> {
        self.write_bytes(text.as_bytes())
    }

    /// The same for what is not text.
    ///
    /// # Errors
    /// As [`Output::write`].
    pub fn write_bytes(self, bytes: &[u8]) -> Result<(), Failure> {
        let written = match self.target {
            Target::Stdout => write_all(&mut io::stdout().lock(), bytes),
            Target::Direct(mut file) => write_all(&mut file, bytes),
            Target::Replace { path, permissions } => replace(&path, permissions, bytes),
        };
        written.map_err(|error| cannot_write(&self.name, &reason(&error)))
    }
}

fn cannot_write(name: &str, why: &str) -> Failure {
    Failure::new(format!("cannot write {name}: {why}"))
}

fn target(path: &Path) -> Result<Target, String> {
    if [Path::new("/dev/stdout"), Path::new("/dev/fd/1"), Path::new("/proc/self/fd/1")].contains(&path) {
        return Ok(Target::Stdout);
    }
    let device = path.starts_with("/dev/fd") || path.starts_with("/proc") || path == Path::new("/dev/stderr");
    match fs::metadata(path) {
        Ok(metadata) if metadata.is_dir() => Err("it is a folder, not a file".to_owned()),
        Ok(metadata) if device || !metadata.is_file() => {
            let file = OpenOptions::new().append(true).open(path).map_err(|error| reason(&error))?;
            Ok(Target::Direct(file))
        }
        Ok(metadata) => {
            let path = fs::canonicalize(path).map_err(|error| reason(&error))?;
            // Opened and closed again: a read-only file is not replaced.
            OpenOptions::new().write(true).open(&path).map_err(|error| reason(&error))?;
            replaceable(path, Some(&metadata))
        }
        Err(error) if error.kind() == ErrorKind::NotFound => replaceable(end_of_links(path)?, None),
        Err(error) => Err(reason(&error)),
    }
}

/// Where links that end at no file yet lead to.
fn end_of_links(path: &Path) -> Result<PathBuf, String> {
    let mut path = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&path) {
            Ok(next) => path = path.parent().unwrap_or(Path::new("")).join(next),
            Err(_) => return Ok(path),
        }
    }
    Err("its links lead in a circle".to_owned())
}

/// Finds out whether a new file may take the place of `path`, by one without a name: a run that is killed at its work
/// leaves nothing behind.
fn replaceable(path: PathBuf, old: Option<&Metadata>) -> Result<Target, String> {
    if path.as_os_str().to_string_lossy().ends_with('/') || path.file_name().is_none() {
        return Err("it is the name of a folder".to_owned());
    }
    let folder = folder(&path);
    tempfile::tempfile_in(folder).map_err(|error| match error.kind() {
        ErrorKind::NotFound => format!("there is no folder {}", shown(folder)),
        ErrorKind::PermissionDenied => format!("no permission to write into the folder {}", shown(folder)),
        _ => reason(&plain(&error)),
    })?;
    Ok(Target::Replace { path, permissions: old.map(Metadata::permissions) })
}
