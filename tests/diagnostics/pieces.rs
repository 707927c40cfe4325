//! A long sheet is read in pieces at once, and says what it says read from its start to its end.

use lanecap::sheet::parse;
use rayon::ThreadPoolBuilder;

use crate::support::port::sheet;

/// Tree and errors of a text, as read by so many threads; one reads it from its start to its end.
fn read(text: &str, threads: usize) -> String {
    let pool = ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    pool.install(|| format!("{:?}", parse(0, text)))
}

fn same(text: &str, what: &str) {
    assert!(text.len() > 200_000, "{what}: too short for pieces");
    for threads in [2, 5] {
        assert!(read(text, threads) == read(text, 1), "{what}, {threads} threads");
    }
}

/// The text with `by` put behind the first `mark` after its middle.
fn behind(text: &str, mark: &str, by: &str) -> String {
    let middle = text.len() / 2;
    let at = middle + text[middle..].find(mark).unwrap() + mark.len();
    format!("{}{by}{}", &text[..at], &text[at..])
}

#[test]
fn a_good_sheet_has_one_tree() {
    let text = sheet(400);
    same(&text, "as it is");
    same(&format!("\u{feff}{text}"), "with a byte order mark");
    same(&text.replace('\n', "\r\n"), "with other line ends");
    same(&text.replace("    ", "").replace("path {\n", "path\t{ # lane \"x\" {\n"), "without indents");
    same(&text.replace("\nlane", "; lane"), "without a line of its own for any block");
    assert!(!read(&text, 5).contains("broken: true"));
}

#[test]
fn a_mistake_is_the_same_mistake() {
    let text = sheet(400);
    let mistakes = [
        ("}\n", "}\n"),
        ("path {\n", "{\n"),
        ("path {\n", "lane \"inside\" {\n"),
        ("path {\n", "a { b { c { d { e { f { g { h { i {\n"),
        ("path {\n", "driver \"50 ohm\n"),
        ("path {\n", "\u{1b}\n"),
        ("path {\n", "\u{85}\n"),
        ("}\n", "\u{feff}"),
        ("}\n", "lane \"open\" { rate\n"),
        ("}\n", "table \"{\" {\n"),
        ("}\n", "lane\n{\n"),
        ("rate ", "5 Gbps 3..4 "),
    ];
    for (mark, by) in mistakes {
        let faulty = behind(&text, mark, by);
        same(&faulty, by);
        assert!(!parse(0, &faulty).1.is_empty(), "{by}: no error");
    }
    same(&text[..text.len() - 3], "cut off");
    same(&text.replace("}\n", "\n"), "without an end of any block");
}
