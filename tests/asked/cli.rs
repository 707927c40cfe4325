//! The three commands as a user runs them.

use assert_cmd::Command;
use serde_json::Value;

fn run(args: &[&str]) -> (i32, String, String) {
    let mut command = Command::cargo_bin("lanecap").expect("the program");
    let output = command.args(args).env("COLUMNS", "100").output().expect("a run");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

const CAMERA: [&str; 3] = ["--demo", "--line", "camera link"];

fn on_camera(command: &str, options: &[&str]) -> (i32, String, String) {
    run(&[&[command][..], &CAMERA, options].concat())
}

#[test]
fn what_is_answered_is_status_0() {
    for format in ["table", "json", "csv", "markdown"] {
        for (command, options) in [
            ("sensitivity", vec![]),
            ("sweep", vec!["--over", "6.length from 10 mm to 30 mm", "--steps", "2"]),
            ("range", vec!["--of", "6.length from 10 mm to 30 mm"]),
        ] {
            let (status, out, err) = on_camera(command, &[&options[..], &["--format", format]].concat());
            assert_eq!((status, err.as_str()), (0, ""), "{command} {format}");
            assert!(out.contains("camera link") && out.contains("6.length") && out.ends_with('\n'), "{out}");
            if format == "json" {
                let json: Value = serde_json::from_str(&out).unwrap();
                assert_eq!((&json["schema"], &json["title"]), (&1.into(), &"Tide-gauge logger, rev C".into()));
            }
        }
    }
    // All lines with a budget, rails left out.
    let (status, out, _) = run(&["sensitivity", "--demo", "--format", "json"]);
    let json: Value = serde_json::from_str(&out).unwrap();
    let kinds: Vec<&str> =
        json["lines"].as_array().unwrap().iter().map(|line| line["kind"].as_str().unwrap()).collect();
    assert_eq!(status, 0);
    assert!(kinds.contains(&"lane") && kinds.contains(&"feed") && kinds.contains(&"bus") && !kinds.contains(&"rail"));
}

#[test]
fn what_is_fitted_and_what_is_set_counts() {
    let json = |options: &[&str]| -> Value {
        let (status, out, err) = on_camera("range", &[options, &["--format", "json"]].concat());
        assert_eq!((status, err.as_str()), (0, ""));
        serde_json::from_str(&out).unwrap()
    };
    let small = json(&["--of", "rate from 5 Gb/s to 20 Gb/s", "--fitted", "0.1pF"]);
    let large = json(&["--of", "rate from 5 Gb/s to 20 Gb/s", "--fitted", "0.4pF"]);
    let end = |json: &Value| json["intervals"][0][1].as_f64().unwrap();
    assert!(end(&small) > end(&large));
    assert_eq!((&small["fitted_f"], &small["unit"], &small["of"]), (&1e-13.into(), &"b/s".into(), &"rate".into()));
    let set = json(&["--of", "4.length", "--set", "camera link/6.length=10 mm"]);
    assert_eq!(set["set"][0]["address"], "6.length");
}

/// The permittivity has no unit, a loss per length one of two.
#[test]
fn values_are_read_as_a_sheet_states_them() {
    let sweep = |over: &str| on_camera("sweep", &["--over", over, "--steps", "1", "--format", "json"]);
    for (over, from, to) in [
        ("6.permittivity from 3 to 4.5", 3.0, 4.5),
        ("6.loss from 10 dB/m to 0.3 dB/cm", 10.0, 30.0),
        ("rate from 2500 Mb/s to 5 Gb/s", 2.5e9, 5e9),
        ("part \"quad array\".inductance from 0.1 nH to 400 pH", 0.1e-9, 0.4e-9),
    ] {
        let (status, out, err) = sweep(over);
        assert_eq!((status, err.as_str()), (0, ""), "{over}");
        let json: Value = serde_json::from_str(&out).unwrap();
        let end = |key: &str| json["over"][0][key].as_f64().unwrap();
        assert!((end("from") / from - 1.0).abs() < 1e-12 && (end("to") / to - 1.0).abs() < 1e-12, "{over}");
    }
}

#[test]
fn mistakes_are_status_2_and_told() {
    let length = "6.length from 1 mm to 9 mm";
    for (args, said) in [
        (vec!["sweep", "--demo", "--over", length], "its lines are \"camera link\", \"display link\""),
        (vec!["range", "--demo", "--of", "rate"], "name the one to search"),
        (vec!["sweep", "--demo", "--line", "camra link", "--over", length], "did you mean --line \"camera link\"?"),
        (vec!["sensitivity", "--demo", "--line", "supply pin"], "a rail has no budget"),
        (vec!["sensitivity", "--demo", "--line", "nowhere"], "has no line"),
        (vec!["sweep", "--demo", "--line", "supply pin", "--over", length], "has no `6.length`"),
    ] {
        let (status, out, err) = run(&args);
        assert_eq!((status, out.as_str()), (2, ""), "{args:?}");
        assert!(err.contains(said), "{args:?}: {err}");
    }
    for (command, options, said) in [
        (
            "sweep",
            vec!["--over", "6.lenght from 1 mm to 9 mm"],
            "did you mean `6.length`? Its addresses are\n      `6.length`, ",
        ),
        ("sweep", vec!["--over", "nothing from 1 mm to 9 mm"], "its addresses are\n      "),
        ("sweep", vec!["--over", "12.length from 1 mm to 9 mm"], "the path has only 8 elements; its addresses are"),
        ("sweep", vec!["--over", "5.capacitance from 0 pF to 1 pF"], "did you mean `part \"quad array\".capacitance`?"),
        ("sweep", vec!["--over", "6.len 1 mm to 9 mm"], "has no `6.len`"),
        ("sweep", vec!["--over", "6.length 1 mm to 9 mm"], "expected `from` after `6.length` in --over"),
        ("sweep", vec!["--over", "6.length from 40 mm to 5 mm"], "6.length from 16 mm to 64 mm\""),
        ("sweep", vec!["--over", "6.length"], "lacks the values it goes over"),
        ("sweep", vec!["--over", "6.length from 1 mm"], "expected `from` and `to`"),
        ("sweep", vec!["--over", "6.length from 1 pF to 2 pF"], "expected a length, but this is a capacitance"),
        ("sweep", vec!["--over", "6.length from 1 to 2"], "expected a length"),
        ("sweep", vec!["--over", "6.length from 1 mm ± 2 % to 9 mm"], "without a tolerance"),
        ("sweep", vec!["--over", "6.length from 9 mm to 1 mm"], "must be below the last"),
        ("sweep", vec!["--over", "6.length from 1 mm to 20 km"], "takes 0 to 10 km"),
        ("sweep", vec!["--over", length, "--over", length], "is swept twice"),
        (
            "sweep",
            vec!["--over", length, "--over", "8.pad from 0 pF to 1 pF", "--over", "rate from 1 Gb/s to 2 Gb/s"],
            "at most two",
        ),
        ("sweep", vec!["--over", length, "--steps", "0"], "--steps"),
        ("sweep", vec!["--over", "place from 0 mm to 90 mm"], "`place`"),
        ("range", vec!["--of", "5.inductance"], "from where to where `5.inductance`"),
        ("range", vec!["--of", "5.indctance"], "did you mean `5.inductance`?"),
    ] {
        let (status, out, err) = on_camera(command, &options);
        assert_eq!((status, out.as_str()), (2, ""), "{command} {options:?}");
        assert!(err.starts_with("error: ") && err.contains(said), "{command} {options:?}: {err}");
    }
}

#[test]
fn a_picture_by_the_name_of_its_file() {
    let folder = tempfile::tempdir().unwrap();
    for (name, start) in [("x.svg", &b"<svg"[..]), ("x.PNG", b"\x89PNG"), ("x.txt", b"Tide-gauge")] {
        let path = folder.path().join(name);
        let options = ["--over", "6.length from 10 mm to 30 mm", "--steps", "4", "-o", path.to_str().unwrap()];
        assert_eq!(on_camera("sweep", &options), (0, String::new(), String::new()), "{name}");
        assert!(std::fs::read(&path).unwrap().starts_with(start), "{name}");
    }
    let path = folder.path().join("bars.svg");
    let (status, ..) = on_camera("chart", &["--show", "sensitivity", "-o", path.to_str().unwrap()]);
    assert!(status == 0 && std::fs::read_to_string(&path).unwrap().contains("what buys more"));
    // A bus has no other picture.
    let (status, out, _) = run(&["chart", "--demo", "--line", "service wires", "--show", "sensitivity"]);
    assert!(status == 0 && out.contains("what buys more"), "{out}");
}

#[test]
fn a_discharge_that_is_not_computed_is_no_discharge_that_holds() {
    let (_, computed, _) = on_camera("range", &["--of", "place"]);
    assert!(computed.contains("no check of what a discharge leaves at the chip fails"), "{computed}");
    // A capacitance without a part leaves nothing to compute.
    let (_, open, _) = on_camera("range", &["--of", "place", "--fitted", "0.3pF"]);
    assert!(open.contains("is not computed, so that it is not looked at"), "{open}");
    assert!(!open.contains("no check of what a discharge"), "{open}");
}
