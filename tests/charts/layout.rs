//! No text on another, none beyond the edge: measured with the font the charts are drawn with.

use ab_glyph::{Font as _, FontRef};
use roxmltree::{Document, Node};

use super::{crowded, fixtures, named};
use crate::support::lanes::*;
use lanecap::curve::Show;
use lanecap::model::Lane;
use lanecap::picture::svg;

/// What takes room: left, top, right, bottom.
#[derive(Debug, Clone)]
pub(super) struct Placed {
    pub(super) text: String,
    pub(super) area: [f64; 4],
}

/// An attribute of the element itself, or else of what it stands in.
fn number(node: &Node, name: &str) -> f64 {
    let value = node.ancestors().find_map(|node| node.attribute(name));
    value.unwrap().parse().unwrap()
}

fn placed(font: &FontRef, node: &Node) -> Placed {
    let text = node.text().unwrap_or_default().trim_matches('\n').to_owned();
    let size = number(node, "font-size");
    let units = font.units_per_em().unwrap();
    let advance = |c| f64::from(font.h_advance_unscaled(font.glyph_id(c)) / units);
    let width = size * text.chars().map(advance).sum::<f64>();
    // The capitals' height and the descenders' depth of the font are 0.73 and 0.24 em.
    let (up, down) = (0.73 * size, 0.2 * size);
    let (x, y) = (number(node, "x"), number(node, "y"));
    let shift = match node.attribute("text-anchor") {
        None => 0.0,
        Some("middle") => -width / 2.0,
        Some("end") => -width,
        Some(other) => panic!("{other}"),
    };
    let area = match node.attribute("transform") {
        None => [x + shift, y - up, x + shift + width, y + down],
        // Turned about its point to read upward: along becomes up, down becomes right.
        Some(turn) => {
            assert_eq!(turn, format!("rotate(-90 {x} {y})"));
            [x - up, y - shift - width, x + down, y - shift]
        }
    };
    Placed { text, area }
}

fn check(name: &str, lane: &Lane, show: Show) {
    check_drawn(&svg(&named(name, lane, show)), &format!("{show:?} of {name:?}"));
}

/// Every text of a picture with the room it takes, in units of the picture.
pub(super) fn texts(document: &Document) -> Vec<Placed> {
    let font = FontRef::try_from_slice(dejavu::sans::regular()).unwrap();
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts.map(|node| placed(&font, &node)).collect()
}

/// No text of the picture lies on another, none leaves it.
pub(super) fn check_drawn(svg: &str, what: &str) {
    let document = Document::parse(svg).unwrap_or_else(|e| panic!("{e}: {svg}"));
    let view: Vec<f64> =
        document.root_element().attribute("viewBox").unwrap().split(' ').map(|n| n.parse().unwrap()).collect();
    let texts = texts(&document);
    assert!(texts.len() > 8, "{} texts", texts.len());
    assert!(texts.iter().all(|placed| !placed.text.is_empty()));
    for (i, a) in texts.iter().enumerate() {
        let [left, top, right, bottom] = a.area;
        assert!(left >= 0.0 && top >= 0.0 && right <= view[2] && bottom <= view[3], "{what}: {a:?} leaves {view:?}");
        for b in &texts[..i] {
            let apart = left >= b.area[2] || b.area[0] >= right || top >= b.area[3] || b.area[1] >= bottom;
            assert!(apart, "{what}: {a:?} lies on {b:?}");
        }
    }
}

#[test]
fn texts_keep_apart_on_every_sheet() {
    for (name, lane) in fixtures() {
        Show::ALL.into_iter().for_each(|show| check(&name, &lane, show));
    }
}

#[test]
fn texts_keep_apart_where_it_is_crowded() {
    for c in [None, Some(1e-15), Some(0.03e-12), Some(5e-12)] {
        let mut lane = crowded();
        if let Some(c) = c {
            lane = with_fitted(lane, c);
        }
        Show::ALL.into_iter().for_each(|show| check("crowded", &lane, show));
    }
}

#[test]
fn texts_keep_apart_under_any_name() {
    let (_, lane) = fixtures().remove(0);
    for name in [
        "<script>alert(1)</script>".to_owned(),
        "W".repeat(200),
        "漢字".repeat(60),
        "é\u{301}🦀 ".repeat(50),
        String::new(),
    ] {
        [Show::Loss, Show::Eye].into_iter().for_each(|show| check(&name, &lane, show));
    }
}

#[test]
fn texts_keep_apart_at_any_size() {
    use lanecap::figures::*;
    for (z, nyquist) in [(1.0, 1e3), (50.0, 5e4), (50.0, 3e11), (1e5, 1e9)] {
        let lane = bare(z, nyquist, vec![limit(&RETURN_LOSS, 12.0), limit(&ADDED_LOSS, 1e-6)]);
        for lane in [with_fitted(lane.clone(), 0.1 / (z * nyquist)), lane] {
            Show::ALL.into_iter().for_each(|show| check("under test", &lane, show));
        }
    }
    // Nothing holds, nothing is bounded.
    for level in [-1.0, 200.0] {
        let lane = bare(50.0, 1e9, vec![limit(&RETURN_LOSS, level)]);
        Show::ALL.into_iter().for_each(|show| check("under test", &lane, show));
    }
}
