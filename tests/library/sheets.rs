//! Sheets in a text and in files, and their mistakes as errors.

use std::error::Error;

use assert_cmd::Command;
use lanecap::diag::Diagnostics;
use lanecap::load::ReadError;
use lanecap::{Design, Figures, size_lane};

use crate::support::{files, read_file, root};

const SHEET: &str = "lane \"a\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB\n\
                     path { driver 50 ohm; protector; receiver 50 ohm } }";

/// What `lanecap check` says of a file, or of a text on standard input.
fn said_by_check(sheet: &str, input: &str) -> String {
    let mut command = Command::cargo_bin("lanecap").unwrap();
    let output = command.args(["check", sheet]).env("NO_COLOR", "1").write_stdin(input).output().unwrap();
    String::from_utf8(output.stderr).unwrap()
}

#[test]
fn a_sheet_in_a_text_is_parsed_and_sized() {
    let design = Design::parse(SHEET).unwrap();
    let (head, lane) = design.lanes().next().unwrap();
    assert_eq!(head.name, "a");
    let budget = size_lane(lane, Figures::All).unwrap().sized.budget.capacitance.unwrap();
    // A shunt C on a matched line: C = 1/(pi f Z sqrt(10^(RL/10) - 1)).
    let by_hand = 1.0 / (std::f64::consts::PI * 2.5e9 * 50.0 * 3.0);
    assert!((budget.0 - by_hand).abs() < 1e-12 * by_hand, "{budget} {by_hand}");
}

#[test]
fn errors_print_as_the_check_command_prints_them() {
    let texts = [
        SHEET.replace("return_loss", "retrun_loss").replace("driver 50 ohm", "driver fifty"),
        SHEET.replace("protector; ", ""),
        "lane \"\u{1b}[31m\u{202e}\" { rate 5 Gbps }".to_owned(),
        String::new(),
    ];
    for text in texts {
        let errors = Design::parse(&text).unwrap_err();
        assert!(!errors.list.is_empty());
        assert_eq!(errors.to_string(), said_by_check("-", &text));
    }
    for path in files("fixtures/sheets/err", "lanes") {
        let error = Design::read(&path).unwrap_err();
        assert_eq!(error.to_string(), said_by_check(path.to_str().unwrap(), ""), "{}", path.display());
    }
}

#[test]
fn warnings_print_as_the_check_command_prints_them() {
    let text = SHEET.replace("50 ohm; limit", "100 ohm differential; limit");
    let list = Design::parse(&text).unwrap().warnings();
    assert_eq!(list.len(), 2);
    let file = lanecap::diag::SourceFile::new("-", text.as_str());
    let warnings = Diagnostics { sources: lanecap::diag::Sources { files: vec![file] }, list };
    assert_eq!(warnings.to_string(), said_by_check("-", &text));
}

#[test]
fn errors_are_errors_of_rust() {
    fn sized(text: &str) -> Result<usize, Box<dyn Error + Send + Sync>> {
        Ok(Design::parse(text)?.lines.len())
    }
    assert_eq!(sized(SHEET).unwrap(), 1);
    assert!(sized("lane").unwrap_err().downcast_ref::<Diagnostics>().is_some_and(|errors| errors.list.len() == 1));
}

#[test]
fn a_text_includes_no_file() {
    let errors = Design::parse(&format!("include \"shared/mooring.parts\"\n{SHEET}")).unwrap_err();
    let [error] = errors.list.as_slice() else { panic!("{errors}") };
    assert_eq!(error.code, "include-missing");
    assert_eq!(error.message, "cannot include `shared/mooring.parts`: a sheet that is no file itself includes none");
    assert!(error.help.as_ref().unwrap().contains("`Design::read`"));
}

#[test]
fn a_file_brings_what_it_includes() {
    let path = root().join("fixtures/sheets/ok/mooring_port.lanes");
    assert!(std::fs::read_to_string(&path).unwrap().contains("include "));
    let (read, expected) = (Design::read(&path).unwrap(), read_file(&path).1.unwrap());
    assert!(!read.parts.is_empty());
    assert_eq!(format!("{read:?}"), format!("{expected:?}"));
}

#[test]
fn a_file_that_is_not_there_is_named() {
    let path = root().join("none.lanes");
    let error = Design::read(&path).unwrap_err();
    assert!(matches!(error, ReadError::File(_)));
    assert_eq!(error.to_string(), said_by_check(path.to_str().unwrap(), ""));
    let said = format!("error: cannot read {}: there is no such file or folder\n", path.display());
    assert_eq!(error.to_string(), said);
}
