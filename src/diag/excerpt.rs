//! The lines of the source that a diagnostic shows: inert, and a window of a very long one.

use std::ops::Range;

use codespan_reporting::diagnostic::LabelStyle;
use codespan_reporting::files::{Error, Files};
use unicode_width::UnicodeWidthChar;

use super::inert::{columns_of, push_code_point, push_inert, shorten};
use super::{SourceFile, Sources, Span};

/// Columns of a line that are shown.
const WINDOW: usize = 100;
/// Columns of them before the underlined place.
const LEAD: usize = 40;
/// Bytes between two places of one line that still share a window.
const NEAR: usize = 60;
/// Line indices between two excerpts that are not neighbours, so that the gap is drawn as a break.
const GAP: usize = 10;

/// A span cut to the first line it touches.
#[derive(Debug, Clone)]
pub(super) struct Place {
    pub(super) style: LabelStyle,
    pub(super) message: String,
    /// Which of the shown files it lies in.
    pub(super) file: usize,
    /// Bytes of the shown text.
    pub(super) shown: Range<usize>,
    line: u32,
    column: u32,
    /// Bytes of the line, without byte order mark and line end.
    whole: Range<usize>,
    bytes: Range<usize>,
}

impl Place {
    /// The place of `span`, or `None` where its file is unknown. Spans out of range end up at the nearest byte in range.
    fn new(file: &SourceFile, span: Span, style: LabelStyle, message: &str, shown_file: usize) -> Place {
        let start = floor_boundary(&file.text, span.start as usize);
        let line = file.line(start as u32);
        let mut whole = file.line_range(line);
        if whole.start == 0 && file.text.starts_with('\u{feff}') {
            whole.start = '\u{feff}'.len_utf8();
        }
        let start = start.clamp(whole.start, whole.end);
        let end = floor_boundary(&file.text, span.end as usize).clamp(start, whole.end);
        Place {
            style,
            message: shorten(message, 200),
            file: shown_file,
            shown: 0..0,
            line,
            column: file.column(start as u32),
            whole,
            bytes: start..end,
        }
    }
}

/// The nearest character boundary of `text` at or before `offset`.
fn floor_boundary(text: &str, offset: usize) -> usize {
    let mut offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    offset
}

/// What is shown of one file.
struct ShownFile<'a> {
    source: &'a SourceFile,
    name: String,
    text: String,
    lines: Vec<ShownLine>,
    /// Byte of the shown text where a place starts, and its real column.
    columns: Vec<(usize, u32)>,
}

struct ShownLine {
    index: usize,
    number: u32,
    bytes: Range<usize>,
}

/// What is shown of the files a diagnostic speaks of.
pub(super) struct Excerpts<'a> {
    files: Vec<ShownFile<'a>>,
}

impl<'a> Excerpts<'a> {
    /// The excerpts around `spans`, and each span's place in them, in the order shown. A span of an unknown file is dropped.
    pub(super) fn around<'s>(
        sources: &'a Sources,
        spans: impl Iterator<Item = (Span, LabelStyle, &'s str)>,
    ) -> (Excerpts<'a>, Vec<Place>) {
        let mut files: Vec<ShownFile<'a>> = Vec::new();
        let mut ids: Vec<u32> = Vec::new();
        let mut places: Vec<Place> = Vec::new();
        for (span, style, message) in spans {
            let Some(source) = sources.file(span) else { continue };
            let shown_file = ids.iter().position(|id| *id == span.file).unwrap_or_else(|| {
                ids.push(span.file);
                files.push(ShownFile {
                    source,
                    name: shorten(&source.name, 200),
                    text: String::new(),
                    lines: Vec::new(),
                    columns: Vec::new(),
                });
                ids.len() - 1
            });
            places.push(Place::new(source, span, style, message, shown_file));
        }
        places.sort_by_key(|place| (place.file, place.line, place.bytes.start, place.bytes.end));
        let together = |a: &Place, b: &Place| {
            a.file == b.file && a.line == b.line && b.bytes.end.max(a.bytes.end) - a.bytes.start <= NEAR
        };
        let mut rest = places.as_mut_slice();
        while let Some(first) = rest.first() {
            let count = rest.iter().take_while(|place| together(first, place)).count().max(1);
            let (group, others) = rest.split_at_mut(count);
            files[group[0].file].show(group);
            rest = others;
        }
        (Excerpts { files }, places)
    }
}

impl ShownFile<'_> {
    /// Adds the line of `places`, which all lie in it and are not far apart.
    fn show(&mut self, places: &mut [Place]) {
        let Some(first) = places.first() else { return };
        let number = first.line;
        let whole = first.whole.clone();
        let lowest = first.bytes.start;
        let index = match self.lines.last() {
            Some(last) if last.number + 1 == number => last.index + 1,
            Some(last) => last.index + GAP,
            None => 0,
        };
        let start = self.text.len();
        let from = window_start(&self.source.text, &whole, lowest);
        if from > whole.start {
            self.text.push('…');
        }
        let mut used = 0;
        let mut at = from;
        for c in self.source.text[from..whole.end].chars() {
            mark(places, at, self.text.len());
            let opens = places.iter().any(|place| place.bytes.start == at);
            let length = self.text.len();
            push_cell(&mut self.text, c, opens);
            used += columns_of(&self.text[length..]);
            if used > WINDOW {
                self.text.truncate(length);
                break;
            }
            at += c.len_utf8();
        }
        // Whatever begins or ends beyond the window does so at its edge.
        let edge = self.text.len();
        for place in places.iter_mut() {
            if place.bytes.start >= at {
                place.shown.start = edge;
            }
            if place.bytes.end >= at {
                place.shown.end = edge;
            }
            self.columns.push((place.shown.start, place.column));
        }
        if at < whole.end {
            self.text.push('…');
        }
        self.lines.push(ShownLine { index, number, bytes: start..self.text.len() });
        self.text.push('\n');
    }
}

/// Notes that byte `at` of the source stands at byte `shown`.
fn mark(places: &mut [Place], at: usize, shown: usize) {
    for place in places {
        if place.bytes.start == at {
            place.shown.start = shown;
        }
        if place.bytes.end == at {
            place.shown.end = shown;
        }
    }
}

/// First byte shown of a line: its start where the line is short, else a little before `place`.
fn window_start(text: &str, whole: &Range<usize>, place: usize) -> usize {
    let cells = |c: char| {
        let mut cell = String::new();
        push_cell(&mut cell, c, false);
        columns_of(&cell)
    };
    // A character is shown on four times as many columns as it has bytes at most (a tab), or six (an escape).
    let short = whole.len() <= 4 * WINDOW && text[whole.clone()].chars().map(cells).sum::<usize>() <= WINDOW;
    if short {
        return whole.start;
    }
    let mut used = 0;
    let before = text[whole.start..place].char_indices().rev().take_while(|(_, c)| {
        used += cells(*c);
        used <= LEAD
    });
    before.last().map_or(place, |(offset, _)| whole.start + offset)
}

/// Appends a character of the source as it is shown: tabs as spaces, the others inert. A mark without a width of its
/// own is written by its code point where a place begins with it, so that there is something to underline.
fn push_cell(to: &mut String, c: char, opens: bool) {
    match c {
        '\t' => to.push_str("    "),
        c if opens && c.width() == Some(0) => push_code_point(to, c),
        c => push_inert(to, c),
    }
}

impl<'f> Files<'f> for Excerpts<'_> {
    type FileId = usize;
    type Name = &'f str;
    type Source = &'f str;

    fn name(&'f self, id: usize) -> Result<&'f str, Error> {
        self.files.get(id).map(|file| file.name.as_str()).ok_or(Error::FileMissing)
    }

    fn source(&'f self, id: usize) -> Result<&'f str, Error> {
        self.files.get(id).map(|file| file.text.as_str()).ok_or(Error::FileMissing)
    }

    fn line_index(&'f self, id: usize, byte: usize) -> Result<usize, Error> {
        let file = self.files.get(id).ok_or(Error::FileMissing)?;
        let after = file.lines.partition_point(|line| line.bytes.start <= byte);
        file.lines.get(after.saturating_sub(1)).map(|line| line.index).ok_or(Error::FileMissing)
    }

    fn line_number(&'f self, id: usize, index: usize) -> Result<usize, Error> {
        self.line(id, index).map(|line| line.number as usize)
    }

    fn column_number(&'f self, id: usize, _index: usize, byte: usize) -> Result<usize, Error> {
        let file = self.files.get(id).ok_or(Error::FileMissing)?;
        let column = file.columns.iter().find(|(start, _)| *start == byte);
        Ok(column.map_or(1, |(_, column)| *column as usize))
    }

    fn line_range(&'f self, id: usize, index: usize) -> Result<Range<usize>, Error> {
        self.line(id, index).map(|line| line.bytes.clone())
    }
}

impl Excerpts<'_> {
    fn line(&self, id: usize, index: usize) -> Result<&ShownLine, Error> {
        let file = self.files.get(id).ok_or(Error::FileMissing)?;
        file.lines
            .iter()
            .find(|line| line.index == index)
            .ok_or(Error::LineTooLarge { given: index, max: file.lines.len() })
    }
}
