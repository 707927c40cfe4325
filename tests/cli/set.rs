//! Values set on the command line.

use super::run;

#[test]
fn what_is_set_is_said_in_every_form() {
    let args = ["--demo", "--set", "camera link/1.pad=0.4 pF"];
    for command in ["size", "pick", "discharge"] {
        let (_, table, _) = run(&[&[command], &args[..]].concat());
        assert!(table.contains("With camera link/1.pad = 400 fF: the sheet states "), "{command}: {table}");
        let (_, json, _) = run(&[&[command], &args[..], &["--format", "json"]].concat());
        assert!(json.contains("\"address\": \"1.pad\"") && json.contains("\"value\": 4e-13"), "{command}: {json}");
        let (_, plain, _) = run(&[command, "--demo", "--format", "json"]);
        assert!(!plain.contains("\"set\""), "{command}");
    }
    let (_, text, _) = run(&["explain", "--demo", "--line", "camera link", "--set", "camera link/1.pad=0.4 pF"]);
    assert!(text.starts_with("With camera link/1.pad = 400 fF"), "{text}");
}

#[test]
fn a_wrong_value_is_refused_with_its_cure() {
    for (set, said) in [
        ("camera link/1.pad", "there is no `=`"),
        ("camera link/1.pad=", "the value is missing"),
        ("camera link/1.pad=3", "`1.pad` is a capacitance, and this is a number without a unit"),
        ("camera link/1.pad=3 mm", "`1.pad` is a capacitance, and this is a length"),
        ("camera link/1.pad=-3 pF", "out of range for `1.pad`"),
        ("camera link/1.pad=3 pF ± 5 %", "without a tolerance"),
        ("camera link/1.pda=3 pF", "an address is such as"),
        ("camera link/99.pad=3 pF", "has no value `99.pad`"),
        ("camera lnk/1.pad=3 pF", "did you mean \"camera link\"?"),
        ("1.pad=3 pF", "does not say of which line"),
        ("camera link/part \"quad array\".inductance=1 nH", "is the same on every line"),
        ("part \"no such\".inductance=1 nH", "has no value `part \"no such\".inductance`"),
        ("camera link/1.pad=3 pF 4 pF", "no single quantity"),
    ] {
        let (status, out, err) = run(&["size", "--demo", "--set", set]);
        assert_eq!((status, out.as_str()), (2, ""), "{set}");
        assert!(err.contains(said), "{set}: {err}");
    }
    let twice = ["size", "--demo", "--set", "camera link/1.pad=3 pF", "--set", "camera link/1.pad=4 pF"];
    assert!(run(&twice).2.contains("set twice"));
}

#[test]
fn what_is_set_stands_in_every_picture() {
    let set = ["--demo", "--line", "camera link", "--set", "camera link/1.pad=0.4 pF", "-o"];
    let folder = tempfile::tempdir().unwrap();
    let mut commands: Vec<Vec<&str>> =
        ["loss", "penalty", "discharge", "yield", "sensitivity"].map(|show| vec!["chart", "--show", show]).to_vec();
    commands.push(vec!["sweep", "--over", "6.length from 10 mm to 40 mm", "--steps", "2"]);
    for command in commands {
        let target = folder.path().join("chart.svg");
        let (status, _, err) = run(&[&command[..], &set[..], &[target.to_str().unwrap()]].concat());
        assert_eq!(status, 0, "{command:?}: {err}");
        let drawn = std::fs::read_to_string(&target).unwrap();
        assert!(drawn.contains("camera link, 1.pad = 400 fF"), "{command:?}");
    }
}
