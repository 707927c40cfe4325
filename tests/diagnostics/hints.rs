//! A mistake that is often made has one error, whose help is its cure.

use crate::support::read_text;

/// A lane around what is tried.
fn lane(rows: &str, path: &str) -> String {
    format!(
        "lane \"a\" {{ rate 5 Gb/s nrz; reference 50 ohm; {rows}; path {{ driver 50 ohm; {path}; receiver 50 ohm }} }}\n"
    )
}

fn part(rows: &str) -> String {
    format!("part \"p\" {{ {rows} }}\n{}", lane("port \"J1\"", "protector 0.3 pF"))
}

/// The code and the help of the one error of a text.
fn only(text: &str) -> (String, String) {
    let errors = read_text(text).1.expect_err("an error");
    assert_eq!(errors.len(), 1, "{text}: {errors:?}");
    (errors[0].code.to_owned(), errors[0].help.clone().unwrap_or_default())
}

#[test]
fn words_of_data_sheets_are_answered_with_ours() {
    let c = "capacitance 0.3 pF max";
    let cases = [
        (part(&format!("{c}; V_RWM 5 V")), "`standoff`"),
        (part(&format!("{c}; vrwm 5 V")), "`standoff`"),
        (part(&format!("{c}; clamping 9 V")), "`clamp`"),
        (part(&format!("{c}; esd 8 kV")), "`contact` or `air`"),
        (format!("laminate \"m\" {{ er 3.4 at 1 GHz }}\n{}", lane("count 1", "protector")), "`permittivity`"),
        (format!("laminate \"m\" {{ Dk 3.4 at 1 GHz }}\n{}", lane("count 1", "protector")), "`permittivity`"),
        (
            format!(
                "laminate \"m\" {{ permittivity 3.4 at 1 GHz; Df 0.01 at 1 GHz }}\n{}",
                lane("count 1", "protector")
            ),
            "`loss_tangent`",
        ),
        (lane("count 1", "protector").replace("receiver 50 ohm", "receiver 50 ohm hbm 2 kV"), "`human_body`"),
        (lane("exposure esd 8 kV", "protector 0.3 pF"), "`contact` or `air`"),
        (lane("limit insertion_loss_added <= 0.5 dB", "protector 0.3 pF"), "`added_loss`"),
        (lane("count 1", "protector 0.3 pF").replace("reference", "impedance"), "`reference`"),
    ];
    for (text, cure) in cases {
        let help = only(&text).1;
        assert!(help.contains(cure), "{text}: {help}");
    }
}

/// Code, message and help of the one error of a lane whose outer trace is this.
fn of_trace(trace: &str) -> String {
    let text = lane("count 1", &format!("{trace}; protector"));
    let errors = read_text(&text).1.expect_err("an error");
    assert_eq!(errors.len(), 1, "{text}: {errors:?}");
    format!("{}: {}; {}", errors[0].code, errors[0].message, errors[0].help.clone().unwrap_or_default())
}

#[test]
fn mistakes_around_a_tolerance_have_their_cure() {
    for (trace, said) in [
        ("trace 50 ohm 5 mm ± ", ["unexpected-character: expected a number after `±`", "`± 1 mm`"]),
        ("trace 50 ohm 5 mm +/- 0.2 mm", ["unexpected-character", "`±` or `+-`"]),
        ("trace 50 ohm 5 mm ± 0.2 mm ± 1 %", ["unexpected-character: a second tolerance", "delete the second"]),
        ("trace 50 ohm 5 mm ± -0.2 mm", ["out-of-range: a tolerance has no sign", "`± 0.2 mm`"]),
        ("trace 50 ohm 5 mm ± 0.2 pF", ["wrong-unit", "`± 0.2 mm`, or in per cent"]),
        ("trace 50 ohm 5 mm permittivity 3.6 ± 0.2 mm", ["wrong-unit", "`± 0.2`, or in per cent"]),
        (
            "trace 50 ohm 5 mm permittivity 3.6 ± 90 %",
            ["tolerance-range: with this tolerance `permittivity`", "1 to 1000"],
        ),
        (
            "trace 50 ohm 5 mm loss 2.2 dB at 3 GHz ± 10 %",
            ["tolerance: `at` takes no tolerance", "`2.2 dB ± 10 % at 3 GHz`"],
        ),
        ("trace 50 ohm 5 mm \"x\"", ["unexpected text in quotes", ""]),
    ] {
        let found = of_trace(trace);
        assert!(said.iter().all(|said| found.contains(said)), "{trace}: {found}");
    }
    let neck = |neck: &str| {
        let text = lane("count 1", &format!("trace 50 ohm 5 mm ± 0.2 mm; protector neck {neck}; trace 50 ohm 9 mm"));
        let errors = read_text(&text).1.expect_err("an error");
        assert_eq!(errors.len(), 1, "{text}: {errors:?}");
        let at = &text[errors[0].primary.0.start as usize..errors[0].primary.0.end as usize];
        format!("{at}: {}: {}; {}", errors[0].code, errors[0].message, errors[0].help.clone().unwrap_or_default())
    };
    let long = neck("70 ohm 4.9 mm");
    assert!(
        long.starts_with("4.9 mm: tolerance-corner")
            && long.ends_with("a neck of at most 4.8 mm fits the shortest trace"),
        "{long}"
    );
    for (half, wanted) in [("1 mm", "an impedance"), ("70 ohm pad 0.1 pF", "a length")] {
        let found = neck(half);
        assert!(found.contains(&format!("missing-argument: `neck` needs {wanted} too")), "{half}: {found}");
    }
}

/// A name of a group that one row alone has, and that is near to another's, is likely misspelt.
#[test]
fn a_group_of_one_row_is_warned_of_where_another_name_is_near() {
    let codes = |groups: [&str; 3]| {
        let [a, b, c] =
            groups.map(|group| format!("trace 50 ohm ± 5 % 5 mm permittivity 3.6 ± 4 % together \"{group}\""));
        let design = read_text(&lane("count 1", &format!("{a}; {b}; protector; {c}"))).1.unwrap();
        let warnings = design.lines[0].head.warnings.iter();
        warnings.filter(|note| note.code == "group-of-one").map(|note| note.text.clone()).collect::<Vec<_>>()
    };
    assert_eq!(codes(["pcb", "pcb", "pbc"]), ["`together \"pbc\"` stands in one row alone: did you mean \"pcb\"?"]);
    assert_eq!(codes(["pcb", "pcb", "pcb"]), [""; 0]);
    assert_eq!(codes(["pcb", "pcb", "flex cable"]), [""; 0]);
    // Of two rows it is a group.
    assert_eq!(codes(["pcb", "pbc", "pbc"]), ["`together \"pcb\"` stands in one row alone: did you mean \"pbc\"?"]);
}

#[test]
fn numbers_written_otherwise_have_their_cure() {
    let cases = [
        (lane("count 1", "series 2k2; protector 0.3 pF"), "unknown-unit", "2.2 kohm"),
        (lane("count 1", "series 4R7; protector 0.3 pF"), "unknown-unit", "4.7 ohm"),
        (lane("count 1", "protector 0p3"), "unknown-unit", "0.3 pF"),
        (lane("count 1", "protector 0,3 pF"), "bad-number", "`0.3`"),
        (part("capacitance 0,3 pF"), "bad-number", "`0.3`"),
        (part("capacitance 0.3 pF; temperature 0 degC to 85 C"), "unknown-unit", "degC"),
        (lane("count 1", "protector 3 nH"), "wrong-unit", "`protector inductance …`"),
        (lane("exposure 8 kV contact", "protector 0.3 pF"), "extra-argument", "`exposure contact …`"),
        (lane("limit return_loss <= -10 dB", "protector 0.3 pF"), "wrong-comparison", "positive number"),
        (lane("limit return_loss >= -10 dB", "protector 0.3 pF"), "out-of-range", "leave the sign out"),
        (lane("limit return_loss > 10 dB", "protector 0.3 pF"), "unexpected-character", "`>=`"),
    ];
    for (text, code, cure) in cases {
        let (found, help) = only(&text);
        assert_eq!(found, code, "{text}");
        assert!(help.contains(cure), "{text}: {help}");
    }
}

#[test]
fn a_mask_has_its_commas() {
    let text = lane("limit return_loss >= 18 dB at 100 MHz, 12 dB at 1 GHz,8 dB at 2 GHz", "protector 0.3 pF");
    assert!(read_text(&text).1.is_ok());
}

#[test]
fn a_missing_file_is_one_error() {
    let missing = "include \"no such file.parts\"\n";
    let text = format!("{missing}{}", lane("limits \"fast\"", "protector part \"quad\""));
    assert_eq!(only(&text).0, "include-missing");
}

#[test]
fn work_ends_with_the_fiftieth_error() {
    let names: String = (0..5_000).map(|k| format!("part \"part {k}\" {{ capacitance 1 pF }}\n")).collect();
    let lanes: String = (0..3_000)
        .map(|k| lane("count 1", &format!("protector part \"nope {k}\"")).replace("\"a\"", &format!("\"{k}\"")))
        .collect();
    for text in
        ["foo 3 bar\n".repeat(100_000), format!("lane \"a\" {{\n{}}}", "foo 3\n".repeat(100_000)), names + &lanes]
    {
        let errors = read_text(&text).1.expect_err("errors");
        assert_eq!(errors.len(), 50);
    }
}

/// Two rows that contradict each other: the error stands at the one, points at the other and says what to look at.
#[test]
fn a_part_that_contradicts_itself_is_told_where() {
    let cases = [
        ("standoff 6 V; trigger 4 V", "trigger-below-standoff", "trigger 4 V", "standoff 6 V"),
        ("standoff 12 V; breakdown 4 V", "breakdown-below-standoff", "breakdown 4 V", "standoff 12 V"),
        ("holding 9 V; clamp 8 V at 16 A", "clamp-below-holding", "clamp 8 V at 16 A", "holding 9 V"),
        ("holding 9 V; surge_clamp 8 V at 16 A", "clamp-below-holding", "surge_clamp 8 V at 16 A", "holding 9 V"),
        ("unidirectional; standoff -1 V to 5 V", "standoff-below-ground", "standoff -1 V to 5 V", "unidirectional"),
        ("rails 5 V; standoff -1 V to 5 V", "standoff-below-ground", "standoff -1 V to 5 V", "rails 5 V"),
    ];
    for (rows, code, at, other) in cases {
        let text = part(&format!("capacitance 0.3 pF max; {rows}"));
        assert_eq!(only(&text).0, code, "{rows}");
        assert!(!only(&text).1.is_empty());
        let errors = read_text(&text).1.expect_err("an error");
        let said = |span: lanecap::diag::Span| &text[span.start as usize..span.end as usize];
        assert_eq!(said(errors[0].primary.0), at);
        assert_eq!(said(errors[0].secondary[0].0), other);
    }
    for rows in [
        "standoff 6 V; trigger 6 V; holding 2 V; clamp 2 V at 16 A",
        "standoff 6 V; breakdown 6 V; clamp 9 V at 16 A",
        "unidirectional; standoff -0.3 V to 5 V",
        "standoff -12 V to 12 V",
        "bidirectional; standoff -12 V to 12 V",
    ] {
        let text = part(&format!("capacitance 0.3 pF max; {rows}"));
        assert!(read_text(&text).1.is_ok(), "{rows}");
    }
}
