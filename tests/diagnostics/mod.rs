//! Every diagnostic has its fixture, and every faulty fixture exactly its diagnostic.

mod defaults;
mod discharge;
mod findings;
mod hints;
mod mutations;
mod pieces;
mod random_pieces;
mod rows;
mod unseen;

use std::collections::BTreeSet;

use crate::support::{files, read_file, read_text};
use lanecap::budget::Figures;
use lanecap::result::size;

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
fn a_word_in_the_place_of_a_value_is_told_what_belongs_there() {
    let cures = |line: &str| -> Vec<(String, Option<String>)> {
        let text =
            format!("lane \"a\" {{ rate 5 Gb/s nrz; {line}\npath {{ driver 50 ohm; protector; receiver 50 ohm }} }}");
        let errors = read_text(&text).1.unwrap_err();
        errors.into_iter().map(|e| (e.message, e.help)).collect()
    };
    let told = |message: &str, help: &str| vec![(message.to_owned(), Some(help.to_owned()))];
    assert_eq!(
        cures("reference fifty"),
        told("expected a resistance after `reference`, but found the word `fifty`", "e.g. `reference 50 ohm`")
    );
    assert_eq!(cures("reference"), told("`reference` needs a resistance", "e.g. `reference 50 ohm`"));
    assert_eq!(
        cures("reference diferential 50 ohm"),
        told("unknown word `diferential` in a `reference` line", "did you mean `differential`?")
    );
    assert_eq!(
        cures("reference 50 ohm; count two"),
        told("expected a number without a unit after `count`, but found the word `two`", "e.g. `count 2`")
    );
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

#[test]
fn a_lane_beyond_all_numbers_is_refused_by_name() {
    let cable = "cable 50 ohm 10 m loss 1000 dB at 2.5 GHz permittivity 2\n".repeat(20);
    let text = format!(
        "lane \"deep sea\" {{ rate 5 Gb/s nrz; reference 50 ohm; limit insertion_loss <= 3 dB\npath {{ driver 50 ohm\n\
         {cable}protector\nreceiver 50 ohm\n}} }}"
    );
    let (gathered, port) = read_text(&text);
    let errors = size(&port.unwrap(), &[0], Figures::Nyquist, &gathered.sources, &|| ()).unwrap_err();
    assert_eq!(errors.iter().map(|e| e.code).collect::<Vec<_>>(), ["not-computable"]);
    assert!(errors[0].message.contains("deep sea"), "{}", errors[0].message);
}

#[test]
fn warnings_name_what_is_likely_mistaken() {
    let text = "lane \"a\" { rate 5 Gb/s; reference 90 ohm differential\npath {\ndriver 45 ohm rise 20 ps\n\
                connector 2 pF 3 nH\nprotector\nplane\nreceiver 90 ohm\n} }";
    let port = read_text(text).1.unwrap();
    let codes: Vec<_> = port.lines[0].head.warnings.iter().map(|note| note.code).collect();
    assert_eq!(codes, ["half-reference", "edge-beyond-nyquist", "lumped-validity", "plane-inside"]);
    let codes: Vec<_> = port.lines[0].head.defaults.iter().map(|note| note.code).collect();
    assert_eq!(codes, ["default-modulation", "default-limits"]);
}

#[test]
fn of_names_equally_near_always_the_same_one_is_meant() {
    let parts: String = (10..40).map(|i| format!("part \"array {i}\" {{ capacitance 0.3 pF max }}\n")).collect();
    let text = format!(
        "{parts}lane \"a\" {{ rate 5 Gb/s nrz; reference 50 ohm\n\
         path {{ driver 50 ohm; protector part \"array 1x\"; receiver 50 ohm }} }}"
    );
    for _ in 0..8 {
        let errors = read_text(&text).1.unwrap_err();
        let helps: Vec<_> = errors.iter().filter_map(|e| e.help.as_deref()).collect();
        assert_eq!(helps, ["did you mean `\"array 10\"`?"]);
    }
}
