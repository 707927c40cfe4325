//! Names that try to act on the terminal, the spreadsheet or the page stay names in every format.

use unicode_width::UnicodeWidthStr;

use super::sample;
use lanecap::diag::{inert, is_hostile, shorten};
use lanecap::text::{Format, render};

const FORMATS: [Format; 4] = [Format::Table, Format::Json, Format::Csv, Format::Markdown];

pub(super) fn names() -> Vec<String> {
    let mut names: Vec<String> = [
        "\u{1b}[31mred\u{1b}]0;owned\u{7}",
        "over\u{202e}evil\u{2066}",
        "a\u{0}b\u{9b}31m\u{7f}",
        "line\none\r\ntwo",
        "zero\u{200b}width\u{feff}",
        "tag\u{e0041}",
        "漢字漢字漢字漢字漢字漢字漢字漢字漢字",
        "=1+1",
        "+1",
        "-1",
        "@sum",
        "\tx",
        "\rx",
        "a|b `c` <b>x</b> [l](http://x) *s* _u_ ~~d~~ # $m$ &amp;",
        "a,b\"c",
        "",
    ]
    .map(str::to_owned)
    .to_vec();
    names.push("n".repeat(200));
    names.push(format!("e{}", "\u{301}".repeat(3000)));
    names
}

fn with_name(name: &str) -> lanecap::result::Report {
    let mut lane = sample::camera();
    lane.head.name = name.to_owned();
    lane.head.port = Some(name.to_owned());
    lane.head.part = Some(name.to_owned());
    lane.head.defaults[0].text = name.to_owned();
    let mut report = sample::report(vec![lane]);
    report.title = Some(name.to_owned());
    report
}

#[test]
fn no_name_acts_on_the_terminal() {
    for name in names() {
        for format in FORMATS {
            let text = render(&with_name(&name), format);
            let bad = text.chars().find(|c| *c != '\n' && is_hostile(*c));
            assert_eq!(bad, None, "{format:?} of {name:?}");
        }
    }
}

#[test]
fn tables_keep_their_width() {
    for name in names() {
        let text = render(&with_name(&name), Format::Table);
        for line in text.lines() {
            assert!(line.width() <= 118, "{} columns for {name:?}: {line}", line.width());
        }
        // Shortened, and then whole in every table.
        let (short, lines) = (shorten(&name, 24), text.lines().skip(2));
        let rows = lines.filter(|line| line.starts_with(&format!("  {short} ")) && line.contains("   ")).count();
        assert!(rows >= 4, "{rows} rows begin with {short:?}");
        let row = text.lines().nth(4).expect("the first row");
        assert!(row.contains("return_loss") && row.contains("holds"), "one row for {name:?}: {row}");
    }
}

#[test]
fn json_gives_names_back() {
    for name in names() {
        let value: serde_json::Value = serde_json::from_str(&render(&with_name(&name), Format::Json)).expect("JSON");
        assert_eq!(value["lanes"][0]["name"], name.as_str());
        assert_eq!(value["title"], name.as_str());
    }
}

#[test]
fn spreadsheets_see_text() {
    for name in names() {
        let text = render(&with_name(&name), Format::Csv);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let row = reader.records().next().expect("a row").expect("of the header's length");
        let guarded = name.starts_with(['=', '+', '-', '@', '\t', '\r']);
        let expected = format!("{}{}", if guarded { "'" } else { "" }, inert(&name));
        assert_eq!(&row[0], expected);
    }
}

#[test]
fn markdown_sees_text() {
    let hostile = "a|b `c` <b>x</b> [l](http://x) *s* _u_ ~~d~~ # $m$ &amp; www.x @me \\";
    let text = render(&with_name(hostile), Format::Markdown);
    let escaped = r"a\|b \`c\` \<b\>x\</b\> \[l\](http\://x) \*s\* \_u\_ \~\~d\~\~ \# \$m\$ \&amp; www\.x \@me \\";
    assert!(text.starts_with(&format!("# {escaped}\n")), "{text}");
    assert!(text.contains(&format!("\n| {escaped} | 2 | 0.4123 |")), "{text}");
    assert!(text.contains(&format!("- line 31: {escaped}\n")), "{text}");
    for name in ["- x", "1. x", "+ x"] {
        let text = render(&with_name(name), Format::Markdown);
        assert!(!text.contains(&format!("# {name}")), "{text}");
    }
}

#[test]
fn shortening_counts_columns() {
    assert_eq!(shorten("abcdef", 6), "abcdef");
    assert_eq!(shorten("abcdefg", 6), "abcde…");
    assert_eq!(shorten("漢字漢字", 8), "漢字漢字");
    assert_eq!(shorten("漢字漢字", 7), "漢字漢…");
    assert_eq!(shorten("漢字漢字", 6), "漢字…");
    assert!(shorten(&"\u{301}".repeat(1000), 5).chars().count() <= 21);
}
