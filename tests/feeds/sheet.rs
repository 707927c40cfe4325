//! Feeds as a sheet states them.

use approx::assert_relative_eq;

use crate::support::{feeds, read_text, root};
use lanecap::budget::{Figures, size_feed};
use lanecap::model::{Antenna, Element, FeedLimit, Over};
use lanecap::result::size;
use lanecap::text::{Format, render};

fn codes(text: &str) -> Vec<String> {
    let errors = read_text(text).1.err().unwrap_or_default();
    errors.iter().map(|e| format!("{}: {}", e.code, e.message)).collect()
}

fn with_path(path: &str) -> String {
    format!("feed \"a\" {{ band 1 GHz to 2 GHz; reference 50 ohm\npath {{ {path} }} }}")
}

#[test]
fn a_feed_and_its_defaults() {
    let text = with_path("antenna series 50 ohm 1.5 GHz q 3; trace 50 ohm 5 mm; protector; radio 75 ohm pad 0.1 pF");
    let port = read_text(&text).1.unwrap();
    let (head, feed) = port.feeds().next().unwrap();
    assert_eq!((head.count, feed.reference.0, feed.band.middle().0), (1, 50.0, 1.5e9));
    assert!(matches!(feed.path.antenna(), Some(Antenna::Series(r)) if r.frequency.0 == 1.5e9 && r.quality == 3.0));
    // A line without a stated loss has its reference in the middle of the band.
    assert!(matches!(&feed.path.elements[1].element, Element::Line(l) if l.loss.reference.0 == 1.5e9));
    assert_eq!(feed.limits[0].of, FeedLimit::ReturnLoss(Over::Level(10.0)));
    let notes: Vec<_> = head.defaults.iter().map(|n| n.code).collect();
    assert_eq!(notes, ["default-permittivity", "default-limits"]);
    assert!(head.defaults[1].text.contains("common practice, no source"));
    let warnings: Vec<_> = head.warnings.iter().map(|n| n.code).collect();
    assert_eq!(warnings, ["radio-impedance"]);
}

#[test]
fn the_path_may_be_listed_from_the_radio_out() {
    let inward = with_path("antenna 60 ohm; connector 0.1 pF 0.3 nH; protector 0.2 pF; radio 50 ohm");
    let outward = with_path("radio 50 ohm; protector 0.2 pF; connector 0.1 pF 0.3 nH; antenna 60 ohm")
        .replace("path {", "path outward {");
    let figures = [inward, outward].map(|text| size_feed(&feeds(read_text(&text).1.unwrap())[0]).unwrap().sized.fitted);
    assert_eq!(figures[0], figures[1]);
}

#[test]
fn power_in_either_unit() {
    for power in ["2 W", "33.010299956639813 dBm"] {
        let text =
            with_path("antenna 50 ohm; protector; radio 50 ohm").replace("path", &format!("power {power}\npath"));
        let port = read_text(&text).1.unwrap();
        assert_relative_eq!(feeds(port)[0].power.unwrap().0, 2.0, max_relative = 1e-12);
    }
}

#[test]
fn ends_of_the_other_kind_and_in_the_wrong_place() {
    let path = |path: &str| codes(&with_path(path));
    assert_eq!(
        path("driver 50 ohm; protector; radio 50 ohm"),
        ["misplaced-word: `driver` does not belong in the path of a feed"]
    );
    let lane = "lane \"a\" { rate 5 Gb/s nrz; reference 50 ohm\npath { antenna 50 ohm; protector; receiver 50 ohm } }";
    assert_eq!(codes(lane), ["misplaced-word: `antenna` does not belong in the path of a lane"]);
    assert_eq!(path("protector; radio 50 ohm"), ["path-ends: the path of feed \"a\" has no antenna"]);
    assert_eq!(path("antenna 50 ohm; protector"), ["path-ends: the path of feed \"a\" has no radio"]);
    assert_eq!(path("radio 50 ohm; protector; antenna 50 ohm"), ["path-ends: the antenna stands at the wrong end"]);
    assert_eq!(
        path("connector 0.1 pF; antenna 50 ohm; protector; radio 50 ohm"),
        ["path-ends: the antenna stands between other elements"]
    );
    assert_eq!(path("antenna 50 ohm; radio 50 ohm"), ["no-protector: the path of feed \"a\" has no protector"]);
}

#[test]
fn what_an_antenna_may_be() {
    let antenna = |words: &str| codes(&with_path(&format!("antenna {words}; protector; radio 50 ohm")));
    assert!(antenna("50 ohm").is_empty());
    assert_eq!(antenna(""), ["missing-argument: `antenna` does not say which antenna"]);
    assert_eq!(antenna("parallel 1 GHz 50 ohm"), ["missing-argument: a resonator needs its `q`"]);
    assert_eq!(antenna("50 ohm q 3"), ["extra-argument: only a resonator has a `q`"]);
    assert_eq!(antenna("50 ohm parallel 1 GHz 50 ohm q 3"), ["two-alternatives: `antenna` takes only one of these"]);
    assert!(antenna("parallel 1 GHz q 3")[0].starts_with("missing-argument"));
}

#[test]
fn limits_know_their_block() {
    let feed = |limits: &str| {
        let text = with_path("antenna 50 ohm; protector; radio 50 ohm");
        codes(&text.replace("path", &format!("{limits}\npath")))
    };
    assert!(
        feed("limit vswr <= 2; limit mismatch_loss <= 0.5 dB; limit return_loss >= 9 dB at 1 GHz, 8 dB at 3 GHz")
            .is_empty()
    );
    assert_eq!(
        feed("limit eye_penalty <= 8 %"),
        ["misplaced-limit: `eye_penalty` is a limit of a lane, not of a feed"]
    );
    let lane = "limits \"match\" { vswr <= 2; return_loss >= 10 dB }\nlane \"a\" { rate 5 Gb/s nrz; reference 50 ohm; \
                limits \"match\"\npath { driver 50 ohm; protector; receiver 50 ohm } }";
    assert_eq!(codes(lane), ["misplaced-limit: `vswr` is a limit of a feed, not of a lane"]);
    let unused = lane.replace("limits \"match\"\npath", "path");
    assert!(codes(&unused).is_empty(), "a set that nobody takes is no mistake");
}

#[test]
fn lanes_and_feeds_share_their_names() {
    let lane = "lane \"a\" { rate 5 Gb/s nrz; reference 50 ohm\npath { driver 50 ohm; protector; receiver 50 ohm } }\n";
    let text = lane.to_owned() + &with_path("antenna 50 ohm; protector; radio 50 ohm");
    assert_eq!(codes(&text), ["duplicate-name: there are two lines of this name"]);
}

/// 0.5 at 170° and 0.05 at −170° lie 20° apart, and 20 dB: between them is 0.1581 at 180°.
#[test]
fn a_table_goes_straight_in_decibels_and_unwrapped_angle() {
    let text = "table \"mast\" { reference 50 ohm; point 1 GHz 0.5 170 deg; point 2 GHz 0.05 -170 deg }\n".to_owned()
        + &with_path("antenna table \"mast\"; protector; radio 50 ohm");
    let port = read_text(&text).1.unwrap();
    let Some(Antenna::Table(table)) = port.feeds().next().unwrap().1.path.antenna() else {
        panic!("no table");
    };
    let (size, angle) = table.at(lanecap::units::Hertz(1.5e9)).unwrap();
    assert_relative_eq!(size, (0.5f64 * 0.05).sqrt(), max_relative = 1e-12);
    assert_relative_eq!(angle, std::f64::consts::PI, max_relative = 1e-12);
    let outcome = size_feed(port.feeds().next().unwrap().1).unwrap();
    assert_relative_eq!(outcome.sized.absent.band.reflection, 0.5, max_relative = 1e-12);
    assert_eq!(outcome.sized.absent.resonance, None);
    let outside = text.replace("band 1 GHz", "band 0.9 GHz");
    assert_eq!(
        codes(&outside),
        ["table-span: the table \"mast\" reaches from 1 GHz to 2 GHz, not over the band 900 MHz to 2 GHz"]
    );
    let masked = text.replace("path", "limit return_loss >= 3 dB at 1 GHz, 3 dB at 2.5 GHz\npath");
    assert!(codes(&masked)[0].starts_with("table-span"), "{:?}", codes(&masked));
    let alone = text.replace("; point 2 GHz 0.05 -170 deg", "");
    assert!(codes(&alone)[0].starts_with("table-order"), "{:?}", codes(&alone));
}

#[test]
fn a_feed_in_every_form() {
    let sheet = std::fs::read_to_string(root().join("fixtures/sheets/ok/positioning_antenna.lanes")).unwrap();
    let (gathered, port) = read_text(&sheet);
    let port = port.unwrap();
    let report = size(&port, &[0, 1], Figures::All, &gathered.sources, &|| ()).unwrap();
    let json: serde_json::Value = serde_json::from_str(&render(&report, Format::Json)).unwrap();
    let feed = &json["feeds"][0];
    let keys = |value: &serde_json::Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>().join(" ");
    assert_eq!(
        keys(feed),
        "absent at_budget band_hz bode_fano_return_loss_db budget count defaults discharge fitted name port reference_ohm tolerance warnings"
    );
    let metrics = "mismatch_loss_db reflection resonance_hz return_loss_db transducer_loss_db vswr";
    assert_eq!(keys(&feed["absent"]), metrics);
    assert_eq!(
        keys(&feed["at_budget"]["retune"]),
        "detuning_hz holds nearest_e24_h return_loss_db series_inductance_h shunt_inductance_h"
    );
    assert!(feed["fitted"]["detuning_hz"].as_f64().unwrap() < 0.0);
    let csv = render(&report, Format::Csv);
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let header = reader.headers().unwrap().clone();
    let rows: Vec<_> = reader.records().map(|row| row.unwrap()).collect();
    let cell = |row: usize, key: &str| rows[row][header.iter().position(|h| h == key).expect(key)].to_owned();
    assert_eq!(rows.len(), 2);
    assert_eq!((cell(0, "name"), cell(1, "count")), ("positioning antenna".to_owned(), "2".to_owned()));
    for (key, value) in [
        ("fitted_vswr", &feed["fitted"]["vswr"]),
        ("at_budget_detuning_hz", &feed["at_budget"]["detuning_hz"]),
        ("absent_return_loss_db", &feed["absent"]["return_loss_db"]),
        ("budget_capacitance_f", &feed["budget"]["capacitance_f"]),
        ("fitted_retune_nearest_e24_h", &feed["fitted"]["retune"]["nearest_e24_h"]),
        ("band_high_hz", &feed["band_hz"][1]),
    ] {
        let number: f64 = cell(0, key).parse().expect(key);
        assert_relative_eq!(number, value.as_f64().unwrap(), max_relative = 1e-15);
    }
    for format in [Format::Table, Format::Markdown] {
        let text = render(&report, format);
        for said in ["positioning antenna", "detuning", "VSWR", "nearest E24 value 51 nH"] {
            assert!(text.replace("\n  ", " ").contains(said), "{said} is not in {text}");
        }
        assert!(!text.contains("Nyquist frequency"), "{text}");
    }
    assert!(report.passes());
}
