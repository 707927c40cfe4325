//! The coefficients that the page computes with give the numbers of the tool.

use num_complex::Complex64;
use roxmltree::Document;
use serde_json::Value;

use super::{as_xml, demo, made};
use crate::support::read_text;
use lanecap::budget::Figures;
use lanecap::figures::*;
use lanecap::result::size;
use lanecap::units::Farad;

/// (p + qC)/(r + sC) of eight numbers, C in picofarad.
fn value(coefficients: &Value, c: f64) -> Complex64 {
    let part = |i: usize| coefficients[i].as_f64().unwrap();
    let term = |i: usize| Complex64::new(part(i), part(i + 1)) + c * Complex64::new(part(i + 2), part(i + 3));
    term(0) / term(4)
}

fn near(shown: f64, told: f64, what: &str) {
    assert!((shown - told).abs() <= 1e-9 * told.abs().max(1.0), "{what}: {shown} {told}");
}

#[test]
fn the_coefficients_are_the_chain() {
    let sheet = demo();
    let (review, page) = made(&sheet);
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let data: Vec<Value> = document
        .descendants()
        .filter(|node| node.attribute("type") == Some("application/json"))
        .map(|node| serde_json::from_str(node.text().unwrap()).unwrap())
        .collect();
    assert_eq!(data.len(), review.report.lanes.len());
    for c in [0.0, 0.07, 0.4, 1.3, 25.0] {
        let (gathered, port) = read_text(&sheet);
        let mut port = port.unwrap();
        port.fit(Farad(c * 1e-12));
        let all: Vec<usize> = (0..port.lanes().count()).collect();
        let report = size(&port, &all, Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        for (lane, data) in report.lanes.iter().zip(&data) {
            let fitted = &lane.fitted().unwrap().at;
            let figure = |of| fitted.figures.read(of).or_else(|| fitted.changes.read(of)).unwrap();
            let at = &data["at_nyquist"];
            let [s11, s21, s22, h] = ["s11", "s21", "s22", "transfer"].map(|name| value(&at[name], c).norm());
            let db = |ratio: f64| -20.0 * ratio.log10();
            near(db(s21), figure(&INSERTION_LOSS), "insertion loss");
            near(db(s11), figure(&RETURN_LOSS), "return loss");
            near(s11, figure(&REFLECTED), "reflection");
            near(db(s22), figure(&RETURN_LOSS_INNER), "return loss, inner end");
            near(h, figure(&NYQUIST_AMPLITUDE), "amplitude");
            let absent = |name: &str| at[name].as_f64().unwrap();
            near(db(s21 / absent("absent_s21")), figure(&ADDED_LOSS), "added loss");
            near(1.0 - h / absent("absent_transfer"), figure(&EYE_PENALTY), "penalty");
        }
    }
}

/// The curves reach over their whole panel and meet Nyquist with the value that stands there.
#[test]
fn the_curves_run_through_the_values_at_nyquist() {
    let (review, page) = made(&demo());
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let data = document.descendants().filter(|node| node.attribute("type") == Some("application/json"));
    let mut seen = 0;
    for (lane, node) in review.report.lanes.iter().zip(data) {
        let data: Value = serde_json::from_str(node.text().unwrap()).unwrap();
        let fitted = &lane.fitted().unwrap().at;
        for panel in data["panels"].as_array().unwrap() {
            let Some(curve) = panel["over_r"].as_array() else {
                continue;
            };
            let expected = match panel["figure"].as_str().unwrap() {
                "insertion_loss_db" => fitted.figures.read(&INSERTION_LOSS).unwrap(),
                "return_loss_db" => fitted.figures.read(&RETURN_LOSS).unwrap(),
                "return_loss_inner_db" => fitted.figures.read(&RETURN_LOSS_INNER).unwrap(),
                _ => continue,
            };
            let (low, high) = (panel["x"][0].as_f64().unwrap(), panel["x"][1].as_f64().unwrap());
            let share = if panel["logarithmic"].as_bool().unwrap() {
                (lane.about.symbol_rate.nyquist().0 / low).ln() / (high / low).ln()
            } else {
                (lane.about.symbol_rate.nyquist().0 - low) / (high - low)
            };
            let place = share * (curve.len() - 1) as f64;
            // |S| = 10^t |p + qx|/|10^4 + sx|, x the share of the slider's end.
            let x = fitted.capacitance.0 * 1e12 / data["highest_pf"].as_f64().unwrap();
            let loss = |index: usize| {
                let part = |i: usize| curve[index][i].as_f64().unwrap();
                let over = part(1) + x * Complex64::new(part(2), part(3));
                let under = 1e4 + x * Complex64::new(part(4), part(5));
                -20.0 * ((over / under).norm().log10() + part(0) + 4.0)
            };
            let (before, after) = (loss(place.floor() as usize), loss(place.ceil() as usize));
            let between = before + (after - before) * place.fract();
            // Between points a straight line stands for what bends: an eighth of the second difference, and some more.
            let around = loss(place.floor() as usize - 1) - before - after + loss(place.ceil() as usize + 1);
            let bend = 0.02 + 0.2 * around.abs();
            assert!(bend < 0.6, "{}: {bend}", lane.head.name);
            assert!((between - expected).abs() < bend, "{}: {between} {expected} {bend}", lane.head.name);
            seen += 1;
        }
    }
    assert_eq!(seen, 3 * review.report.lanes.len());
}
