//! The good sheets use the whole language: every word in every place it may stand, every form of its arguments.

use std::collections::BTreeSet;
use std::path::PathBuf;

use lanecap::budget::Figures;
use lanecap::figures::limited;
use lanecap::result::size;
use lanecap::sheet::ast::{Argument, ArgumentKind, Block, Item, Row};
use lanecap::sheet::parse;
use lanecap::sheet::schema::{BLOCKS, Form, RowSchema, Shape};
use lanecap::units::Dimension;

use crate::support::{files, read_file};

const GOOD: &str = "fixtures/sheets/ok";

/// What the schema lets a sheet say, e.g. `lane/rate/pam4`, `via/stub outer`, `limit return_loss of a feed, a mask`.
fn sayable() -> BTreeSet<String> {
    let mut words: BTreeSet<String> = [
        "lane/path outward",
        "feed/path outward",
        "limits/…",
        "limit rise_time from",
        "limit impedance_dip rise",
        "limit impedance_dip until",
        "limit impedance_excursion below",
        "limit impedance_excursion rise",
    ]
    .map(str::to_owned)
    .into();
    for block in BLOCKS {
        for row in block.lines {
            let place = format!("{}/{}", block.name, row.word);
            for form in forms(row) {
                words.insert(format!("{place}{form}"));
            }
            words.insert(place);
        }
    }
    for (_, row) in limited() {
        for block in row.lines.iter().map(|line| line.word()) {
            words.insert(format!("limit {} of a {block}", row.word));
            if row.mask {
                words.insert(format!("limit {} of a {block}, a mask", row.word));
            }
        }
    }
    words
}

/// The forms a line may take, each as what follows its place.
fn forms(row: &RowSchema) -> Vec<String> {
    let texts = |list: &[&str]| list.iter().map(|text| (*text).to_owned()).collect();
    match row.form {
        Form::Arguments { slots, named } => {
            let slots = slots.iter().map(|slot| format!(": {:?}", slot.kind.dimension));
            let named = named.iter().flat_map(|named| {
                let place = format!("/{}", named.word);
                let further: &[&str] = match named.shape {
                    Shape::Losses => &[", one", ", two", ", Decibel", ", DecibelPerLength"],
                    Shape::Stub => &[" outer", " inner"],
                    Shape::Surge => &[", Current", " through"],
                    Shape::List(_, 1, 2) => &[", one", ", two"],
                    _ => &[],
                };
                further.iter().map(|form| format!("{place}{form}")).chain([place.clone()]).collect::<Vec<_>>()
            });
            slots.chain(named).collect()
        }
        Form::Range(_) => texts(&[" to"]),
        Form::ValueAt(_) => texts(&[" at"]),
        Form::Rating => texts(&[" typical", " max", " at", " across", " ±"]),
        Form::Name | Form::Limit | Form::Block => Vec::new(),
    }
}

/// What the good sheets say of it, their included files among them.
fn said(sheets: &[PathBuf]) -> BTreeSet<String> {
    let mut words = BTreeSet::new();
    for path in sheets {
        let (gathered, port) = read_file(path);
        assert!(port.is_ok(), "{}: {port:?}", path.display());
        for (number, source) in (0..).zip(&gathered.sources.files) {
            let (sheet, errors) = parse(number, &source.text);
            assert!(errors.is_empty(), "{}", path.display());
            walk(&mut words, "sheet", &sheet.items);
        }
    }
    words
}

fn walk(words: &mut BTreeSet<String>, block: &str, items: &[Item]) {
    for item in items {
        let word = item.word().text;
        let place = format!("{block}/{word}");
        words.insert(place.clone());
        match item {
            Item::Block(inner) => {
                if let Some(tag) = inner.tag {
                    words.insert(format!("{place} {}", tag.text));
                }
                enter(words, inner);
            }
            Item::Row(line) if word == "limit" => limit(words, block, line),
            Item::Row(line) => {
                let row = BLOCKS.iter().find(|known| known.name == block).and_then(|known| known.line(word)).unwrap();
                arguments(words, &place, row, &line.arguments);
            }
        }
    }
}

fn enter(words: &mut BTreeSet<String>, block: &Block) {
    match block.word.text {
        "limits" => drop(words.insert("limits/…".to_owned())),
        name => walk(words, name, &block.items),
    }
}

fn limit(words: &mut BTreeSet<String>, block: &str, line: &Row) {
    let Some(ArgumentKind::Word(name)) = line.arguments.first().map(|first| &first.kind) else { panic!("{line:?}") };
    words.insert(format!("limit {name} of a {block}"));
    if line.arguments.iter().any(|argument| matches!(argument.kind, ArgumentKind::Comma)) {
        words.insert(format!("limit {name} of a {block}, a mask"));
    }
    for argument in &line.arguments {
        if let ArgumentKind::Word(word @ ("from" | "below" | "rise" | "until")) = argument.kind {
            words.insert(format!("limit {name} {word}"));
        }
    }
}

/// The forms of one line: its leading quantities, then each word with the arguments up to the next.
fn arguments(words: &mut BTreeSet<String>, place: &str, row: &RowSchema, arguments: &[Argument]) {
    let Form::Arguments { named, .. } = row.form else {
        for argument in arguments {
            match &argument.kind {
                ArgumentKind::Word(word) => drop(words.insert(format!("{place} {word}"))),
                ArgumentKind::Quantity(found) if found.tolerance.is_some() => drop(words.insert(format!("{place} ±"))),
                _ => {}
            }
        }
        return;
    };
    let begins = |argument: &&Argument| match argument.kind {
        ArgumentKind::Word(word) => named.iter().find(|named| named.word == word),
        _ => None,
    };
    let starts: Vec<usize> = (0..arguments.len()).filter(|at| begins(&&arguments[*at]).is_some()).collect();
    let leading = &arguments[..starts.first().copied().unwrap_or(arguments.len())];
    words.extend(dimensions(leading).map(|dimension| format!("{place}: {dimension:?}")));
    for (number, start) in starts.iter().enumerate() {
        let end = starts.get(number + 1).copied().unwrap_or(arguments.len());
        let (Some(named), own) = (begins(&&arguments[*start]), &arguments[start + 1..end]) else { continue };
        let place = format!("{place}/{}", named.word);
        words.insert(place.clone());
        let count = match named.shape {
            Shape::Losses => own.iter().filter(|a| matches!(a.kind, ArgumentKind::Word("at"))).count(),
            _ => dimensions(own).count(),
        };
        words.insert(format!("{place}, {}", if count == 1 { "one" } else { "two" }));
        words.extend(dimensions(own).map(|dimension| format!("{place}, {dimension:?}")));
        words.extend(own.iter().filter_map(|argument| match argument.kind {
            ArgumentKind::Word(word) => Some(format!("{place} {word}")),
            _ => None,
        }));
    }
}

fn dimensions<'a>(arguments: &'a [Argument]) -> impl Iterator<Item = Dimension> + 'a {
    arguments.iter().filter_map(|argument| match &argument.kind {
        ArgumentKind::Quantity(quantity) => quantity.dimension,
        _ => None,
    })
}

#[test]
fn every_word_stands_in_a_good_sheet() {
    let said = said(&files(GOOD, "lanes"));
    let missing: Vec<String> = sayable().into_iter().filter(|word| !said.contains(word)).collect();
    assert!(missing.is_empty(), "in no sheet of {GOOD}:\n{}", missing.join("\n"));
}

#[test]
fn every_verdict_stands_in_a_good_sheet() {
    let mut found = BTreeSet::new();
    for path in files(GOOD, "lanes") {
        let (gathered, port) = read_file(&path);
        let port = port.unwrap();
        let all: Vec<usize> = (0..port.names().len()).collect();
        let report = size(&port, &all, Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        found.extend(report.lanes.iter().map(|lane| ("lane", lane.budget().verdict.word())));
        found.extend(report.feeds.iter().map(|feed| ("feed", feed.budget().verdict.word())));
        found.extend(report.buses.iter().map(|bus| ("bus", bus.budget().verdict.word())));
    }
    for verdict in ["bounded", "window", "unbounded", "impossible"] {
        assert!(found.contains(&("lane", verdict)), "no lane is {verdict}");
        assert!(found.contains(&("feed", verdict)), "no feed is {verdict}");
        // The capacitance of a bus only slows it: no window.
        assert_eq!(found.contains(&("bus", verdict)), verdict != "window", "a bus, {verdict}");
    }
}
