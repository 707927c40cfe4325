//! What a reader is told of the tolerances of a line.

use serde_json::Value;

use lanecap::budget::{Figures, allowed_by_line};
use lanecap::diag::Sources;
use lanecap::model::{Address, Design};
use lanecap::result::{Wanted, size};
use lanecap::study::Sampling;
use lanecap::text::{Format, render, working};

use crate::support::{files, read_file, read_text, root};

fn sheet(part: &str) -> String {
    format!(
        "title \"Tide-gauge logger\"\n{part}\nlane \"gauge link\" {{\n rate 5 Gb/s nrz; reference 90 ohm differential\n \
         limit added_loss <= 0.5 dB; limit return_loss >= 10 dB\n path {{\n  driver 90 ohm ± 10 %\n  \
         trace 90 ohm ± 10 % 12 mm permittivity 3.4\n  protector 0.7 pF ± 10 % pad 0.05 pF ± 20 %\n  \
         trace 90 ohm ± 10 % 30 mm permittivity 3.4\n  receiver 90 ohm\n }}\n}}\n"
    )
}

fn design(text: &str) -> (Design, Sources) {
    let (gathered, design) = read_text(text);
    (design.unwrap_or_else(|errors| panic!("{errors:?}")), gathered.sources)
}

fn json(design: &Design, sources: &Sources) -> Value {
    let all: Vec<usize> = (0..design.lines.len()).collect();
    let report = size(design, &all, Figures::Nyquist, sources, &|| ()).unwrap();
    serde_json::from_str(&render(&report, Format::Json)).unwrap()
}

/// What stands under `set`, typed in again, is the line whose own set ends there.
#[test]
fn a_setting_typed_in_again_gives_its_number() {
    for path in ["tolerances", "antenna_tolerances"] {
        let (gathered, design) = read_file(&root().join(format!("fixtures/sheets/ok/{path}.lanes")));
        let design = design.unwrap();
        let json = json(&design, &gathered.sources);
        for (kind, line) in
            ["lanes", "feeds", "buses"].iter().flat_map(|kind| json[kind].as_array().unwrap()).enumerate()
        {
            let worst = &line["tolerance"]["worst"];
            let own = design.lines.iter().find(|own| own.head.name == line["name"].as_str().unwrap()).unwrap();
            let setting = worst["setting"].as_array().unwrap();
            assert_eq!(setting.len(), line["tolerance"]["values"].as_array().unwrap().len());
            let read = |value: &Value| -> (Address, f64) {
                (value["address"].as_str().unwrap().parse().unwrap(), value["value"].as_f64().unwrap())
            };
            let values: Vec<(Address, f64)> = setting.iter().map(read).collect();
            let there = own.with_values(values.iter().map(|(address, value)| (address, *value))).unwrap();
            let set = allowed_by_line(&there).unwrap();
            let c = worst["capacitance_f"].as_f64().unwrap();
            assert!((set.lowest().unwrap().high / c - 1.0).abs() < 1e-12, "{path} {kind}: {set:?} and {c}");
        }
    }
}

/// A line without a `±` says so, and is otherwise what it was: its tables name neither a worst case nor a yield.
#[test]
fn a_line_without_tolerances_has_none() {
    let mut seen = 0;
    for path in files("fixtures/sheets/ok", "lanes") {
        let (gathered, design) = read_file(&path);
        let design = design.unwrap();
        if design.lines.iter().any(|line| line.head.has_tolerance()) {
            continue;
        }
        let json = json(&design, &gathered.sources);
        for line in ["lanes", "feeds", "buses"].iter().flat_map(|kind| json[kind].as_array().unwrap()) {
            assert_eq!(line.get("tolerance"), Some(&Value::Null), "{}", path.display());
            seen += 1;
        }
        let all: Vec<usize> = (0..design.lines.len()).collect();
        let report = size(&design, &all, Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        for format in [Format::Table, Format::Markdown] {
            let text = render(&report, format);
            assert!(!text.contains("worst case") && !text.contains("What the tolerances leave"), "{}", path.display());
        }
    }
    assert!(seen > 40, "only {seen} lines");
}

/// A part that holds with the values of the sheet and not within their tolerances.
#[test]
fn a_line_that_breaks_within_its_tolerances_says_by_how_much() {
    let (design, sources) = design(&sheet(""));
    let report = size(&design, &[0], Figures::Nyquist, &sources, &|| ()).unwrap();
    let tolerance = report.lanes[0].head.tolerance.as_ref().unwrap();
    assert!(report.lanes[0].fitted().unwrap().holds && !tolerance.worst.fitted.as_ref().unwrap().holds);
    assert!(!report.passes());
    let table = render(&report, Format::Table);
    assert!(table.contains("gauge link: holds as stated, at worst return_loss breaks by "), "{table}");
    for said in ["worst case", "yield", "What the tolerances leave", "at the worst", "1.impedance", "seed 1"] {
        assert!(table.contains(said), "{said} in {table}");
    }
    let csv = render(&report, Format::Csv);
    let rows: Vec<Vec<&str>> = csv.lines().map(|row| row.split(',').collect()).collect();
    let cell = |column: &str| rows[1][rows[0].iter().position(|name| *name == column).unwrap()];
    assert_eq!(cell("worst_holds"), "false");
    assert_eq!(cell("worst_verdict"), "bounded");
    assert_eq!(cell("worst_set_by"), tolerance.worst.set_by.unwrap().word());
    assert_eq!(cell("worst_capacitance_f").parse::<f64>().unwrap(), tolerance.worst.capacitance.unwrap().0);
    assert_eq!(cell("yield_share").parse::<f64>().unwrap(), tolerance.yielded.share().unwrap());
    assert_eq!(cell("yield_budget_997_f").parse::<f64>().unwrap(), tolerance.yielded.budget.unwrap().0);
    let working = working(&design.lines[0], &sources).unwrap();
    for said in ["Tolerances", "Allowed at all of", "worst margin of the fitted value", "95 % interval"] {
        assert!(working.contains(said), "{said} in {working}");
    }
}

/// What is fitted by hand is exact: the tolerance of what the sheet fits is not that of another part.
#[test]
fn what_is_fitted_by_hand_does_not_vary() {
    let (mut design, sources) = design(&sheet(""));
    design.fit(lanecap::units::Farad(0.2e-12));
    let json = json(&design, &sources);
    let values = json["lanes"][0]["tolerance"]["values"].as_array().unwrap();
    assert!(values.iter().all(|value| value["address"] != "3.capacitance"));
    assert_eq!(json["lanes"][0]["tolerance"]["worst"]["fitted"]["holds"], true);
}

/// More settings of another seed, as they are asked for.
#[test]
fn settings_are_drawn_as_asked() {
    let (design, sources) = design(&sheet(""));
    let sampling = Sampling { samples: Some(321), seed: 9 };
    let wanted = Wanted { figures: Figures::Nyquist, sampling };
    let report = size(&design, &[0], wanted, &sources, &|| ()).unwrap();
    let json: Value = serde_json::from_str(&render(&report, Format::Json)).unwrap();
    let yielded = &json["lanes"][0]["tolerance"]["yield"];
    assert_eq!((yielded["samples"].as_u64(), yielded["seed"].as_u64()), (Some(321), Some(9)));
    let (held, share) = (yielded["held"].as_u64().unwrap(), yielded["held"].as_f64().unwrap() / 321.0);
    assert_eq!(yielded["share"].as_f64().unwrap(), share);
    let (low, high) = lanecap::study::clopper_pearson(held, 321);
    assert_eq!((yielded["share_low"].as_f64(), yielded["share_high"].as_f64()), (Some(low), Some(high)));
    assert!(low < share && share <= high);
    let shares = yielded["shares"].as_array().unwrap();
    assert!(shares.len() <= 65 && shares[0][0] == 0.0);
    assert!(shares.windows(2).all(|pair| pair[0][0].as_f64() < pair[1][0].as_f64()));
}
