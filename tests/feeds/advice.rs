//! Advice on a feed is given where it helps.

use std::f64::consts::TAU;

use crate::support::read_text;
use lanecap::budget::{FeedOutcome, size_feed};
use lanecap::model::Kind;
use lanecap::result::{FeedResult, size};
use lanecap::text::{Format, render};

/// A matched antenna of this Q at 1 GHz with a capacitance across it, and the band.
fn feed(quality: f64, band: &str, c: &str, limit: &str) -> String {
    format!(
        "feed \"test\" {{ band {band}; reference 50 ohm; limit {limit}; path {{ antenna parallel 1 GHz 50 ohm q {quality}; \
         protector {c}; radio 50 ohm }} }}"
    )
}

fn outcome(sheet: &str) -> FeedOutcome {
    let design = read_text(sheet).1.unwrap();
    let Kind::Feed(feed) = &design.lines[0].kind else { panic!("no feed") };
    size_feed(feed).unwrap()
}

fn text(sheet: &str) -> (FeedResult, String) {
    let (gathered, design) = read_text(sheet);
    let report = size(&design.unwrap(), &[0], lanecap::budget::Figures::All, &gathered.sources, &|| ()).unwrap();
    (report.feeds[0].clone(), render(&report, Format::Markdown))
}

/// Worst return loss of the band by hand: y = 1 + jQ(f/f0 - f0/f) + j 2 pi f C R - jR/(2 pi f L).
fn worst(quality: f64, (low, high): (f64, f64), c: f64, coil: Option<f64>) -> f64 {
    let loss = |f: f64| {
        let own = quality * (f / 1e9 - 1e9 / f) + TAU * f * c * 50.0;
        let b = own - coil.map_or(0.0, |l| 50.0 / (TAU * f * l));
        // |Gamma|^2 = b^2/(4 + b^2)
        -10.0 * (b * b / (4.0 + b * b)).log10()
    };
    (0..=4000).map(|k| loss(low + (high - low) * f64::from(k) / 4000.0)).fold(f64::INFINITY, f64::min)
}

/// At the antenna's own frequency a coil takes the capacitance out; in a band below it the capacitance helped, and the coil
/// makes the match worse.
#[test]
fn a_coil_is_advised_where_it_helps() {
    let middle = feed(8.0, "0.98 GHz to 1.02 GHz", "2 pF", "return_loss >= 6 dB");
    let coil = outcome(&middle).sized.fitted.unwrap().at.changes.retune.unwrap();
    let [with, without] = [Some(coil.nearest.0), None].map(|coil| worst(8.0, (0.98e9, 1.02e9), 2e-12, coil));
    assert!(with > without + 3.0, "{with} {without}");
    assert!((coil.metrics.return_loss().unwrap() - with).abs() < 1e-3);
    let below = feed(8.0, "0.94 GHz to 0.97 GHz", "2 pF", "return_loss >= 6 dB");
    let nearest = 13e-9;
    let exact = 1.0 / ((TAU * 1e9).powi(2) * 2e-12);
    assert!((exact - 12.67e-9).abs() < 0.01e-9);
    let [with, without] = [Some(nearest), None].map(|coil| worst(8.0, (0.94e9, 0.97e9), 2e-12, coil));
    assert!(with < without - 3.0, "{with} {without}");
    let sized = outcome(&below).sized;
    assert!(sized.fitted.unwrap().at.changes.retune.is_none());
    assert!(!text(&below).1.contains("To tune back the fitted capacitance"));
}

/// An estimate has two digits: 12.67 nH is 13 nH.
#[test]
fn an_estimate_has_two_digits() {
    let said = text(&feed(8.0, "0.98 GHz to 1.02 GHz", "2 pF", "return_loss >= 6 dB")).1;
    assert!(said.contains("(estimate): 13 nH to ground") && said.contains("or 5 nH in series"), "{said}");
}

/// Bode and Fano: -20 log10 exp(-1/(2 R C df)), C = C_p + Q/(2 pi f0 R): 8.686/(2 R df C) dB.
#[test]
fn a_bound_beyond_sixty_decibels_is_left_out() {
    let c = |q: f64| 0.2e-12 + q / (TAU * 1e9 * 50.0);
    for (q, low, high, band) in
        [(8.0, 0.9e9, 1.1e9, "0.9 GHz to 1.1 GHz"), (8.0, 0.99e9, 1.01e9, "0.99 GHz to 1.01 GHz")]
    {
        let bound = 10.0 / (f64::ln(10.0) * 50.0 * (high - low) * c(q));
        let (result, said) = text(&feed(q, band, "0.2 pF", "return_loss >= 6 dB"));
        match result.outcome.bode_fano {
            Some(db) => assert!(bound < 60.0 && (db / bound - 1.0).abs() < 1e-9, "{db} {bound}"),
            None => assert!(bound > 60.0, "{bound}"),
        }
        assert_eq!(said.contains("Bode and Fano"), bound < 60.0);
    }
}
