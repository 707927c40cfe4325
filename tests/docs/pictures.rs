//! The pictures of the documents are what the tool draws of the demonstration port, those of a discharge of a sheet of their own.

use crate::support::{read_file, root};
use lanecap::curve::{Show, charted, charted_discharge, charted_feed};
use lanecap::picture::svg;

const LANE: &str = "display link";
const PICTURES: [(Show, &str); 5] = [
    (Show::Loss, "loss"),
    (Show::Reflection, "reflection"),
    (Show::Penalty, "penalty"),
    (Show::Eye, "eye"),
    (Show::Impedance, "impedance"),
];

#[test]
fn the_pictures_are_what_the_tool_draws() {
    let port = read_file(&root().join("fixtures/sheets/ok/demo.lanes")).1.unwrap();
    let (_, lane) = port.lanes().find(|(head, _)| head.name == LANE).unwrap();
    let (head, feed) = port.feeds().next().unwrap();
    let lanes = PICTURES.map(|(show, name)| (name, svg(&charted(LANE, lane, show).unwrap())));
    let feed = ("match", svg(&charted_feed(&head.name, feed).unwrap()));
    let race = read_file(&root().join("fixtures/sheets/ok/late_array.lanes")).1.unwrap();
    let drawn = race.lines.iter().map(|line| svg(&charted_discharge(line).unwrap()));
    let struck: Vec<_> = ["discharge", "discharge_3_ohm"].into_iter().zip(drawn).collect();
    assert_eq!(struck.len(), 2);
    let mut stale = Vec::new();
    for (name, drawn) in lanes.into_iter().chain([feed]).chain(struck) {
        let path = root().join(format!("docs/pictures/{name}.svg"));
        if std::fs::read_to_string(&path).is_ok_and(|kept| kept == drawn) {
            continue;
        }
        if std::env::var_os("UPDATE_DOCS").is_some() {
            std::fs::write(&path, drawn).unwrap();
        } else {
            stale.push(name);
        }
    }
    assert!(stale.is_empty(), "{stale:?}: run UPDATE_DOCS=1 cargo test docs, and look at them");
}
