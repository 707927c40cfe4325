//! Each swept point against `size` of the sheet with that value written in.

use serde_json::Value;

use super::{design, edited, random_sheet};
use crate::support::random::Random;
use crate::support::read_text;
use lanecap::budget::Figures;
use lanecap::result::{SweepReport, size, sweep};
use lanecap::study::Over;
use lanecap::text::{Format, render, render_sweep};

fn over(sheet: &str, address: &str, from: f64, to: f64) -> Over {
    let line = design(sheet).lines.remove(0);
    let of = line.addressed(&address.parse().unwrap()).unwrap().clone();
    Over { of, from, to }
}

fn swept(sheet: &str, over: Vec<Over>, steps: u32) -> SweepReport {
    let (gathered, design) = read_text(sheet);
    let design = design.unwrap();
    sweep(&design, &design.lines[0], (over, steps), Figures::All, &gathered.sources, &|| ()).unwrap()
}

/// The keys of the first line of a sheet as `size` writes them.
fn size_json(sheet: &str) -> Value {
    let (gathered, design) = read_text(sheet);
    let report = size(&design.unwrap(), &[0], Figures::All, &gathered.sources, &|| ()).unwrap();
    let json: Value = serde_json::from_str(&render(&report, Format::Json)).unwrap();
    ["lanes", "feeds", "buses"].iter().find_map(|kind| json[kind].get(0)).unwrap().clone()
}

const KEYS: [&str; 4] = ["absent", "fitted", "at_budget", "budget"];

/// Whether two results are the same, numbers to 1e-9; the lines of the sheet apart.
fn same(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
            (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-15)
        }
        (Value::Array(a), Value::Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b)),
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len() && a.iter().all(|(key, a)| key == "line" || same(a, &b[key]))
        }
        _ => a == b,
    }
}

#[test]
fn each_point_is_the_sheet_with_that_value() {
    let mut r = Random(0x53ee);
    for _ in 0..3 {
        let sheet = random_sheet(&mut r);
        for (address, element, before, unit, factor, ends) in [
            ("3.length", 3, "ohm ", "mm", 1e-3, (1e-3, 13e-3)),
            ("8.pad", 8, "pad ", "pF", 1e-12, (0.0, 0.6e-12)),
            ("5.impedance", 5, "trace ", "ohm", 1.0, (40.0, 120.0)),
        ] {
            let report = swept(&sheet, vec![over(&sheet, address, ends.0, ends.1)], 4);
            let json: Value = serde_json::from_str(&render_sweep(&report, Format::Json)).unwrap();
            let points = json["points"].as_array().unwrap();
            assert_eq!((points.len(), &json["over"][0]["address"]), (5, &Value::from(address)));
            for (k, point) in points.iter().enumerate() {
                let at = point["at"][0].as_f64().unwrap();
                assert!((at - (ends.0 + (ends.1 - ends.0) * k as f64 / 4.0)).abs() <= 1e-12 * at.abs());
                let expected = size_json(&edited(&sheet, element, before, unit, at / factor));
                for key in KEYS {
                    assert!(
                        same(&point[key], &expected[key]),
                        "{address} = {at}, {key}:\n{}\n{}",
                        point[key],
                        expected[key]
                    );
                }
            }
        }
    }
}

#[test]
fn a_bus_and_a_feed_are_swept_too() {
    let bus = "bus \"b\" { pull_up 2 kohm; wiring 60 pF; inputs 40 pF; limit rise_time <= 1 us }";
    let report = swept(bus, vec![over(bus, "pull_up", 1e3, 3e3)], 2);
    let json: Value = serde_json::from_str(&render_sweep(&report, Format::Json)).unwrap();
    for (k, ohm) in ["1 kohm", "2 kohm", "3 kohm"].into_iter().enumerate() {
        let expected = size_json(&bus.replace("2 kohm", ohm));
        assert!(KEYS.iter().all(|key| same(&json["points"][k][key], &expected[key])), "{ohm}");
    }
    assert_eq!((&json["kind"], &json["over"][0]["unit"]), (&Value::from("bus"), &Value::from("ohm")));
    let csv = render_sweep(&report, Format::Csv);
    assert_eq!(csv.lines().count(), 4);
    assert!(csv.starts_with("pull_up,name,"), "{csv}");

    let feed = "feed \"f\" { band 1.5 GHz to 1.6 GHz; reference 50 ohm; limit return_loss >= 8 dB
        path { antenna series 1.55 GHz 45 ohm q 8; protector 0.2 pF; trace 50 ohm 5 mm permittivity 3; radio 50 ohm } }";
    let report = swept(feed, vec![over(feed, "3.length", 2e-3, 8e-3)], 2);
    let json: Value = serde_json::from_str(&render_sweep(&report, Format::Json)).unwrap();
    let expected = size_json(feed);
    assert!(KEYS.iter().all(|key| same(&json["points"][1][key], &expected[key])));
}

/// The first of two moves slowest; each point of the map is that of a sweep over the other alone.
#[test]
fn two_values_make_a_map() {
    let sheet = random_sheet(&mut Random(0x3a9));
    let [slow, fast] = [over(&sheet, "3.length", 1e-3, 9e-3), over(&sheet, "8.pad", 0.1e-12, 0.3e-12)];
    let map = swept(&sheet, vec![slow.clone(), fast.clone()], 2);
    let at: Vec<Vec<f64>> = map.points.iter().map(|point| point.at.clone()).collect();
    let (slow, fast) = (slow.values(2), fast.values(2));
    let expected: Vec<Vec<f64>> = slow.iter().flat_map(|a| fast.iter().map(|b| vec![*a, *b])).collect();
    assert_eq!(at, expected);
    let own = edited(&edited(&sheet, 3, "ohm ", "mm", 5.0), 8, "pad ", "pF", 0.3);
    let expected = size_json(&own);
    let json: Value = serde_json::from_str(&render_sweep(&map, Format::Json)).unwrap();
    assert!(KEYS.iter().all(|key| same(&json["points"][5][key], &expected[key])));
}

#[test]
fn a_value_of_which_no_line_can_be_made_is_named() {
    let sheet = "lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB
        path { driver 50 ohm; trace 50 ohm 5 mm permittivity 3.5 loss 0.2 dB at 2 GHz; protector 0.2 pF; receiver 50 ohm } }";
    let (gathered, design) = read_text(sheet);
    let design = design.unwrap();
    let asked = (vec![over(sheet, "2.length", 0.0, 4e-3)], 2);
    let no = sweep(&design, &design.lines[0], asked, Figures::All, &gathered.sources, &|| ()).unwrap_err();
    assert_eq!(no.at, [0.0]);
    assert!(no.why.contains("element 2"), "{}", no.why);
}
