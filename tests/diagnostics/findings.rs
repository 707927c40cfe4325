//! The inputs that the fuzzer (tests/fuzz) once stopped at, read and computed as its targets do, and its dictionary.

use std::collections::BTreeSet;
use std::path::Path;

use lanecap::budget::Figures;
use lanecap::diag::{Diagnostic, Paint, Sources};
use lanecap::figures::limited;
use lanecap::reading;
use lanecap::result::size;
use lanecap::sheet::schema::{BLOCKS, Form, argument_words};
use lanecap::sheet::{Gathered, LoadFault, Loaded, gather};
use lanecap::text::{Format, render};

use crate::support::root;

/// What separates the files of an input: the first is the sheet, and `include "1"` is the second.
const SEPARATOR: u8 = 0x1c;

fn gathered(data: &[u8]) -> Gathered {
    let files: Vec<&[u8]> = data.split(|byte| *byte == SEPARATOR).collect();
    let fault = || LoadFault { message: "no such file".into() };
    let load = |index: usize| {
        let bytes = files.get(index).ok_or_else(fault)?.to_vec();
        Ok(Loaded { identity: index.to_string(), name: format!("{index}.lanes"), bytes })
    };
    gather(load(0).unwrap(), &mut |_, path| load(path.parse().map_err(|_| fault())?))
}

fn show(sources: &Sources, diagnostics: &[Diagnostic], what: &Path) {
    assert!(!diagnostics.is_empty(), "{}", what.display());
    for diagnostic in diagnostics {
        let text = lanecap::diag::render(sources, diagnostic, Paint::Plain);
        assert!(text.ends_with("\n\n"), "{}: {text:?}", what.display());
        assert!(!text.contains(|c: char| c.is_control() && c != '\n'), "{}: {text:?}", what.display());
    }
}

#[test]
fn what_the_fuzzer_found_ends_in_a_message_or_a_result() {
    let mut seen = 0;
    for entry in std::fs::read_dir(root().join("tests/fuzz/findings")).unwrap() {
        let path = entry.unwrap().path();
        seen += 1;
        let gathered = gathered(&std::fs::read(&path).unwrap());
        let port = match reading::read(&gathered) {
            Ok(port) => port,
            Err(errors) => {
                show(&gathered.sources, &errors, &path);
                continue;
            }
        };
        let all: Vec<usize> = (0..port.names().len()).collect();
        match size(&port, &all, Figures::Nyquist, &gathered.sources, &|| ()) {
            Ok(report) => {
                for format in [Format::Json, Format::Table, Format::Csv, Format::Markdown] {
                    assert!(!render(&report, format).contains("NaN"), "{}", path.display());
                }
            }
            Err(errors) => show(&gathered.sources, &errors, &path),
        }
    }
    assert!(seen > 0);
}

#[test]
fn the_dictionary_of_the_fuzzer_is_the_word_table() {
    let mut words = BTreeSet::new();
    for row in BLOCKS.iter().flat_map(|block| block.lines) {
        words.insert(row.word);
        if let Form::Arguments { slots, .. } = row.form {
            words.extend(slots.iter().map(|slot| slot.kind.dimension.example()));
        }
    }
    for (figure, limit) in limited() {
        words.extend([limit.word, figure.range.dimension.example()]);
    }
    words.extend(argument_words());
    words.extend(["<=", ">=", "{", "}", ";", "±", "outward", "below", "until", "1e400", "0.3", "-1"]);
    let lines: Vec<String> = words
        .iter()
        .filter(|word| !word.is_empty() && !word.contains(char::is_whitespace))
        .map(|word| quoted(word))
        .collect();
    let wanted =
        format!("# Made from src/sheet/schema by `UPDATE_DOCS=1 cargo test dictionary`.\n{}\n", lines.join("\n"));
    let path = root().join("tests/fuzz/words.dict");
    if std::env::var_os("UPDATE_DOCS").is_some() {
        std::fs::write(&path, wanted).unwrap();
        return;
    }
    let held = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(held == wanted, "tests/fuzz/words.dict is stale: run UPDATE_DOCS=1 cargo test dictionary");
}

/// A word as libFuzzer takes it: in quotes, what is not ASCII by its bytes.
fn quoted(word: &str) -> String {
    let byte = |b: u8| if b.is_ascii_graphic() { char::from(b).to_string() } else { format!("\\x{b:02X}") };
    format!("\"{}\"", word.bytes().map(byte).collect::<String>())
}
