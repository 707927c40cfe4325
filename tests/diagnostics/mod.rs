//! Every diagnostic has its fixture, and every faulty fixture exactly its diagnostic.

mod mutations;

use std::collections::BTreeSet;

use crate::support::{files, read_file};

#[test]
fn each_faulty_fixture_has_the_one_error_it_is_named_for() {
    let mut wrong = Vec::new();
    for path in files("fixtures/sheets/err", "lanes") {
        let expected = path.file_stem().unwrap().to_string_lossy().into_owned();
        let found: Vec<_> = match read_file(&path).1 {
            Ok(_) => Vec::new(),
            Err(errors) => errors.iter().map(|e| format!("{}: {}", e.code, e.message)).collect(),
        };
        if found.len() != 1 || !found[0].starts_with(&format!("{expected}: ")) {
            wrong.push(format!("{expected}: {found:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn each_code_in_the_source_has_a_fixture() {
    let fixtures: BTreeSet<String> = files("fixtures/sheets/err", "lanes")
        .iter()
        .map(|path| path.file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    let mut missing = BTreeSet::new();
    for path in files("src/sheet", "rs").into_iter().chain(files("src/model", "rs")) {
        let text = std::fs::read_to_string(&path).unwrap();
        for (at, _) in text.match_indices("Diagnostic::error(") {
            let code = text[at..].split('"').nth(1).unwrap_or_default().to_owned();
            let literal = text[at + "Diagnostic::error(".len()..].trim_start().starts_with('"');
            if literal && !fixtures.contains(&code) {
                missing.insert(code);
            }
        }
    }
    assert!(missing.is_empty(), "codes without a fixture: {missing:?}");
}
