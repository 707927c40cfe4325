//! A sheet with the files it includes.

use super::ast::{ArgumentKind, Item};
use super::parse;
use crate::diag::{Diagnostic, SourceFile, Sources, Span};

/// A file as the caller read it.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// What tells this file from every other: its canonical path.
    pub identity: String,
    /// The name shown to the user.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Why a file could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadFault {
    /// What is wrong, e.g. `no such file`.
    pub message: String,
}

/// A sheet and its includes.
#[derive(Debug, Clone, Default)]
pub struct Gathered {
    /// The files; the sheet itself is the first.
    pub sources: Sources,
    /// Which file each include line brings, where it is the first to bring it: the span of its text, and the file.
    pub includes: Vec<(Span, u32)>,
    /// Errors of the includes.
    pub errors: Vec<Diagnostic>,
}

/// Reads `root` and everything it includes, each file once.
///
/// `load` is given the identity of the including file and the path as the include states it.
///
/// # Errors
/// A file that is missing, no file, too large or not UTF-8, and a cycle: each an error at its include line
/// (at its place for text that is not UTF-8).
pub fn gather(root: Loaded, load: &mut dyn FnMut(&str, &str) -> Result<Loaded, LoadFault>) -> Gathered {
    let mut gathered = Gathered::default();
    let mut identities: Vec<String> = Vec::new();
    let mut parents: Vec<Option<usize>> = Vec::new();
    add(&mut gathered, root, &mut identities);
    parents.push(None);
    let mut index = 0;
    while index < identities.len() {
        for (path, span) in include_lines(&gathered.sources.files[index], index as u32) {
            if gathered.sources.files.len() > MAX_FILES {
                gathered.errors.push(
                    Diagnostic::error("include-missing", span, format!("a sheet includes at most {MAX_FILES} files"))
                        .help("put several of them into one"),
                );
                return gathered;
            }
            let loaded = match load(&identities[index], &path) {
                Ok(loaded) => loaded,
                Err(fault) => {
                    let message = format!("cannot include `{path}`: {}", fault.message);
                    gathered.errors.push(
                        Diagnostic::error("include-missing", span, message)
                            .help("the path is relative to the file that includes it"),
                    );
                    continue;
                }
            };
            let mut ancestor = Some(index);
            while let Some(a) = ancestor {
                if identities[a] == loaded.identity {
                    gathered.errors.push(
                        Diagnostic::error(
                            "include-cycle",
                            span,
                            format!("`{path}` includes itself, by way of this line"),
                        )
                        .help("delete one of the includes of the circle"),
                    );
                    break;
                }
                ancestor = parents[a];
            }
            if identities.contains(&loaded.identity) {
                continue;
            }
            gathered.includes.push((span, identities.len() as u32));
            parents.push(Some(index));
            add(&mut gathered, loaded, &mut identities);
        }
        index += 1;
    }
    gathered
}

const MAX_FILES: usize = 256;

fn add(gathered: &mut Gathered, loaded: Loaded, identities: &mut Vec<String>) {
    let file = identities.len() as u32;
    identities.push(loaded.identity);
    let mut not_text = None;
    let text = String::from_utf8(loaded.bytes).unwrap_or_else(|error| {
        not_text = Some(error.utf8_error().valid_up_to() as u32);
        String::from_utf8_lossy(error.as_bytes()).into_owned()
    });
    if let Some(start) = not_text {
        let span = Span { file, start, end: start + '\u{fffd}'.len_utf8() as u32 };
        gathered
            .errors
            .push(Diagnostic::error("not-utf8", span, "this is not UTF-8 text").help("save the sheet as UTF-8"));
    }
    gathered.sources.files.push(SourceFile::new(loaded.name, text));
}

/// The include lines of a file: path and place.
fn include_lines(source: &SourceFile, file: u32) -> Vec<(String, Span)> {
    if !source.text.contains("include") {
        return Vec::new();
    }
    let (sheet, _) = parse(file, &source.text);
    let lines = sheet.items.iter().filter_map(|item| match item {
        Item::Row(line) if line.word.text == "include" => line.arguments.first(),
        _ => None,
    });
    lines
        .filter_map(|argument| match argument.kind {
            ArgumentKind::Text(text) => Some((text.to_owned(), argument.span)),
            _ => None,
        })
        .collect()
}
