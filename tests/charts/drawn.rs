//! What is drawn against the numbers it is drawn from.

use roxmltree::Document;

use super::{crowded, data, fixtures};
use lanecap::curve::{Curve, Picture, Show, State};
use lanecap::picture::{Frame, plot};

/// Units of the picture to a point.
const UNITS: f64 = 10.0;

/// How close a line comes to its numbers, in points: of many points to a column only the reach is drawn.
const NEAR: f64 = 0.7;

/// The polylines of a path, in points. A path is `M` with a place and `l` with steps.
pub(super) fn polylines(d: &str) -> Vec<Vec<(f64, f64)>> {
    let piece = |piece: &str| {
        let (from, steps) = piece.split_once('l').unwrap();
        let numbers = |text: &str| -> Vec<f64> {
            let spaced = text.replace('-', " -");
            spaced.split_whitespace().map(|n| n.parse().unwrap()).collect()
        };
        let mut at = numbers(from);
        let mut points = vec![(at[0] / UNITS, at[1] / UNITS)];
        for step in numbers(steps).chunks(2) {
            at = vec![at[0] + step[0], at[1] + step[1]];
            points.push((at[0] / UNITS, at[1] / UNITS));
        }
        points
    };
    d.split('M').skip(1).map(piece).collect()
}

fn distance(p: (f64, f64), a: (f64, f64), b: (f64, f64)) -> f64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let along = (((p.0 - a.0) * dx + (p.1 - a.1) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
    (p.0 - a.0 - along * dx).hypot(p.1 - a.1 - along * dy)
}

/// Where the frame says that a value belongs.
fn place(frame: &Frame, (x, y): (f64, f64)) -> (f64, f64) {
    let [left, top, right, bottom] = frame.area;
    let along = if frame.logarithmic {
        (x / frame.x.0).ln() / (frame.x.1 / frame.x.0).ln()
    } else {
        (x - frame.x.0) / (frame.x.1 - frame.x.0)
    };
    let up = (y - frame.y.0) / (frame.y.1 - frame.y.0);
    let down = if frame.down { up } else { 1.0 - up };
    (left + along * (right - left), top + down * (bottom - top))
}

/// The look of a state's line: colour, dashes.
fn look(state: State) -> (&'static str, Option<&'static str>) {
    match state {
        State::Absent => ("#6F7882", Some("40 30")),
        State::Fitted(_) => ("#1D5FB4", None),
        State::AtBudget(_) => ("#C9791B", Some("100 40")),
    }
}

/// Every point of the curve lies on a line of its state, and no such line lies elsewhere.
fn check(document: &Document, frame: &Frame, curve: &Curve, what: &str) {
    let (colour, dashes) = look(curve.state);
    let paths = document
        .descendants()
        .filter(|node| node.attribute("stroke") == Some(colour) && node.attribute("stroke-dasharray") == dashes);
    let drawn: Vec<Vec<(f64, f64)>> = paths.flat_map(|node| polylines(node.attribute("d").unwrap())).collect();
    let [left, top, right, bottom] = frame.area;
    let placed: Vec<(f64, f64)> = curve.points.iter().map(|point| place(frame, *point)).collect();
    // Many points to a column are drawn by their reach.
    let every = (placed.len() as f64 / (right - left) / 2.0).ceil().max(1.0) as usize;
    for p in placed.iter().step_by(every).filter(|p| (top..=bottom).contains(&p.1)) {
        let nearest = drawn
            .iter()
            .flat_map(|line| line.windows(2))
            .map(|pair| distance(*p, pair[0], pair[1]))
            .fold(f64::INFINITY, f64::min);
        assert!(nearest < NEAR, "{what}: {p:?} lies {nearest} from what is drawn");
    }
    // Samples of lines stand beside the frame.
    let within = |p: &&(f64, f64)| p.0 <= right + 0.1 && (top - 10.0..bottom + 10.0).contains(&p.1);
    for p in drawn.iter().flatten().filter(within) {
        assert!(p.0 >= left - 0.1 && p.1 >= top - 0.1 && p.1 <= bottom + 0.1, "{what}: {p:?} beyond the frame");
        let nearest = placed.windows(2).map(|pair| distance(*p, pair[0], pair[1])).fold(f64::INFINITY, f64::min);
        assert!(nearest < NEAR, "{what}: drawn {p:?} lies {nearest} from the curve");
    }
}

#[test]
fn curves_are_drawn_where_their_numbers_are() {
    for (name, lane) in fixtures().into_iter().chain([("crowded".to_owned(), crowded())]) {
        for show in [Show::Loss, Show::Reflection] {
            let data = data(&lane, show);
            let plot = plot(&data);
            let document = Document::parse(&plot.svg).unwrap();
            let spectra = match &data.picture {
                Picture::Loss(loss) => vec![loss],
                Picture::Reflection(outer, inner) => vec![outer, inner],
                other => panic!("{other:?}"),
            };
            assert_eq!(spectra.len(), plot.frames.len());
            for (spectrum, frame) in spectra.iter().zip(&plot.frames) {
                for curve in &spectrum.curves {
                    let what = format!("{show:?} of {:?}, {:?}", name, curve.state);
                    check(&document, frame, curve, &what);
                }
            }
        }
    }
}

#[test]
fn a_broken_line_is_one_shape() {
    let data = data(&crowded(), Show::Loss);
    let svg = plot(&data).svg;
    let document = Document::parse(&svg).unwrap();
    let broken = document.descendants().filter(|node| node.attribute("stroke-dasharray") == Some("40 30"));
    // The curve and the sample beside its name.
    assert_eq!(broken.count(), 2);
}
