//! `discharge` as a user runs it.

use std::fs;

use serde_json::Value;

use super::{lanecap, run, run_with};
use lanecap::cli::level;

const SHEET: &str = include_str!("../render/discharge.lanes");

/// Exit status and output of a sheet on standard input; nothing is said on standard error.
fn discharge(sheet: &str, options: &[&str]) -> (i32, String) {
    let args = [&["discharge", "-"][..], options].concat();
    let (status, out, err) = run_with(lanecap(&args).write_stdin(sheet.to_owned()));
    assert_eq!(err, "", "{options:?}");
    (status, out)
}

fn json(sheet: &str, options: &[&str]) -> Value {
    let (status, out) = discharge(sheet, &[options, &["--format", "json"]].concat());
    assert_eq!(status, 0);
    serde_json::from_str(&out).expect("JSON")
}

fn line<'a>(json: &'a Value, name: &str) -> &'a Value {
    let lines = json["lines"].as_array().expect("lines");
    lines.iter().find(|line| line["name"] == name).expect(name)
}

#[test]
fn what_is_computed_is_status_0_whatever_it_says() {
    for format in ["table", "json", "csv", "markdown"] {
        let (status, out) = discharge(SHEET, &["--format", format]);
        assert_eq!(status, 0);
        assert!(out.contains("camera link") && out.contains("unmeasured") && out.ends_with('\n'), "{out}");
    }
    assert_eq!(discharge(SHEET, &["--line", "display link"]).0, 0);
    assert_eq!(run(&["discharge", "--demo"]).0, 0);
}

#[test]
fn mistakes_are_status_2() {
    for args in [
        vec!["discharge"],
        vec!["discharge", "--demo", "--line", "no such line"],
        vec!["discharge", "--demo", "--level", "4"],
        vec!["discharge", "--demo", "--level", "4pF"],
        vec!["discharge", "--demo", "--level", "-4kV"],
        vec!["discharge", "--demo", "--level", "0V"],
        vec!["discharge", "--demo", "--level", "2MV"],
        vec!["discharge", "--demo", "--format", "xml"],
        vec!["discharge", "/nowhere.lanes"],
        vec!["discharge", "--demo", "-o", "/nowhere/x"],
    ] {
        let (status, out, err) = run(&args);
        assert_eq!((status, out.as_str()), (2, ""), "{args:?}: {err}");
        assert!(err.contains("error: "), "{args:?}: {err}");
    }
    let (_, _, err) = run(&["discharge", "--demo", "--level", "4kv"]);
    assert!(err.contains("did you mean `kV`?"), "{err}");
    let (status, out, err) = run_with(lanecap(&["discharge", "-"]).write_stdin("lane \"x\" {"));
    assert!(status == 2 && out.is_empty() && err.contains("error["), "{err}");
}

#[test]
fn a_file_gets_what_standard_output_would() {
    let folder = tempfile::tempdir().expect("a folder");
    let (sheet, to) = (folder.path().join("port.lanes"), folder.path().join("out.md"));
    fs::write(&sheet, SHEET).expect("a file");
    let [sheet, to] = [&sheet, &to].map(|path| path.to_str().expect("UTF-8"));
    let args = ["discharge", sheet, "--format", "markdown", "--line", "supply pin"];
    assert_eq!(run(&[&args[..], &["-o", to]].concat()), (0, String::new(), String::new()));
    assert_eq!(fs::read_to_string(to).expect("the file"), run(&args).1);
    // The sheet itself is not replaced.
    assert_eq!(run(&["discharge", sheet, "-o", sheet]).0, 2);
    assert_eq!(fs::read_to_string(sheet).expect("the file"), SHEET);
}

#[test]
fn levels_are_voltages() {
    assert_eq!(level("4kV").map(|level| level.0), Ok(4e3));
    assert_eq!(level(" 500 V ").map(|level| level.0), Ok(500.0));
    for (text, said) in [
        ("", "found no number"),
        ("kV", "found no number"),
        ("4", "the unit is missing"),
        ("4 pF", "is a unit of"),
        ("4 kv", "did you mean `kV`?"),
        ("4 furlongs", "unknown unit"),
        ("0 V", "from 1 uV to 1 MV"),
        ("1e9 V", "from 1 uV to 1 MV"),
    ] {
        let error = level(text).expect_err(text);
        assert!(error.contains(said), "{text}: {error}");
    }
}

/// By hand: the chip alone at the struck node takes all but what the generator's 330 ohm do: i = (330 I - V)/(330 + R). At
/// 8 kV the source has a peak of 29.84 A, and 16.06 A at 30 ns (IEC 61000-4-2, the standard's table: 30 A and 16 A).
#[test]
fn a_chip_alone_by_hand() {
    let sheet = "part \"idle\" { capacitance 1 fF max; bidirectional; standoff 900 V; clamp 999 V at 1 A }\n\
                 lane \"bare\" { rate 1 Mb/s nrz; reference 50 ohm; line_voltage 0 V to 1 V\n\
                 path { driver 50 ohm; protector part \"idle\"; receiver 50 ohm clamps 10 V 2 ohm survives 1 A } }\n";
    let json = json(sheet, &["--level", "8kV"]);
    let pin = &line(&json, "bare")["pin"];
    let of = |source: f64| (330.0 * source - 10.0) / 332.0;
    let near = |value: &Value, wanted: f64, within: f64| {
        let value = value.as_f64().expect("a number");
        assert!((value - wanted).abs() < within * wanted, "{value} is not {wanted}");
    };
    near(&pin["peak_a"], of(29.84), 2e-3);
    near(&pin["peak_v"], 10.0 + 2.0 * of(29.84), 2e-3);
    // The first instant within 0.1 % of the peak, which is at 1.46 ns.
    assert!((1.36e-9..1.46e-9).contains(&pin["peak_at_s"].as_f64().unwrap()));
    near(&pin["v30_v"], 10.0 + 2.0 * of(16.06), 5e-3);
    let (i, energy) = (pin["equivalent_a"].as_f64().unwrap(), pin["energy_j"].as_f64().unwrap());
    near(&pin["energy_j"], (10.0 + 2.0 * i) * i * 100e-9, 1e-9);
    assert!(energy > 0.0);
    assert_eq!(line(&json, "bare")["turns_on_from_v"], Value::Null);
    assert_eq!(line(&json, "bare")["parts"][0]["on_at_s"], Value::Null);
    // In the other polarity from one junction on.
    near(&line(&json, "bare")["negative"]["pin"]["peak_v"], 0.7 + 2.0 * (330.0 * 29.84 - 0.7) / 332.0, 2e-3);
    let text = discharge(sheet, &["--level", "8kV"]).1.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("The protector \"idle\" does not conduct up to 8 kV, in either polarity."), "{text}");
}

#[test]
fn every_key_is_there() {
    let json = json(SHEET, &[]);
    assert_eq!((json["lanecap"].as_str(), json["schema"].as_u64()), (Some(env!("CARGO_PKG_VERSION")), Some(1)));
    let keys = |value: &Value| {
        let mut keys: Vec<String> = value.as_object().expect("an object").keys().cloned().collect();
        keys.sort();
        keys
    };
    let sorted = |words: &str| {
        let mut words: Vec<String> = words.split(' ').map(str::to_owned).collect();
        words.sort();
        words
    };
    let pin = sorted("peak_v peak_at_s late_peak_v v30_v peak_a equivalent_a energy_j");
    let part = sorted("part element on_at_s peak_a energy_j");
    let rail = line(&json, "supply pin");
    let own =
        "name level_v worst_level_v turns_on_from_v pin worst parts negative surge settled not_stated surge_not_stated";
    assert_eq!(keys(rail), sorted(own));
    assert_eq!(keys(&rail["negative"]), sorted("pin worst_level_v worst parts"));
    assert_eq!(keys(&rail["surge"]), sorted("pin_peak_v pin_peak_a parts"));
    for one in [&rail["pin"], &rail["worst"], &rail["negative"]["pin"], &rail["negative"]["worst"]] {
        assert_eq!(keys(one), pin);
    }
    for one in [&rail["parts"][0], &rail["negative"]["parts"][0], &rail["surge"]["parts"][0]] {
        assert_eq!(keys(one), part);
        assert_eq!((one["part"].as_str(), one["element"].as_u64()), (Some("rail clamp"), Some(2)));
    }
    // Without a clamp no current and no energy; without a way to slow it no peak as it snaps back.
    let bare = line(&json, "mast link");
    assert!(bare["pin"]["peak_v"].is_f64() && bare["pin"]["peak_a"].is_null() && bare["pin"]["energy_j"].is_null());
    assert!(bare["parts"][0]["on_at_s"].is_f64() && bare["parts"][0]["peak_a"].is_null());
    // What is missing is null, and named.
    let missing = line(&json, "display link");
    for key in ["level_v", "pin", "worst", "parts", "negative", "surge"] {
        assert!(missing[key].is_null(), "{key}");
    }
    assert_eq!(missing["not_stated"], "the part \"unmeasured\" does not state `clamp`");
    assert_eq!(missing["surge_not_stated"], "the part \"unmeasured\" states neither `surge_clamp` nor `clamp`");
    assert_eq!(line(&json, "service wires")["not_stated"], "the line states no `path`");
    assert_eq!(line(&json, "radome cable")["not_stated"], "the line states an air discharge alone");
    assert!(line(&json, "supply pin")["not_stated"].is_null());
}

#[test]
fn csv_has_every_number_of_the_json() {
    let json = json(SHEET, &[]);
    let text = discharge(SHEET, &["--format", "csv"]).1;
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let rows: Vec<_> = reader.records().map(|row| row.expect("a row")).collect();
    let lines = json["lines"].as_array().expect("lines");
    assert_eq!(rows.len(), lines.len());
    fn cells(prefix: &str, value: &Value, to: &mut Vec<(String, Value)>) {
        for (key, value) in value.as_object().expect("an object") {
            match value {
                Value::Object(_) => cells(&format!("{prefix}{key}_"), value, to),
                Value::Array(_) => {}
                _ => to.push((format!("{prefix}{key}"), value.clone())),
            }
        }
    }
    for (row, line) in rows.iter().zip(lines) {
        let mut all = Vec::new();
        cells("", line, &mut all);
        for (key, value) in all {
            let Some(column) = header.iter().position(|name| name == key) else {
                assert!(value.is_null(), "{key}");
                continue;
            };
            match value {
                Value::Null => assert_eq!(&row[column], "", "{key}"),
                Value::String(text) => assert_eq!(&row[column], text, "{key}"),
                Value::Number(number) => {
                    // The parser of the JSON may miss the last digit.
                    let (cell, number) = (row[column].parse::<f64>().expect("a number"), number.as_f64().unwrap());
                    assert!((cell - number).abs() <= 1e-14 * number.abs(), "{key}: {cell}, {number}");
                }
                other => assert_eq!(&row[column], other.to_string(), "{key}"),
            }
        }
    }
}

#[test]
fn results_that_surprise_are_said() {
    let text = discharge(SHEET, &[]).1.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "The protector \"late tube\" does not conduct up to 4 kV, in either polarity.",
        "Neither of the two parts conducts at 4 kV in the positive polarity: all of it goes on to the chip.",
        "puts more current into the chip than one of 8 kV: it is too weak for the protector to conduct.",
        "The chip states no `clamps`",
        "The highest current of \"late tube\" has no value",
        "The contact discharge is not computed: the part \"unmeasured\" does not state `clamp`.",
        "Nothing is computed: the line states no `path`.",
        "Nothing is computed: the line states an air discharge alone.",
        "\"rail clamp\" conducts from 700 mV in the negative polarity: no `negative` is stated",
        "A positive surge of 500 V through 42 ohm (1.2/50 us) leaves",
    ] {
        assert!(text.contains(said), "no {said:?} in\n{text}");
    }
    // The level with which it turns on is the one the JSON has, and turns it on; one per cent below it does not.
    let from = line(&json(SHEET, &[]), "camera link")["turns_on_from_v"].as_f64().expect("a level");
    let on = |volts: f64| {
        let json = json(SHEET, &["--line", "camera link", "--level", &format!("{volts}V")]);
        line(&json, "camera link")["parts"][0]["on_at_s"].is_f64()
    };
    assert!(on(from * 1.01) && !on(from * 0.98));
}

/// The commands of the README do what it says, in its order, in an empty folder.
#[test]
fn the_readme_runs() {
    let folder = tempfile::tempdir().expect("a folder");
    let readme = fs::read_to_string(crate::support::root().join("README.md")).expect("the README");
    let mut ran = Vec::new();
    for block in readme.split("```sh\n").skip(1) {
        let block = block.split_once("```").expect("an end").0;
        for row in block.lines().filter_map(|row| row.strip_prefix("lanecap ")) {
            let row = row.split('#').next().unwrap_or_default().trim();
            let (row, to) = row.split_once(" > ").map_or((row, None), |(row, to)| (row, Some(to)));
            let mut args: Vec<&str> = Vec::new();
            for (index, piece) in row.split('"').enumerate() {
                // Every other piece stands between quotes.
                if index % 2 == 1 { args.push(piece) } else { args.extend(piece.split_whitespace()) }
            }
            let (status, out, err) = run_with(lanecap(&args).current_dir(folder.path()));
            // The starter names no parts: `pick` finds none, which is a result.
            assert!((0..=1).contains(&status) && err.is_empty(), "lanecap {row}: {status}\n{err}");
            if let Some(to) = to {
                fs::write(folder.path().join(to), out).expect("a file");
            }
            ran.push(args[0].to_owned());
        }
    }
    for command in ["starter", "size", "pick", "discharge", "sensitivity", "sweep", "range"] {
        assert!(ran.iter().any(|ran| ran == command), "{ran:?}");
    }
}
