//! A result as JSON.

use rayon::prelude::*;
use serde::Serialize;

use super::keys::{Keyed, Keys};
use super::report::Report;
use crate::diag::is_hostile;

/// What a line takes in the text, roughly: room that need not be found again and again.
const BYTES_PER_LINE: usize = 4400;
/// Lines that are written at a time.
const TOGETHER: usize = 512;

/// The report as indented JSON, ended by a line end. Numbers that are not finite become null.
pub(crate) fn render(report: &Report) -> String {
    sized(report, BYTES_PER_LINE * (report.lanes.len() + report.feeds.len()))
}

/// What has keys as indented JSON in which no character acts on a terminal.
pub(crate) fn text(data: &impl Keyed) -> String {
    sized(data, 0)
}

fn sized(data: &impl Keyed, bytes: usize) -> String {
    let mut writer = Writer { json: Vec::with_capacity(bytes), depth: 0, first: true };
    writer.keyed(Some(data));
    // What is written is UTF-8.
    writer.json.push(b'\n');
    String::from_utf8(writer.json).unwrap_or_default()
}

/// Writes keys and values, each on a line of its own, two columns further in at each depth.
struct Writer {
    json: Vec<u8>,
    depth: usize,
    /// Whether nothing is written yet at this depth.
    first: bool,
}

impl Writer {
    fn line(&mut self) {
        self.json.push(b'\n');
        self.json.extend(std::iter::repeat_n(b' ', 2 * self.depth));
    }

    /// Begins an item of a list, or the key of an object.
    fn item(&mut self) {
        if !self.first {
            self.json.push(b',');
        }
        self.first = false;
        self.line();
    }

    /// Keys are plain words.
    fn key(&mut self, key: &str) {
        self.item();
        self.json.push(b'"');
        self.json.extend_from_slice(key.as_bytes());
        self.json.extend_from_slice(b"\": ");
    }

    /// A number, a text, a flag or null, with an escape in the place of what acts on a terminal. Writing to memory cannot
    /// fail.
    fn value(&mut self, value: impl Serialize) {
        let start = self.json.len();
        let _ = serde_json::to_writer(&mut self.json, &value);
        // Below U+0080 serde_json escapes what must be.
        if self.json[start..].iter().any(|b| *b > b'~') {
            let written = String::from_utf8(self.json.split_off(start)).unwrap_or_default();
            for c in written.chars() {
                if is_hostile(c) {
                    let units =
                        c.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")).collect::<String>();
                    self.json.extend_from_slice(units.as_bytes());
                } else {
                    self.json.extend_from_slice(c.encode_utf8(&mut [0; 4]).as_bytes());
                }
            }
        }
    }

    /// What `fill` writes, between brackets.
    fn within(&mut self, [open, close]: [u8; 2], fill: impl FnOnce(&mut Self)) {
        self.json.push(open);
        self.depth += 1;
        self.first = true;
        fill(self);
        self.depth -= 1;
        if !self.first {
            self.line();
        }
        self.first = false;
        self.json.push(close);
    }

    fn keyed<T: Keyed>(&mut self, value: Option<&T>) {
        match value {
            Some(value) => self.within(*b"{}", |inner| T::keys(Some(value), inner)),
            None => self.value(()),
        }
    }

    /// The items of a long list, so many at a time written on all cores.
    fn long_list<T: Keyed + Send>(&mut self, mut values: Vec<T>) {
        let depth = self.depth;
        let written = |value: T| {
            let mut writer = Writer { json: Vec::with_capacity(BYTES_PER_LINE), depth, first: true };
            writer.keyed(Some(&value));
            writer.json
        };
        while !values.is_empty() {
            let rest = values.split_off(values.len().min(TOGETHER));
            let texts: Vec<Vec<u8>> = std::mem::replace(&mut values, rest).into_par_iter().map(written).collect();
            for text in texts {
                self.item();
                self.json.extend_from_slice(&text);
            }
        }
    }

    fn items<T>(&mut self, values: Option<impl IntoIterator<Item = T>>, mut write: impl FnMut(&mut Self, T)) {
        let Some(values) = values else {
            return self.value(());
        };
        self.within(*b"[]", |inner| {
            for value in values {
                inner.item();
                write(inner, value);
            }
        });
    }
}

impl Keys for Writer {
    fn number(&mut self, key: &str, value: Option<f64>) {
        self.key(key);
        self.value(value);
    }

    fn count(&mut self, key: &str, value: Option<u32>) {
        self.key(key);
        self.value(value);
    }

    fn text(&mut self, key: &str, value: Option<&str>) {
        self.key(key);
        self.value(value);
    }

    fn flag(&mut self, key: &str, value: Option<bool>) {
        self.key(key);
        self.value(value);
    }

    fn ends(&mut self, key: &str, value: Option<(f64, f64)>) {
        self.key(key);
        self.items(value.map(|(low, high)| [low, high]), |inner, end| inner.value(end));
    }

    fn object<T: Keyed>(&mut self, key: &str, value: Option<&T>) {
        self.key(key);
        self.keyed(value);
    }

    fn nested<T: Keyed>(&mut self, key: &str, value: Option<&T>) {
        self.object(key, value);
    }

    fn columns(&mut self, _: impl FnOnce(&mut Self)) {}

    fn list<T: Keyed + Send>(&mut self, key: &str, values: Option<impl IntoIterator<Item = T>>) {
        self.key(key);
        let mut values = values.map(|values| values.into_iter().collect::<Vec<T>>());
        if let Some(values) = values.as_mut().filter(|values| values.len() > TOGETHER) {
            return self.within(*b"[]", |inner| inner.long_list(std::mem::take(values)));
        }
        self.items(values, |inner, value| inner.keyed(Some(&value)));
    }

    fn pairs(&mut self, key: &str, values: Option<impl IntoIterator<Item = (f64, Option<f64>)>>) {
        self.key(key);
        self.items(values, |inner, (one, other)| inner.items(Some([Some(one), other]), |pair, end| pair.value(end)));
    }

    fn numbers(&mut self, key: &str, values: Option<impl IntoIterator<Item = f64>>) {
        self.key(key);
        self.items(values, |inner, number| inner.value(number));
    }

    fn texts(&mut self, key: &str, values: Option<impl IntoIterator<Item = impl AsRef<str>>>) {
        self.key(key);
        self.items(values, |inner, text| inner.value(text.as_ref()));
    }

    fn of_list(&mut self, _: &str, _: Option<usize>) {}
}
