//! What the signal tolerates and what the chip survives stand side by side.

use roxmltree::{Document, Node};

use super::{as_xml, made};
use crate::support::root;
use lanecap::curve::NotDrawn;

const TOLERATES: &str = "What the signal tolerates";
const SURVIVES: &str = "What the chip survives (estimate)";

fn sheet(name: &str) -> String {
    std::fs::read_to_string(root().join(format!("fixtures/sheets/ok/{name}.lanes"))).unwrap()
}

fn text(node: Node) -> String {
    node.descendants().filter_map(|node| node.text().filter(|_| node.is_text())).collect()
}

/// The rows of a table with the text of each cell.
fn rows(table: Node) -> Vec<Vec<String>> {
    let rows = table.descendants().filter(|node| node.has_tag_name("tr"));
    rows.map(|row| row.children().filter(|node| node.is_element()).map(text).collect()).collect()
}

/// Both halves of each line that has them, without their headings.
fn halves<'a>(document: &'a Document) -> Vec<[Node<'a, 'a>; 2]> {
    let both = document.descendants().filter(|node| node.attribute("class") == Some("halves"));
    let sides = |node: Node<'a, 'a>| {
        let sides: Vec<Node> = node.children().filter(|node| node.is_element()).collect();
        let [left, right] = sides[..] else { panic!("{sides:?}") };
        for (side, wanted) in [(left, TOLERATES), (right, SURVIVES)] {
            assert_eq!(text(side.first_element_child().unwrap()), wanted);
        }
        [left, right]
    };
    both.map(sides).collect()
}

fn table<'a>(side: Node<'a, 'a>) -> Node<'a, 'a> {
    side.descendants().find(|node| node.has_tag_name("table")).unwrap()
}

#[test]
fn both_halves_have_the_numbers_of_their_line() {
    let (review, page) = made(&sheet("late_array"));
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let both = halves(&document);
    assert_eq!(both.len(), 2);
    for (index, [left, right]) in both.into_iter().enumerate() {
        let (lane, chip) = (&review.report.lanes[index], review.exhibits[index].chip.as_ref().unwrap());
        let found = &chip.contact.as_ref().unwrap().as_ref().unwrap().curves;
        let tolerated = rows(table(left));
        let [name, budget] = &tolerated[0][..] else { panic!("{tolerated:?}") };
        let shown: f64 = budget.trim_end_matches(" pF").parse().unwrap();
        let most = lane.budget().capacitance.unwrap().0 * 1e12;
        assert!(name == "budget" && shown <= most && shown > 0.999 * most, "{shown} {most}");
        assert_eq!(tolerated[1], ["set by", lane.budget().set_by.unwrap().word()]);

        let survived = rows(table(right));
        assert_eq!(survived[0][1], "stated, 8 kV");
        assert!(survived[0][2].starts_with("worst, "));
        let shown = |row: usize, column: usize| -> f64 {
            let (number, unit) = survived[row][column].trim_start_matches("✗ ").split_once(' ').unwrap();
            number.parse::<f64>().unwrap() * if unit.starts_with('m') { 1e-3 } else { 1.0 }
        };
        for (k, pin) in found.pin.iter().enumerate() {
            let told = [pin.peak.0, pin.late_peak.0, pin.equivalent.0, pin.peak_current.0];
            for (row, told) in told.into_iter().enumerate() {
                let shown = shown(row + 1, k + 1);
                assert!((shown - told).abs() < 5.1e-3 * told, "{shown} {told} in {survived:?}");
            }
        }
        let limits: Vec<&str> = survived[1..].iter().map(|row| row[3].as_str()).collect();
        assert_eq!(limits, ["30 V", "20 V", "2.5 A", "12 A"]);
        // Beside the late array the equivalent current breaks its limit at the worst level alone.
        let broken: Vec<(usize, usize)> = (1..5)
            .flat_map(|row| [1, 2].map(|column| (row, column)))
            .filter(|(row, column)| survived[*row][*column].starts_with('✗'))
            .collect();
        assert_eq!(broken, if index == 0 { vec![(3, 2)] } else { Vec::new() }, "{survived:?}");
        let said = text(right);
        assert!(said.contains("The protector conducts from a discharge of "), "{said}");
        assert!(said.contains("The test on the built board decides."), "{said}");
    }
    assert_eq!(page.matches("contact discharge of 8 kV").count(), 2 * 2);
}

/// The working on the page is that of `explain`, and the first table has what the chips survive.
#[test]
fn the_page_works_the_discharge_and_begins_with_what_chips_survive() {
    let text = sheet("outdoor_line");
    let (review, page) = made(&text);
    let (gathered, port) = crate::support::read_text(&text);
    let port = port.unwrap();
    for (line, exhibit) in port.lines.iter().zip(&review.exhibits) {
        let explained = lanecap::text::working(line, &gathered.sources).unwrap();
        let (working, _) = explained.split_once("\nKeep in mind\n").unwrap();
        assert_eq!(exhibit.working.trim_end(), working.trim_end());
    }
    assert!(review.exhibits.iter().any(|exhibit| exhibit.working.contains("\nDischarge\n")));
    assert!(review.exhibits.iter().any(|exhibit| exhibit.working.contains("\nSurge\n")));
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let first = rows(document.descendants().find(|node| node.has_tag_name("table")).unwrap());
    let column = first[0].iter().position(|title| title == "chip in a discharge (estimate)").unwrap();
    for (row, lane) in first[1..].iter().zip(&review.report.lanes) {
        let of_pin = || lane.head.checks.iter().filter(|check| check.check.starts_with("pin "));
        let all = of_pin().all(|check| check.verdict == lanecap::parts::Verdict::Passes);
        assert_eq!(row[column].starts_with("survives, pin "), all && of_pin().count() > 0, "{row:?}");
    }
    // A sheet without a computed discharge has no such column.
    assert!(!made(&super::lane("at rest")).1.contains("chip in a discharge"));
}

#[test]
fn a_line_that_nothing_strikes_has_none() {
    let (review, page) = made(&super::lane("at rest"));
    assert!(review.exhibits[0].chip.is_none());
    assert!(!page.contains(TOLERATES) && !page.contains(SURVIVES));
}

#[test]
fn what_is_not_computed_says_why() {
    let struck = |exposure: &str| {
        let part = "part \"bare\" { capacitance 0.2 pF max; unidirectional; standoff 5 V }\n";
        let with =
            super::lane("struck").replace("reference", &format!("line_voltage 0 V to 1 V; {exposure}; reference"));
        format!("{part}{}", with.replace("protector 0.3 pF", "protector part \"bare\""))
    };
    let (review, page) = made(&struck("exposure contact 8 kV"));
    let chip = review.exhibits[0].chip.as_ref().unwrap();
    assert!(matches!(chip.contact, Some(Err(NotDrawn::NotStruck(_)))) && chip.surge.is_none());
    assert!(page.contains("The contact discharge is not computed: ") && page.contains("does not state `clamp`"));
    let (review, page) = made(&struck("exposure surge 2 A"));
    let chip = review.exhibits[0].chip.as_ref().unwrap();
    assert!(chip.contact.is_none() && matches!(chip.surge, Some(Err(_))));
    assert!(page.contains("The surge is not computed: ") && !page.contains("The contact discharge is not computed"));
    // A rail without a path has no limit and no discharge.
    let (_, page) = made(&sheet("demo"));
    let (_, rail) = page.split_once("<h2>supply pin</h2>").unwrap();
    assert!(rail.contains("No limit on the capacitance.") && rail.contains("no path is stated"), "{rail}");
}

#[test]
fn a_surge_is_told_beside_the_contact_discharge() {
    let (review, page) = made(&sheet("outdoor_line"));
    let surged = review.exhibits.iter().filter(|e| matches!(e.chip.as_ref().map(|c| &c.surge), Some(Some(Ok(_)))));
    let surged = surged.count();
    assert!(surged > 0);
    assert_eq!(page.matches("A surge leaves ").count(), surged);
}

/// The script draws into the pictures by their number: those of the bench alone, which the discharge is none of.
#[test]
fn the_reader_tries_a_capacitance_on_the_pictures_of_the_bench_alone() {
    let (review, page) = made(&sheet("late_array"));
    assert!(page.contains(r#"section.querySelectorAll(".bench figure > div > svg")"#));
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let benches: Vec<Node> = document.descendants().filter(|node| node.attribute("class") == Some("bench")).collect();
    assert_eq!(benches.len(), review.exhibits.len());
    for (bench, exhibit) in benches.into_iter().zip(&review.exhibits) {
        let drawn = bench.descendants().filter(|node| node.has_tag_name("figcaption")).map(text);
        let captions: Vec<&str> = exhibit.pictures.iter().map(|picture| picture.caption).collect();
        assert_eq!(drawn.collect::<Vec<_>>(), captions);
    }
}

/// Each figure is the higher one of both polarities, with its sign.
#[test]
fn the_half_of_the_chip_has_the_worse_of_both_polarities() {
    let (review, page) = made(&super::demo());
    let xml = as_xml(&page);
    let document = Document::parse(&xml).unwrap();
    let mut signs = Vec::new();
    let struck = review.exhibits.iter().filter_map(|exhibit| exhibit.chip.as_ref()?.contact.as_ref()?.as_ref().ok());
    let tables = halves(&document).into_iter().filter(|[_, right]| text(*right).contains("highest voltage"));
    for (struck, [_, right]) in struck.zip(tables) {
        let (pin, other) = (struck.curves.pin[0], struck.curves.other.unwrap().0[0]);
        let worse = [pin.peak.0.max(other.peak.0), pin.late_peak.0.max(other.late_peak.0)];
        for (row, worse) in rows(table(right))[1..].iter().zip(worse) {
            let words: Vec<&str> = row[1].trim_start_matches("✗ ").split(' ').collect();
            let [number, "V", sign] = words[..] else { panic!("{row:?}") };
            assert!((number.parse::<f64>().unwrap() - worse).abs() < 5.1e-3 * worse, "{row:?} is not {worse}");
            let own = struck.curves.polarity == Some(lanecap::transient::Sign::Positive);
            assert_eq!(sign == "+", own == (worse == pin.peak.0 || worse == pin.late_peak.0), "{row:?}");
            signs.push((struck.curves.polarity, sign.to_owned()));
        }
    }
    // In some line the polarity of more current is not that of the higher voltage.
    assert!(signs.contains(&(Some(lanecap::transient::Sign::Negative), "+".to_owned())), "{signs:?}");
}
