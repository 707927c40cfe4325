//! What is written on a chart, and that it is text.

use roxmltree::Document;

use super::{crowded, data, fixtures, named};
use lanecap::curve::Show;
use lanecap::picture::svg;

pub(super) fn texts(svg: &str) -> Vec<String> {
    let document = Document::parse(svg).unwrap();
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts.map(|node| node.text().unwrap_or_default().trim().to_owned()).collect()
}

#[track_caller]
fn says(show: Show, wanted: &[&str]) {
    let texts = texts(&svg(&data(&crowded(), show)));
    for wanted in wanted {
        assert!(texts.iter().any(|text| text == wanted), "{wanted:?} not in {texts:#?}");
    }
}

#[test]
fn axes_limits_and_marks_are_named() {
    let nyquist = "Nyquist 12.5 GHz";
    says(
        Show::Loss,
        &[
            nyquist,
            "frequency [GHz]",
            "insertion loss [dB]",
            "added_loss <= 0.5 dB",
            "insertion_loss <= 9 dB",
            "absent",
            "fitted 0.4 pF",
        ],
    );
    says(
        Show::Reflection,
        &[
            nyquist,
            "frequency [GHz]",
            "return loss [dB]",
            "return loss, inner end [dB]",
            "return_loss mask",
            "return_loss_inner >= 3 dB",
            "absent",
            "fitted 0.4 pF",
        ],
    );
    says(
        Show::Penalty,
        &[
            "eye penalty [%]",
            "margin, breaks below 0 [%]",
            "fitted 0.4 pF",
            "added_rise <= 2 ps",
            "mode_conversion <= -30 dB",
            "eye_height >= 10 %",
            "at Nyquist*",
            "worst pattern",
        ],
    );
    says(Show::Impedance, &["impedance [ohm]", "impedance_dip >= 70 ohm", "protector 7", "reference"]);
    says(Show::Eye, &["phase from the best sampling instant [UI]"]);
}

#[test]
fn the_penalty_at_nyquist_is_never_taken_for_a_measurement() {
    let svg = svg(&data(&crowded(), Show::Penalty));
    assert!(texts(&svg).iter().any(|text| text.contains("* fundamental at Nyquist, no eye measurement")));
}

#[test]
fn a_line_that_reflects_nothing_says_so() {
    use crate::support::lanes::{bare, with_fitted};
    let lane = with_fitted(bare(50.0, 1e9, Vec::new()), 1e-12);
    let texts = texts(&svg(&data(&lane, Show::Reflection)));
    assert!(texts.iter().any(|text| text == "absent: no reflection"), "{texts:?}");
}

#[test]
fn names_are_text() {
    let (_, lane) = fixtures().remove(0);
    let name = "<script>alert(1)</script>\"&'\u{202e}\u{0}\u{1b}";
    let svg = svg(&named(name, &lane, Show::Loss));
    let document = Document::parse(&svg).unwrap();
    let tags = ["svg", "title", "rect", "g", "text", "path"];
    assert!(document.descendants().filter(|n| n.is_element()).all(|n| tags.contains(&n.tag_name().name())));
    assert!(
        document.descendants().filter(|n| n.is_element()).all(|n| n.attributes().all(|a| !a.name().starts_with("on")))
    );
    let heading = format!("<script>alert(1)</script>\"&'{}", "U+202EU+0000U+001B: insertion loss");
    assert!(texts(&svg).contains(&heading), "{:?}", texts(&svg)[0]);
}

#[test]
fn a_name_cannot_change_colours() {
    let (_, lane) = fixtures().remove(0);
    let name = "=\"#1B1D1F\" opacity=\"1\" fill=\"#FEFEFD\"";
    let heading = format!("{name}: insertion loss");
    assert_eq!(texts(&svg(&named(name, &lane, Show::Loss)))[0], heading);
}

#[test]
fn several_fit_into_one_page() {
    for show in Show::ALL {
        let svg = svg(&data(&crowded(), show));
        assert!(!svg.contains(" id=") && !svg.contains("url(") && !svg.contains("href"), "{show:?}");
        assert!(svg.contains("currentColor") && svg.contains("class=\"paper\""));
        assert!(svg.len() < 25_000, "{show:?}: {} bytes", svg.len());
    }
}
