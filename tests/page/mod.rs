//! The page for a design review: whole, inert, and with the numbers of the report.

mod halves;
mod left_out;
mod live;

use roxmltree::Document;

use crate::support::{files, read_file, read_text, root};
use lanecap::page::{Exhibit, Review, page, review};

const HOSTILE: [&str; 7] = [
    "<script>alert(1)</script>",
    "</script><script>alert(1)</script>",
    "'><img src=x onerror=alert(1)>",
    "<!--<script>",
    "=1+1",
    "../x",
    "&amp; 水位 <b>",
];

fn made(text: &str) -> (Review, String) {
    let (gathered, port) = read_text(text);
    let port = port.unwrap();
    let all: Vec<usize> = (0..port.names().len()).collect();
    let review = review(&port, &all, &gathered.sources, &|| ()).unwrap();
    let page = page(&review);
    (review, page)
}

fn demo() -> String {
    std::fs::read_to_string(root().join("fixtures/sheets/ok/demo.lanes")).unwrap()
}

fn lane(name: &str) -> String {
    format!(
        "lane \"{name}\" {{ rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB\n\
         path {{ driver 50 ohm; trace 50 ohm 20 mm permittivity 3.4; protector 0.3 pF; receiver 50 ohm }} }}\n"
    )
}

/// The page as XML: it is written so that it is that too, but for its first line and the elements without content.
fn as_xml(page: &str) -> String {
    let mut xml = String::new();
    let body = page.replacen("<!DOCTYPE html>", "", 1);
    for (index, piece) in body.split('<').enumerate() {
        if index > 0 {
            xml.push('<');
        }
        if ["meta ", "input ", "wbr"].iter().any(|empty| piece.starts_with(empty)) {
            xml.push_str(&piece.replacen('>', "/>", 1));
        } else {
            xml.push_str(piece);
        }
    }
    xml
}

/// How many lines have a picture of their discharge.
fn struck(review: &Review) -> usize {
    let contact =
        |exhibit: &Exhibit| matches!(exhibit.chip.as_ref().and_then(|chip| chip.contact.as_ref()), Some(Ok(_)));
    review.exhibits.iter().filter(|exhibit| contact(exhibit)).count()
}

fn elements(document: &Document, name: &str) -> usize {
    document.descendants().filter(|node| node.has_tag_name(name)).count()
}

/// The texts of a section's main heading, and of the elements it has them from.
fn headings(document: &Document) -> Vec<String> {
    let sections = document.descendants().filter(|node| node.attribute("class") == Some("line"));
    let heading = |section: roxmltree::Node| {
        let first = section.children().find(|node| node.has_tag_name("h2")).unwrap();
        first.text().unwrap().to_owned()
    };
    sections.map(heading).collect()
}

#[test]
fn names_stay_text() {
    let long = "x".repeat(200);
    for name in HOSTILE.into_iter().chain([long.as_str()]) {
        let part = format!("part \"{name}\" {{ capacitance 0.2 pF max; channels 1; cost 1 }}\n");
        let named = lane(name).replace("rate 5", &format!("port \"{name}\"; rate 5"));
        let (_, page) = made(&format!("title \"{name}\"\n{part}{named}"));
        let xml = as_xml(&page);
        let document = Document::parse(&xml).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert_eq!(headings(&document), [name]);
        let title = document.descendants().find(|node| node.has_tag_name("title")).unwrap();
        assert_eq!(title.text(), Some(name));
        // The page's own script and the lane's coefficients.
        assert_eq!((elements(&document, "script"), page.matches("<script").count()), (2, 2), "{name}");
        for none in ["img", "b", "iframe", "object", "form"] {
            assert_eq!(elements(&document, none), 0, "{name}: {none}");
        }
        let handlers = document.descendants().flat_map(|node| node.attributes());
        assert!(handlers.into_iter().all(|attribute| !attribute.name().starts_with("on")), "{name}");
    }
}

#[test]
fn the_page_needs_nothing_from_outside() {
    let (_, page) = made(&demo());
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    for node in document.descendants() {
        for attribute in node.attributes() {
            let within = attribute.value().starts_with('#');
            assert!(!matches!(attribute.name(), "src" | "srcset" | "action" | "data"), "{attribute:?}");
            assert!(attribute.name() != "href" || within, "{attribute:?}");
        }
    }
    assert_eq!(elements(&document, "link"), 0);
    // The one address is the name of the SVG name space, which nothing fetches.
    let addresses = page.replace("http://www.w3.org/2000/svg", "");
    for outside in ["http://", "https://", "url(", "@import", "fetch(", "import("] {
        assert!(!addresses.contains(outside), "{outside}");
    }
}

#[test]
fn every_link_leads_to_the_section_of_its_line() {
    let (_, page) = made(&demo());
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let links: Vec<_> = document.descendants().filter(|node| node.has_tag_name("a")).collect();
    assert!(!links.is_empty());
    for link in links {
        let wanted = link.attribute("href").unwrap().trim_start_matches('#');
        let section = document.descendants().find(|node| node.attribute("id") == Some(wanted)).unwrap();
        let heading = section.children().find(|node| node.has_tag_name("h2")).unwrap();
        assert_eq!(heading.text(), link.text());
    }
}

#[test]
fn the_summary_has_budget_part_headroom_and_verdict_of_every_line() {
    let (review, page) = made(&demo());
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let table = document.descendants().find(|node| node.has_tag_name("table")).unwrap();
    let cells = |row: roxmltree::Node| -> Vec<String> {
        let cells = row.children().filter(|node| node.is_element());
        let text = |cell: roxmltree::Node| {
            cell.descendants().filter_map(|node| node.text().filter(|_| node.is_text())).collect()
        };
        // A number stays beside its unit.
        cells.map(text).map(|text: String| text.replace('\u{a0}', " ")).collect()
    };
    let rows: Vec<Vec<String>> = table.descendants().filter(|node| node.has_tag_name("tr")).map(cells).collect();
    let first = [
        "line",
        "count",
        "budget [pF]",
        "set by",
        "worst case [pF]",
        "yield",
        "fitted [pF]",
        "part",
        "tightest headroom",
    ];
    let header = [&first[..], &["chip in a discharge (estimate)", "verdict"]].concat();
    assert_eq!(rows[0], header);
    let (lanes, feeds) = (&review.report.lanes, &review.report.feeds);
    let both: Vec<(&String, Option<f64>)> = lanes
        .iter()
        .map(|lane| (&lane.head.name, lane.budget().capacitance.map(|c| c.0)))
        .chain(feeds.iter().map(|feed| (&feed.head.name, feed.budget().capacitance.map(|c| c.0))))
        .collect();
    assert!(page.contains("\u{a0}dB") && page.contains("\u{a0}%") && !page.contains("\u{a0}to "));
    assert_eq!(rows.len(), 1 + both.len());
    for ((name, budget), row) in both.into_iter().zip(&rows[1..]) {
        assert_eq!(&row[0], name);
        // The largest, never rounded up, to four digits.
        let shown: f64 = row[2].rsplit(' ').next().unwrap().parse().unwrap();
        let budget = budget.unwrap() * 1e12;
        assert!(shown <= budget && budget - shown < 1e-3 * budget, "{name}: {shown} of {budget}");
    }
    for (lane, row) in lanes.iter().zip(&rows[1..]) {
        assert_eq!(Some(&row[7]), lane.head.part.as_ref());
        let (tightest, setter) = (lane.tightest().unwrap().figure, lane.budget().set_by.unwrap());
        let below = format!(" % below the budget ({}", setter.word());
        let same = tightest == setter || !lane.fitted().unwrap().holds;
        assert!(if same { row[8].starts_with(tightest.word()) } else { row[8].contains(&below) }, "{row:?}");
        assert_eq!(row[10].contains('✓'), lane.passes(), "{row:?}");
        assert_eq!(row[10].contains("holds"), lane.fitted().unwrap().holds, "{row:?}");
    }
}

#[test]
fn every_line_has_its_section_and_the_port_its_bill() {
    let (review, page) = made(&demo());
    let report = &review.report;
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let lines = report.lanes.len() + report.feeds.len() + report.buses.len() + report.rails.len();
    assert_eq!(headings(&document).len(), lines);
    let drawn: usize = review.exhibits.iter().map(|exhibit| exhibit.pictures.len()).sum();
    assert!(drawn >= 5 * report.lanes.len());
    assert_eq!(elements(&document, "figure"), drawn + struck(&review));
    assert_eq!(elements(&document, "details"), lines);
    let pick = review.pick.unwrap();
    for bill in &pick.bills {
        for used in &bill.parts {
            assert!(page.contains(&format!("<td>{}</td><td>{}</td>", used.part, used.packages)), "{}", used.part);
        }
    }
    for caution in &pick.cautions {
        assert!(page.contains(&caution[..20]), "{caution}");
    }
    // One heading of the first rank, and none skipped below it.
    let ranks: Vec<u32> =
        document.descendants().filter_map(|node| node.tag_name().name().strip_prefix('h')?.parse().ok()).collect();
    assert_eq!((ranks[0], ranks.iter().filter(|rank| **rank == 1).count()), (1, 1));
    assert!(ranks.windows(2).all(|pair| pair[1] <= pair[0] + 1), "{ranks:?}");
}

#[test]
fn every_good_fixture_has_its_page() {
    for path in files("fixtures/sheets/ok", "lanes") {
        let (gathered, port) = read_file(&path);
        let port = port.unwrap();
        let all: Vec<usize> = (0..port.names().len()).collect();
        let review = review(&port, &all, &gathered.sources, &|| ()).unwrap();
        let page = page(&review);
        let xml = as_xml(&page);
        let document = Document::parse(&xml).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let names = port.names();
        assert_eq!(headings(&document), names, "{}", path.display());
        let toleranced = port.lines.iter().filter(|line| line.head.has_tolerance()).count();
        let pictures = 5 * review.report.lanes.len() + review.report.feeds.len() + struck(&review) + toleranced;
        assert_eq!(elements(&document, "figure"), pictures, "{}", path.display());
    }
}

#[test]
fn a_hundred_lanes_stay_below_ten_megabytes() {
    // Reflections in a long path, so that the curves have many points.
    let with_cable = |number: u32| {
        lane(&format!("lane {number}")).replace(
            "trace 50 ohm 20 mm",
            "cable 50 ohm 0.8 m loss 2 dB at 2.5 GHz permittivity 2.2; connector 0.3 pF 0.5 nH; trace 50 ohm 20 mm",
        )
    };
    let sheet: String = (1..=100).map(with_cable).collect();
    let (review, page) = made(&sheet);
    assert_eq!(review.exhibits.len(), 100);
    assert!(page.len() < 10_000_000, "{} bytes", page.len());
}
