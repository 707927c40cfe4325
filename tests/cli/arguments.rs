//! Usage, help and the small commands.

use super::{lanecap, run};
use lanecap::cli::{Outcome, capacitance, pick_lines};

#[test]
fn exactly_one_source_is_asked_for() {
    for command in ["size", "discharge", "explain", "check"] {
        for args in [vec![command], vec![command, "--demo", "x.lanes"], vec![command, ""]] {
            let (status, out, err) = run(&args);
            assert_eq!((status, out.as_str()), (2, ""), "{args:?}: {err}");
            assert!(err.contains("error: "), "{args:?}: {err}");
        }
    }
}

#[test]
fn wrong_usage_is_status_2() {
    for args in [
        vec![],
        vec!["sizes"],
        vec!["size", "--demo", "--format", "xml"],
        vec!["check", "--demo", "--format", "csv"],
        vec!["size", "--demo", "--fitted", "0.3"],
        vec!["size", "--demo", "--fitted", "-1pF"],
        vec!["completions", "smalltalk"],
        vec!["size", "a", "b"],
    ] {
        let (status, out, err) = run(&args);
        assert_eq!((status, out.as_str()), (2, ""), "{args:?}: {err}");
    }
}

#[test]
fn help_and_version_are_results() {
    let (status, out, err) = run(&["--version"]);
    assert_eq!((status, out.as_str(), err.as_str()), (0, "lanecap 0.1.0\n", ""));
    for args in [vec!["--help"], vec!["size", "--help"], vec!["help", "check"]] {
        let (status, out, err) = run(&args);
        assert_eq!((status, err.as_str()), (0, ""), "{args:?}");
        assert!(out.contains("Usage: lanecap") && out.contains("lanecap "), "{out}");
    }
    assert!(run(&["size", "--help"]).1.contains("--fitted 0.3pF"));
}

#[test]
fn every_shell_gets_completions() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let (status, out, _) = run(&["completions", shell]);
        assert!(status == 0 && out.contains("lanecap") && out.contains("starter"), "{shell}");
    }
}

#[test]
fn the_manual_describes_every_option() {
    let (status, out, _) = run(&["manual"]);
    assert_eq!(status, 0);
    for word in [
        ".TH lanecap 1",
        ".SH \"SIZE\"",
        ".SH \"DISCHARGE\"",
        "\\-\\-level",
        "\\-\\-fitted",
        "\\-\\-demo",
        "\\-\\-line",
        "Exit status",
    ] {
        assert!(out.contains(word), "no {word} in\n{out}");
    }
}

#[test]
fn the_starter_explains_each_of_its_lines() {
    let (status, out, _) = run(&["starter"]);
    assert_eq!(status, 0);
    let mut stated = 0;
    for line in out.lines().map(str::trim).filter(|line| !line.is_empty() && *line != "}") {
        assert!(line.contains('#') || line == "lane \"camera link\" {", "no comment: {line}");
        assert!(line.chars().count() < 130, "{line}");
        stated += usize::from(!line.starts_with('#'));
    }
    assert!(stated > 15);
}

#[test]
fn no_colour_where_no_terminal_is() {
    for args in [&["size", "/nowhere"][..], &["size"], &["--help"]] {
        let (_, out, err) = run(args);
        assert!(!out.contains('\u{1b}') && !err.contains('\u{1b}'), "{args:?}");
    }
}

#[test]
fn a_reader_of_the_help_that_leaves_is_no_error() {
    for args in [&["--help"][..], &["size", "--help"]] {
        let mut child = std::process::Command::new(lanecap(&[]).get_program())
            .args(args)
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::piped())
            .spawn()
            .expect("a run");
        drop(child.stdout.take());
        let output = child.wait_with_output().expect("an end");
        assert_eq!(output.status.code(), Some(0), "{args:?}: {}", String::from_utf8_lossy(&output.stderr));
        assert!(output.stderr.is_empty(), "{args:?}");
    }
}

#[test]
fn outcomes_have_their_status() {
    assert_eq!([Outcome::Holds, Outcome::Breaks, Outcome::Failed].map(Outcome::status), [0, 1, 2]);
}

#[test]
fn capacitances_are_read_with_their_unit() {
    for (text, farad) in [
        ("0.3pF", 0.3e-12),
        ("0.3 pF", 0.3e-12),
        (" 420 fF ", 420e-15),
        ("1e-1nF", 0.1e-9),
        ("0pF", 0.0),
        (".3pF", 0.3e-12),
        ("2e-12F", 2e-12),
        ("3\u{b5}F", 3e-6),
        ("1mF", 1e-3),
    ] {
        assert_eq!(capacitance(text).map(|c| c.0), Ok(farad), "{text}");
    }
    for (text, why) in [
        ("", "found no number"),
        ("pF", "found no number"),
        (".pF", "found no number"),
        ("3.pF", "unknown unit `.pF`"),
        ("nan pF", "found no number"),
        ("inf", "found no number"),
        ("0.3", "the unit is missing"),
        ("0.3pf", "unknown unit `pf`; did you mean `pF`?"),
        ("0.3e", "unknown unit `e`"),
        ("0.3e+", "unknown unit `e+`"),
        ("0.3 nH", "`nH` is a unit of inductance"),
        ("-0.3pF", "from 0 F to 1 mF"),
        ("1F", "from 0 F to 1 mF"),
        ("1e999pF", "from 0 F to 1 mF"),
        ("0.3 \u{1b}[2J", "unknown unit `U+001B[2J`"),
    ] {
        let said = capacitance(text).expect_err(text);
        assert!(said.contains(why), "{text}: {said}");
        // Every message says how to write it instead.
        assert!(said.contains("e.g. 0.3pF") || said.contains("did you mean"), "{text}: {said}");
    }
}

#[test]
fn lines_are_chosen_by_name() {
    let names = ["camera link", "uplink", "clock"];
    let pick = |wanted: &[&str]| pick_lines(&names, &wanted.iter().map(|w| (*w).to_owned()).collect::<Vec<_>>());
    assert_eq!(pick(&[]), Ok(vec![0, 1, 2]));
    assert_eq!(pick(&["clock", "uplink", "clock"]), Ok(vec![1, 2]));
    let failure = pick(&["camera lnk"]).expect_err("no such line");
    assert_eq!(failure.message, "the sheet has no line \"camera lnk\"");
    assert_eq!(failure.help.as_deref(), Some("did you mean --line \"camera link\"?"));
    let failure = pick(&["zebra crossing"]).expect_err("no such line");
    assert_eq!(failure.help.as_deref(), Some("its lines are \"camera link\", \"uplink\", \"clock\""));
}
