//! The match of a feed: its numbers against closed forms and the tool's own figures, and what is written.

use std::f64::consts::TAU;

use approx::assert_relative_eq;
use roxmltree::Document;

use super::drawn::polylines;
use super::layout;
use super::words::texts;
use crate::support::{feeds, files, read_file, read_text, root};
use lanecap::budget::{FeedOutcome, size_feed};
use lanecap::curve::{BandMatch, ChartData, Picture, State, feed_chart_data};
use lanecap::model::{Design, Feed};
use lanecap::picture::{png, svg};
use lanecap::words::label;

fn feed(text: &str) -> Feed {
    feeds(read_text(text).1.unwrap_or_else(|e| panic!("{e:?}"))).remove(0)
}

/// The feeds of every sheet that can be read, each with its name.
fn fixtures() -> Vec<(String, Feed)> {
    let sheets = files("fixtures/sheets/ok", "lanes");
    sheets.iter().flat_map(|path| named(&read_file(path).1.unwrap())).collect()
}

/// The feeds of a sheet, each with its name.
fn named(design: &Design) -> Vec<(String, Feed)> {
    design.feeds().map(|(head, feed)| (head.name.clone(), feed.clone())).collect()
}

fn drawn(feed: &Feed) -> (ChartData, BandMatch, FeedOutcome) {
    drawn_as("under test", feed)
}

fn drawn_as(name: &str, feed: &Feed) -> (ChartData, BandMatch, FeedOutcome) {
    let outcome = size_feed(feed).unwrap();
    let data = feed_chart_data(name, feed, &outcome).unwrap();
    let Picture::Match(found) = data.picture.clone() else { panic!("{data:?}") };
    (data, found, outcome)
}

const F0: f64 = 1.57542e9;
const R: f64 = 40.0;
const Q: f64 = 12.0;
const C: f64 = 0.2e-12;

/// A parallel resonator with the protector directly across it.
fn direct(limits: &str) -> Feed {
    feed(&format!(
        "feed \"direct\" {{ band 1559 MHz to 1610 MHz; reference 50 ohm; {limits}\n\
         path {{ antenna parallel 1575.42 MHz 40 ohm q 12; protector 0.2 pF; radio 50 ohm }} }}"
    ))
}

/// −20 log10 |(1 − Z Y)/(1 + Z Y)|, Y = (1/R)(1 + jQ(f/f0 − f0/f)) + j2πfC.
fn closed_form(f: f64, c: f64) -> f64 {
    let (g, b) = (50.0 / R, 50.0 * (Q / R * (f / F0 - F0 / f) + TAU * f * c));
    -10.0 * (((1.0 - g).powi(2) + b * b) / ((1.0 + g).powi(2) + b * b)).log10()
}

#[test]
fn the_match_follows_the_closed_form() {
    let (_, found, _) = drawn(&direct("limit return_loss >= 6 dB"));
    assert_eq!(found.curves.len(), 3);
    for curve in &found.curves {
        let c = match curve.state {
            State::Absent => 0.0,
            State::Fitted(c) | State::AtBudget(c) => c,
        };
        assert!(curve.points.len() > 400);
        for (f, loss) in &curve.points {
            assert_relative_eq!(*loss, closed_form(*f, c), epsilon = 1e-9);
        }
    }
    let [low, high] = found.shown_hz;
    assert!(low < 1.559e9 && high > 1.61e9, "{low} {high}");
}

// f' = f0/√(1 + 2π f0 C R/Q): the resonance of a parallel resonator with C across it.
#[test]
fn the_minima_lie_where_the_closed_form_has_them() {
    let (_, found, _) = drawn(&direct("limit return_loss >= 6 dB; limit detuning <= 40 MHz"));
    let tuned = |c: f64| F0 / (1.0 + TAU * F0 * c * R / Q).sqrt();
    assert_eq!(found.minima.len(), 3);
    for minimum in &found.minima {
        let c = match minimum.state {
            State::Absent => 0.0,
            State::Fitted(c) => {
                assert_eq!(c, C);
                c
            }
            State::AtBudget(c) => c,
        };
        assert_relative_eq!(minimum.at_hz, tuned(c), max_relative = 1e-9);
        let shift = minimum.shift_hz.unwrap_or(0.0);
        assert_relative_eq!(shift, tuned(c) - F0, epsilon = 10.0);
    }
    let detuning = found.detuning.map(|(most, limit)| (most, label(&limit)));
    assert_eq!(detuning, Some((40e6, "detuning <= 40 MHz".to_owned())));
}

#[test]
fn each_limit_is_the_return_loss_it_asks_for() {
    // |Γ| = (s − 1)/(s + 1) and |Γ|² = 1 − 10^(−m/10).
    for (limit, loss) in [
        ("return_loss >= 7 dB", 7.0),
        ("vswr <= 2", 20.0 * 3f64.log10()),
        ("mismatch_loss <= 0.5 dB", -10.0 * (1.0 - 10f64.powf(-0.05)).log10()),
    ] {
        let (_, found, _) = drawn(&direct(&format!("limit {limit}")));
        let [line] = found.limits.as_slice() else { panic!("{limit}") };
        assert_eq!(label(&line.limit), limit);
        assert_eq!((line.points[0].0, line.points[1].0), (1.559e9, 1.61e9));
        assert!(line.points.iter().all(|(_, level)| (level - loss).abs() < 1e-9), "{line:?}");
    }
    let (_, found, _) = drawn(&direct("limit return_loss >= 9 dB at 1559 MHz, 5 dB at 1610 MHz"));
    let line = &found.limits[0].points;
    assert_eq!((line.first(), line.last().map(|p| p.1)), (Some(&(1.559e9, 9.0)), Some(5.0)));
}

/// The worst of the band is that of the tables, and at the budget it lies on a limit.
#[test]
fn the_worst_of_each_curve_is_the_tools_own_figure() {
    for (_, feed) in fixtures() {
        let (_, found, outcome) = drawn(&feed);
        let worst = |state: fn(&State) -> bool| {
            let curve = found.curves.iter().find(|curve| state(&curve.state)).unwrap();
            let band = feed.band.low.0..=feed.band.high.0;
            let losses = curve.points.iter().filter(|point| band.contains(&point.0));
            losses.map(|point| point.1).fold(f64::INFINITY, f64::min)
        };
        // Without any reflection there is no figure: the loss is infinite.
        let absent = outcome.sized.absent.band.return_loss().unwrap_or(f64::INFINITY);
        assert_relative_eq!(worst(|s| *s == State::Absent), absent, max_relative = 1e-4);
        if let Some(fitted) = &outcome.sized.fitted {
            let told = fitted.at.figures.band.return_loss().unwrap();
            assert_relative_eq!(worst(|s| matches!(s, State::Fitted(_))), told, max_relative = 1e-4);
        }
        if let Some(budget) = &outcome.sized.at_budget {
            let told = budget.figures.band.return_loss().unwrap();
            assert_relative_eq!(worst(|s| matches!(s, State::AtBudget(_))), told, max_relative = 1e-4);
            assert_eq!(Some(budget.capacitance), outcome.sized.budget.capacitance);
        }
    }
}

/// Feeds that crowd the picture, or leave it nearly empty.
const HOSTILE: [&str; 9] = [
    "band 1559 MHz to 1610 MHz; reference 50 ohm; limit return_loss >= 6 dB; limit vswr <= 3; limit mismatch_loss <= 1 dB\n\
     limit detuning <= 1 MHz\n\
     path { antenna parallel 1575.42 MHz 50 ohm q 12; protector 0.2 pF pad 0.05 pF; trace 50 ohm 300 mm permittivity 3.4; radio 50 ohm }",
    // A minimum far from the band.
    "band 2.4 GHz to 2.4835 GHz; reference 50 ohm; limit return_loss >= 6 dB; limit detuning <= 1 GHz\n\
     path { antenna series 2.1 GHz 50 ohm q 4; protector 1 pF; radio 50 ohm }",
    // A band so wide that no match could do much better.
    "band 1 GHz to 2 GHz; reference 50 ohm; limit return_loss >= 3 dB; limit detuning <= 200 MHz\n\
     path { antenna parallel 1.4 GHz 50 ohm q 3; protector 0.5 pF; radio 50 ohm }",
    // A perfect match, no reflection at all.
    "band 1 GHz to 2 GHz; reference 50 ohm; limit return_loss >= 10 dB; path { antenna 50 ohm; protector pad 0 pF; radio 50 ohm }",
    // One frequency only.
    "band 100 MHz to 100 MHz; reference 50 ohm; limit return_loss >= 10 dB; limit detuning <= 10 kHz\n\
     path { antenna parallel 100 MHz 45 ohm q 200; protector 0.01 pF; radio 50 ohm }",
    // Far too much of it.
    "band 1559 MHz to 1610 MHz; reference 50 ohm; limit return_loss >= 10 dB; limit detuning <= 5 MHz\n\
     path { antenna parallel 1575.42 MHz 50 ohm q 12; protector 100 pF; trace 50 ohm 14 mm permittivity 3.4; radio 50 ohm }",
    // A long line, a wide band.
    "band 10 MHz to 6 GHz; reference 50 ohm; limit return_loss >= 6 dB\n\
     path { antenna 75 ohm; trace 50 ohm 2000 mm permittivity 3.4; protector 0.3 pF; radio 50 ohm }",
    // Cannot hold, and asks for nothing.
    "band 1 GHz to 1.1 GHz; reference 50 ohm; limit return_loss >= 60 dB; limit vswr <= 1000\n\
     path { antenna series 1.05 GHz 30 ohm q 3; protector 0.3 pF; radio 50 ohm }",
    "band 868 MHz to 870 MHz; reference 50 ohm; limit return_loss >= 10 dB at 868 MHz, 12 dB at 869 MHz, 10 dB at 870 MHz\n\
     path { antenna parallel 869 MHz 55 ohm q 20; protector 0.3 pF pad 0.1 pF; radio 50 ohm }",
];

#[test]
fn texts_keep_apart_on_every_feed() {
    let hostile = |text: &&str| ("hostile".to_owned(), feed(&format!("feed \"hostile\" {{ {text} }}")));
    let mut feeds: Vec<(String, Feed)> = HOSTILE.iter().map(hostile).collect();
    feeds.extend(fixtures());
    feeds.push(("W漢🦀".repeat(80), feeds[0].1.clone()));
    for (name, feed) in feeds {
        let (data, ..) = drawn_as(&name, &feed);
        layout::check_drawn(&svg(&data), &name);
        let image = png(&data).unwrap();
        let info = png::Decoder::new(std::io::Cursor::new(&image)).read_info().unwrap();
        assert_eq!((info.info().width, info.info().height), (1600, 960));
    }
}

/// The names of three minima close together: none has another's line through it.
#[test]
fn no_line_runs_through_a_name_above_the_frame() {
    for (sheet, name) in [("demo", "clock antenna"), ("positioning_antenna", "positioning antenna")] {
        let path = root().join(format!("fixtures/sheets/ok/{sheet}.lanes"));
        let feeds = named(&read_file(&path).1.unwrap());
        let (data, ..) = drawn_as(name, &feeds.iter().find(|feed| feed.0 == name).unwrap().1);
        let svg = svg(&data);
        let document = Document::parse(&svg).unwrap();
        let paths = document.descendants().filter_map(|node| node.attribute("d"));
        let lines: Vec<Vec<(f64, f64)>> = paths.filter(|d| !d.ends_with('z')).flat_map(polylines).collect();
        // Uprights above the frame.
        let above: Vec<_> = lines.iter().filter(|line| line.iter().all(|p| p.1 < 92.1 && p.0 == line[0].0)).collect();
        let names = layout::texts(&document);
        let names: Vec<_> =
            names.iter().filter(|text| text.text.contains(" 1.5") && !text.text.starts_with("band")).collect();
        assert_eq!((above.len(), names.len()), (3, 3), "{name}");
        for line in above {
            for text in &names {
                let [left, top, right, bottom] = text.area.map(|edge| edge / 10.0);
                let low = line.iter().map(|p| p.1).fold(0.0, f64::max);
                let high = line.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
                let through = left < line[0].0 && line[0].0 < right && high < bottom && low > top;
                assert!(!through, "{name}: {line:?} runs through {text:?}");
            }
        }
    }
}

/// RL = 10 log10(e)/(R C_tot Δf), C_tot = C + Q/(2π f0 R): Bode–Fano for a resistance beside a capacitance (Pozar,
/// Microwave Engineering, from memory).
#[test]
fn the_bound_on_any_match_is_drawn_and_named() {
    let feed = feed(&format!("feed \"wide\" {{ {} }}", HOSTILE[2]));
    let (data, found, _) = drawn(&feed);
    let total = 0.5e-12 + 3.0 / (TAU * 1.4e9 * 50.0);
    let most = 10.0 * std::f64::consts::LOG10_E / (50.0 * total * 1e9);
    assert_relative_eq!(found.bode_fano_db.unwrap(), most, max_relative = 1e-9);
    assert!(texts(&svg(&data)).iter().any(|text| text == "Bode–Fano bound"));
}

#[test]
fn limits_marks_and_states_are_named() {
    let feed = feed(&format!("feed \"roof\" {{ {} }}", HOSTILE[0]));
    let (data, found, _) = drawn_as("roof", &feed);
    let texts = texts(&svg(&data));
    for wanted in [
        "roof: match over the band",
        "frequency [GHz]",
        "return loss [dB]",
        "band",
        "return_loss >= 6 dB",
        "vswr <= 3",
        "mismatch_loss <= 1 dB",
        "detuning <= 1 MHz",
        "absent",
        "fitted 0.2 pF",
    ] {
        assert!(texts.iter().any(|text| text == wanted), "{wanted:?} not in {texts:#?}");
    }
    let fitted = found.minima.iter().find(|m| matches!(m.state, State::Fitted(_))).unwrap();
    let mark = format!("fitted {:.6}", fitted.at_hz * 1e-9);
    assert!(
        texts.iter().any(|text| text.starts_with(mark.trim_end_matches('0')) && text.ends_with("MHz)")),
        "{mark} not in {texts:#?}"
    );
}
