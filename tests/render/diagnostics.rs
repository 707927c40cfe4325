//! Places in a sheet: real lines and columns, spans under their text, nothing that acts on the terminal.

use proptest::prelude::*;
use unicode_width::UnicodeWidthChar;

use lanecap::diag::{Diagnostic, Paint, SourceFile, Sources, Span, is_hostile, render};
use lanecap::result::diagnostics_json;

fn sources(text: &str) -> Sources {
    Sources { files: vec![SourceFile::new("port.lanes", text)] }
}

fn span(start: usize, end: usize) -> Span {
    Span { file: 0, start: start as u32, end: end as u32 }
}

fn at(start: usize, end: usize) -> Diagnostic {
    Diagnostic::error("some-code", span(start, end), "something is wrong").label("here")
}

fn plain(text: &str, start: usize, end: usize) -> String {
    render(&sources(text), &at(start, end), Paint::Plain)
}

/// The place as printed, the first line of source shown, and what its carets underline, by terminal columns.
fn underlined(rendered: &str) -> (String, String, String) {
    let lines: Vec<&str> = rendered.lines().collect();
    let place = lines[1].split_once("┌─ ").expect("a place").1.to_owned();
    let source = lines[3].split_once("│ ").map_or("", |(_, source)| source);
    let carets = lines[4].split_once("│ ").expect("a line of carets").1;
    let from = carets.find('^').expect("a caret");
    let to = from + carets[from..].chars().take_while(|c| *c == '^').count();
    let mut column = 0;
    let mut under = String::new();
    for c in source.chars() {
        if (from..to).contains(&column) {
            under.push(c);
        }
        column += c.width().unwrap_or(0);
    }
    (place, source.to_owned(), under)
}

#[track_caller]
fn check(text: &str, start: usize, end: usize, place: &str, source: &str, under: &str) {
    let rendered = plain(text, start, end);
    let expected = (format!("port.lanes:{place}"), source.to_owned(), under.to_owned());
    assert_eq!(underlined(&rendered), expected, "\n{rendered}");
}

#[test]
fn the_whole_of_a_diagnostic() {
    let text = "lane \"a\" {\n    rate 5 Gbps\n}\nlane \"a\" {\n}\n";
    let diagnostic = Diagnostic::error("duplicate-name", span(34, 37), "a second lane is called \"a\"")
        .label("again")
        .also(span(5, 8), "first here")
        .help("give it another name");
    let expected = "\
error[duplicate-name]: a second lane is called \"a\"
  ┌─ port.lanes:4:6
  │
1 │ lane \"a\" {
  │      --- first here
  ·
4 │ lane \"a\" {
  │      ^^^ again
  │
  = help: give it another name

";
    assert_eq!(render(&sources(text), &diagnostic, Paint::Plain), expected);
}

#[test]
fn places_in_two_files() {
    let mut sources = sources("include \"b.lanes\"\n");
    sources.files.push(SourceFile::new("b.lanes", "x\n\nrate 1\n"));
    let in_second = Span { file: 1, start: 3, end: 7 };
    let diagnostic = Diagnostic::error("e", in_second, "m").also(span(8, 17), "included here");
    let text = render(&sources, &diagnostic, Paint::Plain);
    assert!(text.contains("┌─ b.lanes:3:1") && text.contains("3 │ rate 1\n"), "{text}");
    assert!(text.contains("┌─ port.lanes:1:9") && text.contains("--------- included here"), "{text}");
}

#[test]
fn spans_at_every_edge() {
    check("rate 5 Gbps", 7, 11, "1:8", "rate 5 Gbps", "Gbps");
    // Nothing to underline: one caret where the missing thing belongs.
    check("rate 5", 6, 6, "1:7", "rate 5", "");
    check("rate 5\n", 7, 7, "2:1", "", "");
    check("", 0, 0, "1:1", "", "");
    // Over several lines: the first.
    check("lane {\n  rate\n}\n", 5, 15, "1:6", "lane {", "{");
    // Carriage returns and the byte order mark are no part of a line.
    check("a b\r\nc d\r\n", 7, 8, "2:3", "c d", "d");
    check("a b\r\nc d\r\n", 3, 5, "1:4", "a b", "");
    check("\u{feff}rate 5", 3, 7, "1:1", "rate 5", "rate");
    check("\u{feff}rate 5", 0, 7, "1:1", "rate 5", "rate");
    // Columns count characters; carets count terminal columns.
    check("title \"ä漢字\" x", 17, 18, "1:13", "title \"ä漢字\" x", "x");
    check("a\tb c", 2, 3, "1:3", "a    b c", "b");
    // Marks without a width of their own can still be pointed at.
    check("e\u{301}x", 1, 3, "1:2", "eU+0301x", "U+0301");
    check("a\u{1b}[31mb", 1, 2, "1:2", "aU+001B[31mb", "U+001B");
    check("a\u{202e}b\0", 1, 4, "1:2", "aU+202EbU+0000", "U+202E");
}

#[test]
fn a_long_line_is_shown_in_part() {
    let text = format!("start {} here {}\nnext\n", "x".repeat(5000), "y".repeat(5000));
    let begin = 5007;
    let rendered = plain(&text, begin, begin + 4);
    let (place, source, under) = underlined(&rendered);
    assert_eq!((place.as_str(), under.as_str()), ("port.lanes:1:5008", "here"));
    assert!(source.starts_with("…xxx") && source.ends_with("yyy…"), "{source}");
    assert!((90..=105).contains(&source.chars().count()), "{source}");
    // The end of it, and a span longer than what is shown.
    let (_, source, under) = underlined(&plain(&text, 10_007, 10_012));
    assert!(source.starts_with('…') && source.ends_with('y') && under == "yyyyy", "{source}");
    let (_, source, under) = underlined(&plain(&text, 6, 5006));
    assert!(source.starts_with("start xxx") && source.ends_with("x…") && under.len() > 80, "{source}");
    // Two places far apart on one line are shown apart.
    let diagnostic = at(0, 5).also(span(begin, begin + 4), "and here");
    let rendered = render(&sources(&text), &diagnostic, Paint::Plain);
    assert_eq!(rendered.matches("\n1 │ ").count(), 2, "{rendered}");
    assert!(rendered.contains("^^^^^ here") && rendered.contains("---- and here"), "{rendered}");
}

#[test]
fn a_very_large_line_is_shown_in_part() {
    let text = "x".repeat(16 << 20);
    let sources = sources(&text);
    let rendered = render(&sources, &at(15 << 20, (15 << 20) + 1), Paint::Plain);
    assert!(rendered.len() < 1000);
}

#[test]
fn text_from_the_sheet_is_inert_everywhere() {
    let bad = "\u{1b}[2J\u{202e}\n\u{9b}";
    let sources = Sources { files: vec![SourceFile::new(bad, format!("{bad} x"))] };
    let diagnostic = Diagnostic::error("e", span(0, 4), bad).label(bad).help(bad).also(span(4, 7), bad);
    let text = render(&sources, &diagnostic, Paint::Plain);
    assert!(!text.chars().any(|c| c != '\n' && is_hostile(c)), "{text}");
    let json = diagnostics_json(&sources, &[diagnostic]);
    assert!(!json.chars().any(|c| c != '\n' && is_hostile(c)), "{json}");
    let value: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(value["diagnostics"][0]["message"], bad);
}

#[test]
fn colour_adds_codes_and_nothing_else() {
    let sources = sources("rate 5 Gbps\n");
    let diagnostic = at(7, 11).help("write Gb/s");
    let painted = render(&sources, &diagnostic, Paint::Ansi);
    assert!(painted.contains("\u{1b}["), "{painted}");
    let mut bare = String::new();
    let mut rest = painted.as_str();
    while let Some((before, code)) = rest.split_once("\u{1b}[") {
        bare.push_str(before);
        rest = code.split_once('m').expect("the end of a code").1;
    }
    bare.push_str(rest);
    assert_eq!(bare, render(&sources, &diagnostic, Paint::Plain));
}

#[test]
fn json_tells_each_place() {
    let sources = sources("lane \"ä\" {\n  rate 5 Gbps\n}\n");
    let diagnostic = at(21, 25).also(span(0, 4), "in this lane").help("write Gb/s");
    let value: serde_json::Value = serde_json::from_str(&diagnostics_json(&sources, &[diagnostic])).expect("JSON");
    let expected = serde_json::json!({
        "lanecap": env!("CARGO_PKG_VERSION"), "schema": 1,
        "diagnostics": [{
            "severity": "error", "code": "some-code", "message": "something is wrong", "file": "port.lanes",
            "line": 2, "column": 10, "end_line": 2, "end_column": 14, "label": "here",
            "also": [{"file": "port.lanes", "line": 1, "column": 1, "label": "in this lane"}], "help": "write Gb/s",
        }],
    });
    assert_eq!(value, expected);
    // A place in an unknown file has none.
    let nowhere = Span { file: 7, start: 0, end: 1 };
    let nowhere = Diagnostic::error("e", nowhere, "m");
    assert_eq!(render(&sources, &nowhere, Paint::Plain), "error[e]: m\n\n");
    let value: serde_json::Value = serde_json::from_str(&diagnostics_json(&sources, &[nowhere])).expect("JSON");
    assert!(value["diagnostics"][0]["line"].is_null());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    #[test]
    fn any_span_of_any_text_is_shown(
        text in "([a-z \t\u{e4}\u{6f22}\u{301}\u{1b}\u{202e}\u{feff}]|\r\n|\n|[a-z]{60}){0,30}",
        start in 0u32..600, length in 0u32..300, second in 0u32..600,
    ) {
        let diagnostic = at(start as usize, (start + length) as usize).also(span(second as usize, second as usize), "x");
        for paint in [Paint::Plain, Paint::Ansi] {
            let shown = render(&sources(&text), &diagnostic, paint);
            prop_assert!(shown.contains("^") && shown.contains("port.lanes:"), "{}", shown);
        }
        let shown = render(&sources(&text), &diagnostic, Paint::Plain);
        prop_assert!(!shown.chars().any(|c| c != '\n' && is_hostile(c)));
        diagnostics_json(&sources(&text), &[diagnostic]);
    }

    #[test]
    fn carets_stand_under_their_text(line in "[a-z\u{e4}\u{6f22} ]{1,40}", from in 0usize..40, count in 1usize..10) {
        let starts: Vec<usize> = line.char_indices().map(|(i, _)| i).chain([line.len()]).collect();
        let from = from.min(starts.len() - 2);
        let to = (from + count).min(starts.len() - 1);
        let text = format!("first\n{line}\nlast");
        let (place, _, under) = underlined(&plain(&text, 6 + starts[from], 6 + starts[to]));
        prop_assert_eq!(place, format!("port.lanes:2:{}", from + 1));
        prop_assert_eq!(under, &line[starts[from]..starts[to]]);
    }
}
