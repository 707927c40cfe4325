//! A picture that cannot be computed is missing by itself, with its reason said.

use lanecap::budget::Figures;
use lanecap::diag::Severity;
use lanecap::result::size;
use roxmltree::Document;

use super::{as_xml, elements, headings, made};
use crate::support::read_text;

/// An edge of a picosecond in symbols of a microsecond: no record holds both.
const STEEP: &str = "lane \"steep\" { rate 1 Mb/s nrz; reference 50 ohm; limit return_loss >= 10 dB\n\
    path { driver 50 ohm rise 1 ps; cable 50 ohm 100 m permittivity 2.2; protector 0.3 pF; receiver 50 ohm } }\n";

fn sheet() -> String {
    format!("{}{STEEP}{}", super::lane("before"), super::lane("after"))
}

#[test]
fn a_picture_that_cannot_be_computed_is_left_out_by_itself() {
    let (review, page) = made(&sheet());
    let drawn: Vec<usize> = review.exhibits.iter().map(|exhibit| exhibit.pictures.len()).collect();
    assert_eq!(drawn, [5, 3, 5]);
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    assert_eq!(headings(&document), ["before", "steep", "after"]);
    assert_eq!(elements(&document, "figure"), 13);
    let captions = review.exhibits[1].pictures.iter().map(|picture| picture.caption);
    assert!(captions.into_iter().all(|caption| !caption.contains("eye,") && !caption.starts_with("Reflection")));
    assert!(!review.exhibits[1].working.is_empty() && review.exhibits[1].live.is_some());
}

#[test]
fn the_page_and_the_caller_are_told_what_is_missing_and_why() {
    let (review, page) = made(&sheet());
    let said: Vec<&str> = review.left_out.iter().map(|warning| warning.message.as_str()).collect();
    let start = "lane \"steep\": the picture ";
    let [eye, profile] = said[..] else { panic!("{said:?}") };
    assert!(
        eye.starts_with(&format!("{start}\"Worst-pattern eye, absent and fitted\" is left out: the eye height ")),
        "{eye}"
    );
    let why = "\"Reflection profile from the port plane in\" is left out: the impedance dip cannot be found: ";
    assert!(profile.starts_with(&format!("{start}{why}")), "{profile}");
    let kinds = review.left_out.iter().map(|warning| (warning.severity, warning.code));
    assert!(kinds.into_iter().all(|kind| kind == (Severity::Warning, "picture-left-out")));
    let (_, section) = page.split_once("<h2>steep</h2>").unwrap();
    let (section, _) = section.split_once("<h2>after</h2>").unwrap();
    let (_, warnings) = section.split_once("<h3>Warnings</h3>").unwrap();
    assert!(warnings.contains("is left out: the impedance dip cannot be found"), "{warnings}");
    assert_eq!(page.matches("is left out").count(), 2);
}

#[test]
fn what_size_computes_is_reported() {
    let (gathered, design) = read_text(&sheet());
    let design = design.unwrap();
    let sized = size(&design, &[0, 1, 2], Figures::All, &gathered.sources, &|| ()).unwrap();
    assert!(sized.lanes[1].head.warnings.iter().any(|note| note.code == "not-settled"));
    let (review, _) = made(&sheet());
    let names: Vec<&str> = review.report.lanes.iter().map(|lane| lane.head.name.as_str()).collect();
    assert_eq!(names, ["before", "steep", "after"]);
}
