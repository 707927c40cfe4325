//! Which elements a path has, and in which places.

use super::flaw::Place;
use super::values::Found;
use crate::model::Path;

/// The two ends in their place, one protector, at most one plane, nothing of the other kind of path.
pub(super) fn check(path: &Path, is_feed: bool, found: &mut Found) {
    let (own, foreign) = if is_feed {
        (["antenna", "radio"], ["driver", "receiver"])
    } else {
        (["driver", "receiver"], ["antenna", "radio"])
    };
    let kind = if is_feed { "feed" } else { "lane" };
    let words: Vec<&str> = path.elements.iter().map(|e| e.element.word()).collect();
    let places = |word: &str| -> Vec<usize> {
        words.iter().enumerate().filter(|(_, w)| **w == word).map(|(index, _)| index).collect()
    };
    for word in foreign {
        for index in places(word) {
            let message = format!("`{word}` does not belong in the path of a {kind}");
            found.push("misplaced-word", Place::Element(index), message);
        }
    }
    for (word, missing, several) in [
        (own[0], "path-ends", "path-ends"),
        (own[1], "path-ends", "path-ends"),
        ("protector", "no-protector", "two-protectors"),
        ("plane", "", "two-planes"),
    ] {
        let at = places(word);
        if at.is_empty() && !missing.is_empty() {
            found.push(missing, Place::Line, format!("the path has no {word}"));
        }
        let name = if word == "plane" { "port plane" } else { word };
        for second in at.iter().skip(1) {
            found.push(several, Place::Element(*second), format!("a path has one {name}"));
        }
        let Some(&index) = at.first().filter(|_| own.contains(&word)) else { continue };
        let (begins, ends) = (index == 0, index + 1 == words.len());
        let in_place = match word {
            "antenna" => begins,
            "radio" => ends,
            _ => begins || ends,
        };
        if !in_place {
            let cure = if is_feed {
                "a feed goes from its antenna to its radio"
            } else {
                "driver and receiver are the first and the last element of a path, either way round"
            };
            let message = format!("the {word} stands between other elements");
            found.cured("path-ends", Place::Element(index), message, cure);
        }
    }
}
