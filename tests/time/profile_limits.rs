//! Limits on the reflection profile with an edge and an end of their own, against closed forms.

use approx::{assert_abs_diff_eq, assert_relative_eq};

use super::special::{normal, pole_step, solve};
use crate::support::read_text;
use lanecap::budget::Figures;
use lanecap::result::{LaneResult, size};
use lanecap::text::{Format, render};

const Z: f64 = 50.0;

fn sheet(limits: &str, path: &str) -> String {
    format!("lane \"test\" {{ rate 10 Gb/s nrz; reference 50 ohm; {limits}; path {{ {path} }} }}")
}

fn sized(text: &str) -> (LaneResult, String) {
    let (gathered, design) = read_text(text);
    let report = size(&design.unwrap(), &[0], Figures::All, &gathered.sources, &|| ()).unwrap();
    (report.lanes[0].clone(), render(&report, Format::Json))
}

fn worked(text: &str) -> String {
    let (gathered, design) = read_text(text);
    lanecap::text::working(&design.unwrap().lines[0], &gathered.sources).unwrap()
}

/// sigma of an edge of this 10-90 % time: t_r = 2.563103 sigma.
fn sigma(rise: f64) -> f64 {
    rise / (2.0 * solve(|x| normal(x) - 0.9, 0.0, 3.0))
}

/// Reflection of a capacitance across a matched line: the step of the pole tau = C Z/2 minus the edge.
fn reflection(t: f64, c: f64, rise: f64) -> f64 {
    pole_step(t, c * Z / 2.0, sigma(rise)) - normal(t / sigma(rise))
}

/// When and how deep, by ternary search.
fn lowest(c: f64, rise: f64) -> (f64, f64) {
    let (mut a, mut b) = (-rise, 2.0 * rise);
    for _ in 0..200 {
        let (p, q) = (a + (b - a) / 3.0, b - (b - a) / 3.0);
        if reflection(p, c, rise) < reflection(q, c, rise) { b = q } else { a = p }
    }
    (a, reflection(a, c, rise))
}

fn impedance(reflection: f64) -> f64 {
    Z * (1.0 + reflection) / (1.0 - reflection)
}

/// How long the reflection stays below that of an impedance, by halving to both sides of the lowest place.
fn stays(c: f64, rise: f64, below: f64) -> f64 {
    let level = (below - Z) / (below + Z);
    let (at, deepest) = lowest(c, rise);
    if deepest >= level {
        return 0.0;
    }
    let over = |t: f64| reflection(t, c, rise) - level;
    solve(over, at, at + 20.0 * rise) - solve(|t| -over(t), at - 20.0 * rise, at)
}

const PATH: &str = "driver 50 ohm rise 30 ps; protector 0.6 pF; receiver 50 ohm";

#[test]
fn a_dip_under_an_edge_of_its_own() {
    let (lane, _) = sized(&sheet("limit impedance_dip >= 36 ohm rise 100 ps; limit return_loss >= 1 dB", PATH));
    let fitted = lane.fitted().unwrap();
    // The figure keeps the driver's edge.
    assert_relative_eq!(
        fitted.at.figures.time.impedance_dip.unwrap(),
        impedance(lowest(0.6e-12, 30e-12).1),
        max_relative = 1e-5
    );
    let own = impedance(lowest(0.6e-12, 100e-12).1);
    assert!(own > 36.0 && fitted.at.figures.time.impedance_dip.unwrap() < 33.0, "{own}");
    assert_relative_eq!(fitted.headroom[0].value.unwrap(), own, max_relative = 1e-5);
    assert!(fitted.holds);
    assert!(
        worked(&sheet("limit impedance_dip >= 36 ohm rise 100 ps", PATH))
            .contains("impedance_dip >= 36 ohm rise 100 ps: no")
    );
    let most = lane.budget().limits[0].capacitance.unwrap().0;
    assert_relative_eq!(impedance(lowest(most, 100e-12).1), 36.0, max_relative = 1e-5);
}

#[test]
fn a_dip_is_read_until_its_time() {
    // A large capacitance 300 ps further in: 600 ps there and back.
    let path =
        "driver 50 ohm rise 30 ps; protector 0.3 pF; trace 50 ohm 300 ps permittivity 4; receiver 50 ohm pad 3 pF";
    let value = |more: &str| {
        let (lane, _) = sized(&sheet(&format!("limit impedance_dip >= 1 ohm {more}"), path));
        lane.fitted().unwrap().headroom[0].value.unwrap()
    };
    let near = impedance(lowest(0.3e-12, 30e-12).1);
    assert_relative_eq!(value("until 400 ps"), near, max_relative = 1e-5);
    assert_relative_eq!(value("rise 60 ps until 400 ps"), impedance(lowest(0.3e-12, 60e-12).1), max_relative = 1e-5);
    assert!(value("") < near - 10.0);
    // Before the dip is there the last place read is the lowest.
    assert_relative_eq!(value("until 2 ps"), impedance(reflection(2e-12, 0.3e-12, 30e-12)), max_relative = 1e-5);
}

#[test]
fn how_long_a_profile_stays_below() {
    let limits = "limit impedance_excursion <= 50 ps below 45 ohm rise 80 ps; limit return_loss >= 1 dB";
    let (lane, json) = sized(&sheet(limits, PATH));
    let exact = stays(0.6e-12, 80e-12, 45.0);
    assert!(exact > 40e-12, "{exact}");
    let fitted = lane.fitted().unwrap();
    assert_abs_diff_eq!(fitted.headroom[0].value.unwrap(), exact, epsilon = 1e-16);
    assert_eq!(fitted.at.figures.time.impedance_excursion, fitted.headroom[0].value);
    assert_eq!(fitted.headroom[0].holds, exact <= 50e-12);
    let most = lane.budget().limits[0].capacitance.unwrap().0;
    assert_relative_eq!(stays(most, 80e-12, 45.0), 50e-12, max_relative = 1e-5);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let lane = &json["lanes"][0];
    assert_eq!(lane["fitted"]["impedance_excursion_s"].as_f64(), fitted.headroom[0].value);
    assert_eq!(lane["absent"]["impedance_excursion_s"], 0.0);
    let stated = &lane["budget"]["limits"][0];
    assert_eq!((stated["below_ohm"].as_f64(), stated["profile_rise_s"].as_f64()), (Some(45.0), Some(80e-12)));
    // The driver's edge where none is stated; a dip too shallow is none; without such a limit there is no figure.
    let (own, _) = sized(&sheet("limit impedance_excursion <= 1 ps below 45 ohm", PATH));
    assert_abs_diff_eq!(
        own.fitted().unwrap().headroom[0].value.unwrap(),
        stays(0.6e-12, 30e-12, 45.0),
        epsilon = 1e-16
    );
    let (none, _) = sized(&sheet("limit impedance_excursion <= 0 s below 20 ohm rise 80 ps", PATH));
    assert_eq!(none.fitted().unwrap().headroom[0].value, Some(0.0));
    let (without, _) = sized(&sheet("limit impedance_dip >= 1 ohm", PATH));
    assert_eq!(without.fitted().unwrap().at.figures.time.impedance_excursion, None);
}

/// What begins within the window is followed until it ends: the pole alone leaves (Z_b − Z)/(Z_b + Z) = −e^(−t/tau), so some
/// tau ln(37/3) under a short edge and 85 of 100 ohm, however short the path is.
#[test]
fn a_stay_is_followed_beyond_the_window() {
    let pair = |c: &str, most: &str| {
        format!(
            "lane \"x\" {{ rate 5 Gb/s nrz; reference 100 ohm differential; limit impedance_excursion <= {most} below 85 ohm\n\
             path {{ driver 100 ohm; protector {c}; receiver 100 ohm }} }}"
        )
    };
    let edge = 60e-12;
    let mut before = 0.0;
    for (text, c) in [("2 pF", 2e-12), ("6 pF", 6e-12), ("20 pF", 20e-12), ("1 nF", 1e-9), ("5 nF", 5e-9)] {
        let (lane, _) = sized(&pair(text, "400 ps"));
        let fitted = lane.fitted().unwrap();
        let value = fitted.headroom[0].value.unwrap();
        let (level, tau) = (-15.0 / 185.0, c * Z / 2.0);
        let (at, _) = lowest(c, edge);
        let over = |t: f64| reflection(t, c, edge) - level;
        let exact = solve(over, at, at + 20.0 * edge + 20.0 * tau) - solve(|t| -over(t), -4.0 * edge, at);
        assert_relative_eq!(value, exact, max_relative = 1e-5);
        assert!(value > before && (value - tau * (37f64 / 3.0).ln()).abs() < 0.75 * edge, "{text}: {value}");
        assert_eq!(fitted.holds, exact <= 400e-12, "{text}");
        before = value;
        let most = lane.budget().capacitance.unwrap().0;
        assert_relative_eq!(most, lane.budget().limits[0].capacitance.unwrap().0);
        assert!(most > 5e-12 && most < 6e-12, "{most}");
        assert_eq!(lane.budget().allowed.intervals().len(), 1);
    }
    let (lane, _) = sized(&pair("20 pF", "5 ns"));
    let most = lane.budget().capacitance.unwrap().0;
    assert!((most * Z / 2.0 * (37f64 / 3.0).ln() - 5e-9).abs() < 0.75 * edge, "{most}");
}

/// 200 ohm across a line of 50 ohm hold the profile at 40 ohm for ever, whatever is fitted.
#[test]
fn a_stay_without_an_end_keeps_no_limit() {
    let path = "driver 50 ohm; protector 0.6 pF; shunt 200 ohm; receiver 50 ohm";
    let text = sheet("limit impedance_excursion <= 1 us below 45 ohm", path);
    let (lane, json) = sized(&text);
    let fitted = lane.fitted().unwrap();
    assert_eq!((fitted.headroom[0].value, fitted.holds), (None, false));
    assert_eq!(lane.budget().verdict, lanecap::budget::Verdict::Impossible);
    assert!(!lane.budget().limits[0].holds_absent());
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert!(json["lanes"][0]["fitted"]["impedance_excursion_s"].is_null());
    let (gathered, design) = read_text(&text);
    let report = size(&design.unwrap(), &[0], Figures::All, &gathered.sources, &|| ()).unwrap();
    let table = render(&report, Format::Table);
    assert!(table.contains("no end found"), "{table}");
    // What is beyond the longest record counts as without an end: the budget is on the safe side.
    let (ends, _) = sized(&sheet("limit impedance_excursion <= 1 us below 39 ohm", path));
    assert!(ends.fitted().unwrap().holds);
    // From a short to −1/9, past −11/89: τ ln(8/9 / (11/89 − 1/9)) of the pole C (50 ‖ 50 ‖ 200 ohm).
    let tau = ends.budget().capacitance.unwrap().0 / (2.0 / 50.0 + 1.0 / 200.0);
    let stays = tau * (8.0 / 9.0 / (11.0 / 89.0 - 1.0 / 9.0f64)).ln();
    assert!(stays > 100e-9 && stays <= 1.001e-6, "{stays}");
}

/// A dip between two samples that are not below: the level a thousandth of a percent above the lowest place.
#[test]
fn a_short_stay_is_not_missed() {
    let (_, deepest) = lowest(0.6e-12, 80e-12);
    let below = impedance(deepest + 1e-5);
    let (lane, _) = sized(&sheet(&format!("limit impedance_excursion <= 1 ns below {below} ohm rise 80 ps"), PATH));
    let exact = stays(0.6e-12, 80e-12, below);
    assert!(exact > 0.1e-12 && exact < 2e-12, "{exact}");
    assert_relative_eq!(lane.fitted().unwrap().headroom[0].value.unwrap(), exact, max_relative = 0.05);
}

#[test]
fn the_protector_is_named_and_not_the_trace_behind_it() {
    let path = "driver 50 ohm rise 60 ps; protector 0.8 pF; trace 50 ohm 40 mm permittivity 4; receiver 50 ohm";
    let text = worked(&sheet("limit return_loss >= 3 dB", path));
    let fitted = text.split("lowest impedance of the reflection profile:").nth(2).unwrap().lines().next().unwrap();
    assert!(fitted.ends_with(", made by element 2, protector"), "{fitted}");
    // A low line is named itself.
    let path = "driver 50 ohm rise 60 ps; protector 0.01 pF; trace 30 ohm 40 mm permittivity 4; receiver 50 ohm";
    let text = worked(&sheet("limit return_loss >= 3 dB", path));
    let fitted = text.split("lowest impedance of the reflection profile:").nth(2).unwrap().lines().next().unwrap();
    assert!(fitted.ends_with(", near element 3, trace"), "{fitted}");
}

#[test]
fn what_is_missing_is_said() {
    for (limit, code) in [
        ("impedance_excursion <= 20 ps", "missing-condition"),
        ("impedance_excursion <= 20 ps below", "missing-argument"),
        ("impedance_excursion <= 20 ps below 45 ohm until 1 ns", "extra-argument"),
        ("impedance_excursion >= 20 ps below 45 ohm", "wrong-comparison"),
        ("impedance_dip >= 45 ohm below 30 ohm", "extra-argument"),
        ("impedance_dip >= 45 ohm rise 3 ohm", "wrong-unit"),
    ] {
        let errors = read_text(&sheet(&format!("limit {limit}"), PATH)).1.unwrap_err();
        assert_eq!(errors.iter().map(|error| error.code).collect::<Vec<_>>(), [code], "{limit}");
    }
}
