//! The files of a sheet, and where a byte of one stands.

use super::Span;

/// One file of a sheet.
#[derive(Debug, Clone)]
pub struct SourceFile {
    /// The name shown to the user; standard input is `-`.
    pub name: String,
    /// The text.
    pub text: String,
    line_starts: Vec<u32>,
}

impl SourceFile {
    /// A file with its line starts found.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> SourceFile {
        let text = text.into();
        let breaks = text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i as u32 + 1);
        let line_starts = std::iter::once(0).chain(breaks).collect();
        SourceFile { name: name.into(), text, line_starts }
    }

    /// Line number, from 1, of the byte at `offset`.
    pub fn line(&self, offset: u32) -> u32 {
        self.line_starts.partition_point(|start| *start <= offset) as u32
    }

    /// Byte range of a line, its line end excluded.
    pub fn line_range(&self, line: u32) -> std::ops::Range<usize> {
        let index = line.saturating_sub(1) as usize;
        let start = self.line_starts.get(index).map_or(self.text.len(), |s| *s as usize);
        let end = self.line_starts.get(index + 1).map_or(self.text.len(), |s| *s as usize);
        let trimmed = self.text[start..end].trim_end_matches(['\n', '\r']).len();
        start..start + trimmed
    }

    /// Column, from 1 and counted in characters, of the byte at `offset`.
    pub fn column(&self, offset: u32) -> u32 {
        let start = self.line_range(self.line(offset)).start;
        let before = self.text.get(start..offset as usize).unwrap_or("");
        before.chars().filter(|c| *c != '\u{feff}').count() as u32 + 1
    }
}

/// The files of a sheet: the sheet itself first, then what it includes.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    /// In the order they were read; a [`Span`]'s `file` is an index here.
    pub files: Vec<SourceFile>,
}

impl Sources {
    /// The file a span lies in.
    pub fn file(&self, span: Span) -> Option<&SourceFile> {
        self.files.get(span.file as usize)
    }

    /// Line number of the start of a span.
    pub fn line(&self, span: Span) -> u32 {
        self.file(span).map_or(0, |file| file.line(span.start))
    }
}
