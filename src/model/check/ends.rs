//! Which elements a path has, and in which places.

use super::flaw::Place;
use super::values::Found;
use crate::figures::LineKind;
use crate::model::Path;

/// Which ends the path of a line has, outer first, and which elements do not belong in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PathWords {
    /// The ends.
    pub ends: &'static [&'static str],
    /// What belongs in a path of another kind of line.
    pub foreign: &'static [&'static str],
}

impl PathWords {
    /// Those of a kind of line.
    pub fn of(kind: LineKind) -> PathWords {
        let (ends, foreign): (&[_], &[_]) = match kind {
            LineKind::Lane => (&["driver", "receiver"], &["antenna", "radio", "pin"]),
            LineKind::Feed => (&["antenna", "radio"], &["driver", "receiver", "pin"]),
            LineKind::Bus | LineKind::Rail => (&["pin"], &["driver", "receiver", "antenna", "radio", "cable"]),
        };
        PathWords { ends, foreign }
    }
}

/// The ends in their place, one protector, at most one plane, nothing of the other kinds of path.
pub(super) fn check(path: &Path, kind: LineKind, found: &mut Found) {
    let PathWords { ends: own, foreign } = PathWords::of(kind);
    let line = kind.word();
    let words: Vec<&str> = path.elements.iter().map(|e| e.element.word()).collect();
    let places = |word: &str| -> Vec<usize> {
        words.iter().enumerate().filter(|(_, w)| **w == word).map(|(index, _)| index).collect()
    };
    for word in foreign.iter().copied() {
        for index in places(word) {
            let message = format!("`{word}` does not belong in the path of a {line}");
            found.push("misplaced-word", Place::Element(index), message);
        }
    }
    let ends = own.iter().map(|end| (*end, "path-ends", "path-ends"));
    for (word, missing, several) in
        ends.chain([("protector", "no-protector", "two-protectors"), ("plane", "", "two-planes")])
    {
        let at = places(word);
        if at.is_empty() && !missing.is_empty() {
            found.push(missing, Place::Line, format!("the path has no {word}"));
        }
        let name = if word == "plane" { "port plane" } else { word };
        for second in at.iter().skip(1) {
            found.push(several, Place::Element(*second), format!("a path has one {name}"));
        }
        let Some(&index) = at.first().filter(|_| own.contains(&word)) else { continue };
        let (begins, is_last) = (index == 0, index + 1 == words.len());
        let in_place = match word {
            "antenna" => begins,
            "radio" | "pin" => is_last,
            _ => begins || is_last,
        };
        if !in_place {
            let cure = match kind {
                LineKind::Feed => "a feed goes from its antenna to its radio",
                LineKind::Lane => "driver and receiver are the first and the last element of a path, either way round",
                LineKind::Bus | LineKind::Rail => "the pin is the inner end of the path",
            };
            let message = format!("the {word} stands between other elements");
            found.cured("path-ends", Place::Element(index), message, cure);
        }
    }
}
