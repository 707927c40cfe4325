//! Every part on every line.

mod discharged;

use std::process::Command as Process;

use crate::support::{read_text, root};
use lanecap::budget::Figures;
use lanecap::page::{page, review};
use lanecap::result::{PickReport, pick};
use lanecap::text::{Format, render, render_pick};

fn picked(text: &str) -> PickReport {
    let port = read_text(text).1.unwrap_or_else(|errors| panic!("{errors:?}"));
    let all: Vec<usize> = (0..port.names().len()).collect();
    pick(&port, &all, &|| ()).unwrap()
}

const PAIR: &str = "lane \"pair\" { rate 5 Gb/s; reference 90 ohm differential; line_voltage 0 V to 1 V; exposure contact 8 kV\n\
                    limit added_loss <= 0.5 dB\npath { driver 90 ohm; protector; receiver 90 ohm } }\n";

fn part(name: &str, rest: &str) -> String {
    format!("part \"{name}\" {{ bidirectional; standoff 5 V; {rest} }}\n")
}

/// A part that does not state a rating the line asks for is not recommended over one that does, however cheap.
#[test]
fn what_is_not_stated_does_not_pass() {
    let text = part("cheap", "capacitance 0.2 pF; channels 2; cost 0.1")
        + &part("stated", "capacitance 0.2 pF; channels 2; contact 8 kV; cost 9")
        + PAIR;
    let report = picked(&text);
    let line = &report.lines[0];
    assert_eq!(line.recommended.as_deref(), Some("stated"));
    assert!(!line.parts[0].passes);
    assert!(render_pick(&report, Format::Table).contains("\"not stated\" does not pass"));
    let without = picked(&(part("cheap", "capacitance 0.2 pF; channels 2; cost 0.1") + PAIR));
    assert!(!without.passes());
    assert!(
        without.lines[0].why.contains("\"cheap\" does not state what rating contact needs"),
        "{}",
        without.lines[0].why
    );
}

/// Matched, without anything else: added loss = 10 log10(1 + x²) for C alone. With L in series the branch is C/(1 − ω²LC),
/// so that the allowed C is smaller: 1/C = 1/C0 + ω²L.
#[test]
fn the_budget_is_solved_with_the_parts_own_inductance() {
    let text = part("plain", "capacitance 0.2 pF; channels 2; contact 8 kV")
        + &part("slow", "capacitance 0.2 pF; inductance 1 nH; channels 2; contact 8 kV")
        + PAIR;
    let report = picked(&text);
    let required = |i: usize| report.lines[0].parts[i].checks[0].required.unwrap();
    let frequency = 2.5e9;
    let x = (10f64.powf(0.05) - 1.0).sqrt();
    let alone = x / (std::f64::consts::PI * frequency * 45.0);
    let omega = std::f64::consts::TAU * frequency;
    let with_coil = 1.0 / (1.0 / alone + omega * omega * 1e-9);
    assert!((required(0) / alone - 1.0).abs() < 1e-9, "{} {alone}", required(0));
    assert!((required(1) / with_coil - 1.0).abs() < 1e-9, "{} {with_coil}", required(1));
}

/// A pair takes two channels, of two packages where a package has one; a part across the pair takes one, and counts as
/// twice its capacitance.
#[test]
fn pairs_are_not_split() {
    let text = part("single", "capacitance 0.2 pF; channels 1; contact 8 kV; cost 0.3")
        + &part("across", "capacitance 0.1 pF across; channels 1; contact 8 kV; cost 0.5")
        + &PAIR.replace("; exposure contact 8 kV", "");
    let report = picked(&text);
    let line = &report.lines[0];
    assert_eq!(line.recommended.as_deref(), Some("across"));
    assert_eq!(line.parts[1].capacitance_f, Some(0.2e-12));
    assert_eq!([line.parts[0].cost_per_line, line.parts[1].cost_per_line], [Some(0.6), Some(0.5)]);
    assert_eq!(report.bills[0].cost, Some(0.5));
    assert_eq!(report.bills[0].parts[0].lines[0].channels, 1);
}

/// Bills in the order of the ports; lines without a port share one bill.
#[test]
fn one_bill_for_each_port() {
    let rail = |name: &str, port: &str| format!("rail \"{name}\" {{ line_voltage 0 V to 5 V; {port} }}\n");
    let text = part("array", "capacitance 1 pF; channels 4; cost 1")
        + &rail("a", "port \"B\"")
        + &rail("b", "")
        + &rail("c", "port \"B\"")
        + &rail("d", "");
    let report = picked(&text);
    let found: Vec<_> =
        report.bills.iter().map(|bill| (bill.port.as_deref(), bill.cost, bill.parts[0].lines.len())).collect();
    assert_eq!(found, [(Some("B"), Some(1.0), 2), (None, Some(1.0), 2)]);
    let json: serde_json::Value = serde_json::from_str(&render_pick(&report, Format::Json)).unwrap();
    assert!(json["bills"][1]["port"].is_null());
    let keys: Vec<&String> = json["lines"][0].as_object().unwrap().keys().collect();
    assert_eq!(keys.len(), 8, "{keys:?}");
}

#[test]
fn a_sheet_without_parts_says_so() {
    let report = picked("rail \"r\" { line_voltage 0 V to 5 V }");
    assert_eq!(report.lines[0].why, "the sheet has no part");
    assert_eq!(report.bills[0].unserved, ["r"]);
    assert!(!report.passes());
}

/// Exit status: 0 every line has a part, 1 some line has none, 2 the sheet is faulty; every format is written.
#[test]
fn the_command_from_outside() {
    let run = |args: &[&str]| {
        let output = Process::new(env!("CARGO_BIN_EXE_lanecap")).current_dir(root()).args(args).output().unwrap();
        (output.status.code(), String::from_utf8(output.stdout).unwrap())
    };
    let sheet = "fixtures/sheets/ok/card_interface.lanes";
    assert_eq!(run(&["pick", sheet]).0, Some(0));
    assert_eq!(run(&["pick", "fixtures/sheets/ok/ethernet_phy.lanes"]).0, Some(1));
    assert_eq!(run(&["pick", "fixtures/sheets/ok/ethernet_phy.lanes", "--line", "indoor pairs"]).0, Some(0));
    assert_eq!(run(&["pick", "fixtures/sheets/err/slow/no-resistance.lanes"]).0, Some(2));
    let (_, csv) = run(&["pick", sheet, "--format", "csv"]);
    assert_eq!(csv.lines().count(), 1 + 4 * 2);
    let (_, markdown) = run(&["pick", sheet, "--format", "markdown"]);
    assert!(markdown.contains("## The bill of each port"));
    let (status, text) = run(&["explain", sheet, "--line", "data"]);
    assert_eq!(status, Some(0));
    assert!(text.contains("rise_time: C_tot <= t/(R ln((1 - 0.1)/(1 - 0.9)))"), "{text}");
    assert!(run(&["explain", sheet, "--line", "card supply"]).1.contains("only its part is checked"));
}

/// A part across the pair, so that a strike finds no way out: `size` and `pick` say so in every format.
#[test]
fn every_reader_sees_why_a_check_does_not_pass() {
    const WHY: &str = "hangs across the pair alone";
    let text = part("across", "capacitance 0.1 pF across; contact 8 kV; temperature -55 degC to 125 degC")
        + &PAIR
            .replace("protector", "protector part \"across\"")
            .replace("exposure", "temperature -40 degC to 85 degC; exposure");
    let (gathered, design) = read_text(&text);
    let design = design.unwrap();
    let sized = lanecap::result::size(&design, &[0], Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
    for format in [Format::Table, Format::Markdown, Format::Json] {
        let shown = render(&sized, format);
        assert!(shown.replace("\n    ", " ").contains(WHY), "{shown}");
        if format != Format::Json {
            assert!(shown.contains("Why checks do not pass") && shown.contains("-40 to 85"), "{shown}");
            assert!(shown.contains("-55 to 125"), "{shown}");
        }
    }
    let json: serde_json::Value = serde_json::from_str(&render(&sized, Format::Json)).unwrap();
    let checks = json["lanes"][0]["fitted"]["checks"].as_array().unwrap();
    let of = |name: &str| checks.iter().find(|check| check["check"] == name).unwrap();
    assert!(of("rating contact")["why"].as_str().unwrap().contains(WHY));
    assert!(of("temperature")["why"].is_null());
    assert_eq!((&of("temperature")["required"], &of("temperature")["available"]), (&(-40.0).into(), &(-55.0).into()));
    let picked = pick(&design, &[0], &|| ()).unwrap();
    for format in [Format::Table, Format::Markdown, Format::Json, Format::Csv] {
        let shown = render_pick(&picked, format).replace("\n    ", " ");
        assert!(shown.contains(WHY), "{shown}");
    }
    assert!(picked.lines[0].why.contains(WHY), "{}", picked.lines[0].why);
    let reviewed = review(&design, &[0], &gathered.sources, &|| ()).unwrap();
    assert!(page(&reviewed).matches(WHY).count() >= 2);
}
