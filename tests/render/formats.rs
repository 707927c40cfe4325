//! A report in every format.

use super::sample;
use lanecap::figures::{ADDED_LOSS, RETURN_LOSS};
use lanecap::parts::Verdict;
use lanecap::result::CAUTIONS;
use lanecap::text::{Format, render};
use lanecap::units::{Baud, Farad};

#[test]
fn the_table_as_a_whole() {
    insta::assert_snapshot!(render(&sample::all(), Format::Table));
}

#[test]
fn the_page_as_a_whole() {
    insta::assert_snapshot!(render(&sample::report(vec![sample::broken_by_little()]), Format::Markdown));
}

#[test]
fn every_reader_sees_the_cautions() {
    for format in [Format::Table, Format::Json, Format::Markdown] {
        let text = render(&sample::all(), format).split_whitespace().collect::<Vec<_>>().join(" ");
        for caution in CAUTIONS {
            assert!(text.contains(caution), "{format:?}: {caution}");
        }
    }
}

#[test]
fn json_has_every_key_once() {
    let text = render(&sample::all(), Format::Json);
    let value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    for kind in ["feeds", "buses", "rails"] {
        assert_eq!(value[kind], serde_json::json!([]));
    }
    assert_eq!(value["lanes"][0]["fitted"]["return_loss_db"], 13.1);
    assert_eq!(value["lanes"][5]["budget"]["intervals_f"], serde_json::json!([[0.0, null]]));
    // The parser keeps the last of two equal keys: as many keys in the text as in the value.
    fn keys(value: &serde_json::Value) -> usize {
        match value {
            serde_json::Value::Object(map) => map.len() + map.values().map(keys).sum::<usize>(),
            serde_json::Value::Array(list) => list.iter().map(keys).sum(),
            _ => 0,
        }
    }
    assert_eq!(text.matches("\": ").count(), keys(&value));
}

#[test]
fn csv_has_every_scalar_of_the_json() {
    let report = sample::all();
    let json: serde_json::Value = serde_json::from_str(&render(&report, Format::Json)).expect("JSON");
    let text = render(&report, Format::Csv);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let rows: Vec<_> = reader.records().map(|row| row.expect("a row")).collect();
    assert_eq!(rows.len(), 6);
    for (row, lane) in rows.iter().zip(json["lanes"].as_array().expect("lanes")) {
        let mut seen = 0;
        let mut check = |key: String, value: &serde_json::Value| {
            let column = header.iter().position(|name| name == key).expect(&key);
            let cell = &row[column];
            seen += 1;
            match value {
                serde_json::Value::Null => assert_eq!(cell, "", "{key}"),
                serde_json::Value::String(text) => assert_eq!(cell, text, "{key}"),
                serde_json::Value::Number(number) => assert_eq!(cell.parse().ok(), number.as_f64(), "{key}"),
                other => assert_eq!(cell, other.to_string(), "{key}"),
            }
        };
        for (key, value) in lane.as_object().expect("a lane") {
            match value {
                serde_json::Value::Object(inner) => {
                    for (name, value) in inner.iter().filter(|(_, value)| !value.is_array()) {
                        check(format!("{key}_{name}"), value);
                    }
                }
                serde_json::Value::Array(_) => {}
                // Nothing fitted, no budget: the cells of that group are empty.
                serde_json::Value::Null
                    if matches!(key.as_str(), "fitted" | "at_budget" | "discharge" | "tolerance") => {}
                value => check(key.clone(), value),
            }
        }
        if !lane["fitted"].is_null() && !lane["at_budget"].is_null() {
            // The sample is not struck, and has no tolerances.
            assert!(lane["discharge"].is_null() && lane["tolerance"].is_null());
            let other = ["discharge_", "worst_", "yield_"];
            let told = header.iter().filter(|name| !other.iter().any(|other| name.starts_with(other))).count();
            assert_eq!(seen, told, "columns the JSON does not have");
        }
    }
    // Without a line the header is still there.
    assert_eq!(render(&sample::report(vec![]), Format::Csv).lines().next(), text.lines().next());
}

#[test]
fn an_impossible_line_says_why() {
    let text = render(&sample::report(vec![sample::impossible()]), Format::Table);
    assert!(
        text.contains("return_loss breaks already with the protector absent: 11.2 dB against >= 12 dB, 0.8 dB off.")
    );
    assert!(text.contains("added_loss holds with the protector absent and breaks with the empty footprint (C = 0)."));
    // Limits that hold each, but nowhere together.
    let mut lane = sample::impossible();
    let mut low = sample::limit(&RETURN_LOSS, 12.0, None);
    low.1.allowed = sample::between(0.5e-12, Some(1e-12));
    sample::set_limits(&mut lane, vec![low, sample::limit(&ADDED_LOSS, 0.2, Some(0.4e-12))]);
    let text = render(&sample::report(vec![lane]), Format::Table);
    assert!(
        text.contains("nothing in common: return_loss allows 0.5 to 1 pF; added_loss allows up to 0.4 pF."),
        "{text}"
    );
}

#[test]
fn lines_of_very_different_size_keep_their_digits() {
    let mut small = sample::camera();
    small.head.name = "small".to_owned();
    sample::budget(&mut small).capacitance = Some(Farad(1.2345e-15));
    small.about.symbol_rate = Baud(9600.0);
    let mut large = sample::camera();
    large.head.name = "large".to_owned();
    sample::budget(&mut large).capacitance = Some(Farad(98.765e-9));
    let text = render(&sample::report(vec![small, large]), Format::Table);
    assert!(text.contains("0.001234") && text.contains("98760"), "{text}");
    assert!(text.contains("0.0096"), "{text}");
}

#[test]
fn a_perfect_match_and_silence_are_words() {
    let mut lane = sample::camera();
    let fitted = sample::fitted(&mut lane);
    fitted.at.figures.loss.return_loss = None;
    fitted.at.figures.loss.insertion_loss = None;
    let headroom = &mut fitted.headroom[1];
    (headroom.value, headroom.margin) = (None, None);
    let text = render(&sample::report(vec![lane.clone()]), Format::Table);
    assert!(text.contains("no reflection") && text.contains("nothing passes"), "{text}");
    // Unlimited headroom is not the tightest.
    assert_eq!(lane.tightest().map(|headroom| headroom.figure.word()), Some("eye_penalty"));
}

#[test]
fn passing_follows_what_is_fitted() {
    let check = |lane, passes| assert_eq!(sample::report(vec![lane]).passes(), passes);
    check(sample::camera(), true);
    check(sample::broken_by_little(), false);
    check(sample::masked(), true);
    check(sample::unbounded(), true);
    check(sample::window(), false);
    check(sample::impossible(), false);
    // A fitted value inside the window does.
    let mut lane = sample::window();
    lane.outcome.sized.fitted = sample::camera().outcome.sized.fitted;
    check(lane, true);
    // A failing check breaks the line, one that is not stated does not.
    let with_check = |verdict| {
        let mut lane = sample::camera();
        lane.head.checks[0].verdict = verdict;
        lane
    };
    check(with_check(Verdict::Fails), false);
    check(with_check(Verdict::NotStated), true);
    let text = render(&sample::report(vec![with_check(Verdict::Fails)]), Format::Table);
    assert!(text.contains("camera link: fails stand-off"), "{text}");
}
