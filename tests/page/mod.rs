//! The page for a design review: whole, inert, and with the numbers of the report.

use lanecap::budget::Figures;
use lanecap::report::{Report, page, pictures, size};

use crate::support::{read_file, read_text, root};

const HOSTILE: [&str; 5] = [
    "<script>alert(1)</script>",
    "'><img src=x onerror=alert(1)>",
    "=1+1",
    "../x",
    "&amp; 水位 <b>",
];

fn made(text: &str) -> (Report, String) {
    let (gathered, port) = read_text(text);
    let port = port.unwrap();
    let all: Vec<usize> = (0..port.names().len()).collect();
    let report = size(&port, &all, Figures::All, &gathered.sources).unwrap();
    let drawn: Vec<_> = port.lanes.iter().map(|lane| pictures(lane).unwrap()).collect();
    let page = page(&report, &drawn);
    (report, page)
}

fn lane(name: &str) -> String {
    format!(
        "lane \"{name}\" {{ rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB\n\
         path {{ driver 50 ohm; trace 50 ohm 20 mm permittivity 3.4; protector 0.3 pF; receiver 50 ohm }} }}\n"
    )
}

/// The page as a tree: it is written so that it is XML too, but for its first line and the two void elements.
fn is_well_formed(page: &str) -> bool {
    let xml = page
        .replacen("<!DOCTYPE html>\n", "", 1)
        .replacen("<meta charset=\"utf-8\">", "", 1)
        .replacen(
            "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">",
            "",
            1,
        );
    roxmltree::Document::parse(&xml).is_ok()
}

#[test]
fn names_stay_text() {
    let long = "x".repeat(200);
    for name in HOSTILE.into_iter().chain([long.as_str()]) {
        let (_, page) = made(&format!("title \"{name}\"\n{}", lane(name)));
        assert!(is_well_formed(&page), "{name}");
        for markup in ["<script", "<img", "<b>"] {
            assert!(!page.contains(markup), "{name}: {markup}");
        }
    }
}

#[test]
fn the_page_needs_nothing_from_outside() {
    let demo = std::fs::read_to_string(root().join("fixtures/sheets/ok/demo.lanes")).unwrap();
    let (report, page) = made(&demo);
    assert!(is_well_formed(&page));
    // The one address is the name of the SVG name space, which nothing fetches.
    let addresses = page.replace("http://www.w3.org/2000/svg", "");
    for outside in ["http", " src=", " href=", "url(", "@import"] {
        assert!(!addresses.contains(outside), "{outside}");
    }
    assert_eq!(
        page.matches("<section class=\"line\">").count(),
        report.lanes.len() + report.buses.len() + report.rails.len()
    );
    assert_eq!(page.matches("<figure>").count(), 5 * report.lanes.len());
    for caution in &report.cautions {
        assert!(page.contains(&caution[..20]), "{caution}");
    }
    // The display link's budget, as the table shows it.
    let budget = report.lanes[1].budget.capacitance_f.unwrap() * 1e12;
    assert!(
        page.contains(&format!("{:.4}", (budget * 1e4).floor() / 1e4)),
        "{budget}"
    );
}

#[test]
fn every_good_fixture_has_its_page() {
    for path in crate::support::files("fixtures/sheets/ok", "lanes") {
        let (gathered, port) = read_file(&path);
        let port = port.unwrap();
        let all: Vec<usize> = (0..port.names().len()).collect();
        let report = size(&port, &all, Figures::Nyquist, &gathered.sources).unwrap();
        assert!(is_well_formed(&page(&report, &[])), "{}", path.display());
    }
}
