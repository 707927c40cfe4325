//! A row that begins with something other than a word: one error at its place, whatever block it stands in.

use lanecap::sheet::Gathered;

use crate::support::read_text;

/// A good sheet with every kind of block; `@` marks where a row may stand.
const WHOLE: &str = r#"@
laminate "board" {
    @
    permittivity 4.2
    @
}
table "mast" {
    @
    reference 50 ohm
    point 1500 MHz 0.3 -140 deg
    point 1650 MHz 0.2 -170 deg
    @
}
part "array" {
    @
    capacitance 0.42 pF max
    @
}
limits "link" {
    @
    return_loss >= 10 dB
    @
}
lane "camera" {
    @
    rate 5 Gb/s nrz
    reference 90 ohm differential
    limits "link"
    @
    path {
        @
        driver 90 ohm
        @
        trace 10 mm microstrip width 0.2 mm height 0.1 mm gap 0.2 mm on "board"
        protector part "array"
        receiver 90 ohm
        @
    }
    @
}
feed "positioning" {
    @
    band 1559 MHz to 1610 MHz
    reference 50 ohm
    path outward {
        @
        radio 50 ohm
        protector
        @
        antenna table "mast"
        @
    }
}
bus "keys" {
    @
    pull_up 10 kohm
    inputs 10 pF
    limit rise_time <= 100 us
    part "array"
    @
}
rail "supply" {
    @
    line_voltage 3 V
    @
}
@
"#;

/// Rows that begin with no word, each with the error it is.
const ROWS: [(&str, &str); 17] = [
    ("50 ohm", "expected-word"),
    ("-1 driver 50 ohm", "expected-word"),
    ("\"text\"", "expected-word"),
    ("\"text\" 50 ohm", "expected-word"),
    ("<= 3 dB", "expected-word"),
    (", ,", "expected-word"),
    (".", "expected-word"),
    ("= driver", "expected-word"),
    ("± 3 %", "expected-word"),
    ("50 { }", "expected-word"),
    ("50 ohm { series 3 ohm; 3 }", "expected-word"),
    ("\"text\" { }", "expected-word"),
    ("% { lane \"a\" }", "expected-word"),
    ("(driver 50 ohm)", "expected-word"),
    ("{ }", "brace-placement"),
    ("{ driver 50 ohm }", "brace-placement"),
    ("{ rate 5 Gb/s; driver 50 ohm; point }", "brace-placement"),
];

/// The errors of a sheet: code and line.
fn errors(text: &str) -> Vec<(&'static str, u32)> {
    let (Gathered { sources, .. }, port) = read_text(text);
    let errors = port.err().unwrap_or_default();
    errors.iter().map(|error| (error.code, sources.line(error.primary.0))).collect()
}

/// The sheet with `row` at its mark of this index and nothing at the others, and the line of that mark.
fn with_row(row: &str, index: usize) -> (String, u32) {
    let mut pieces = WHOLE.split('@');
    let mut text = pieces.next().unwrap().to_owned();
    let mut line = 0;
    for (at, piece) in pieces.enumerate() {
        if at == index {
            line = text.matches('\n').count() as u32 + 1;
            text.push_str(row);
        }
        text.push_str(piece);
    }
    (text, line)
}

#[test]
fn a_row_without_a_word_is_one_error_in_every_block() {
    assert_eq!(errors(&WHOLE.replace('@', "")), []);
    let mut wrong = Vec::new();
    for index in 0..WHOLE.matches('@').count() {
        for (row, code) in ROWS {
            let (text, line) = with_row(row, index);
            let found = errors(&text);
            // A row within braces may be one more.
            let inner = if row.ends_with("; 3 }") { 2 } else { 1 };
            if found != vec![(code, line); inner] {
                wrong.push(format!("line {line}: {row}: {found:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_block_of_such_rows_alone_is_one_error_for_each() {
    let mut wrong = Vec::new();
    for (block, rest) in [
        ("lane \"a\"", ""),
        ("lane \"a\" { rate 5 Gb/s nrz; reference 50 ohm\npath", "}"),
        ("lane \"a\" { rate 5 Gb/s nrz; reference 50 ohm\npath outward", "}"),
        ("feed \"a\"", ""),
        ("feed \"a\" { band 1 GHz to 2 GHz; reference 50 ohm\npath", "}"),
        ("part \"a\"", "rail \"b\" { part \"a\" }\nbus \"c\" { part \"a\" }"),
        (
            "table \"a\"",
            "feed \"b\" { band 1 GHz to 2 GHz; reference 50 ohm\npath { antenna table \"a\"; protector; radio 50 ohm\n} }",
        ),
        (
            "laminate \"a\"",
            "lane \"b\" { rate 5 Gb/s nrz; reference 50 ohm\npath { driver 50 ohm; trace 10 mm microstrip width 0.2 mm height 0.1 mm on \"a\"; protector; receiver 50 ohm\n} }",
        ),
        ("limits \"a\"", "rail \"b\" { current 1 A }"),
        ("bus \"a\"", ""),
        ("rail \"a\"", ""),
    ] {
        for (row, code) in ROWS {
            let text = format!("{block} {{\n{row}\n}}\n{rest}\n");
            let line = text.lines().position(|line| line == row).unwrap() as u32 + 1;
            let inner = if row.ends_with("; 3 }") { 2 } else { 1 };
            let found = errors(&text);
            if found != vec![(code, line); inner] {
                wrong.push(format!("{block}: {row}: {found:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_value_that_cannot_be_read_is_one_error_where_its_block_is_used() {
    for value in ["0.3 zF", "0.3.1 pF", "1e400 pF", "\"0.3"] {
        let text = format!(
            "part \"array\" {{\ncapacitance {value}\n}}\nlane \"a\" {{ rate 5 Gb/s nrz; reference 50 ohm\n\
             path {{ driver 50 ohm; protector part \"array\"; receiver 50 ohm\n}} }}\n"
        );
        let found = errors(&text);
        assert!(matches!(found[..], [(_, 2)]), "{value}: {found:?}");
    }
}
