//! A long file read in pieces at once.

use rayon::prelude::*;

use super::ast::{Item, Sheet};
use super::schema::is_top_block;
use super::structure::{Reader, parse_whole};
use crate::diag::Diagnostic;

/// Bytes below which a piece is not worth a thread of its own.
const LEAST: usize = 64 << 10;
/// Pieces for each thread: the last one to end is then no long wait.
const PER_THREAD: usize = 4;

/// Reads one file.
///
/// Returns the tree of what could be read, and the errors of the rest.
pub fn parse(file: u32, text: &str) -> (Sheet<'_>, Vec<Diagnostic>) {
    parse_by(file, text, LEAST)
}

/// [`parse`] with pieces of at least so many bytes, so that a test has short texts in pieces.
#[doc(hidden)]
pub fn parse_by(file: u32, text: &str, least: usize) -> (Sheet<'_>, Vec<Diagnostic>) {
    let threads = rayon::current_num_threads();
    let pieces = (text.len() / least.max(1)).min(PER_THREAD * threads);
    let sheet = (pieces > 1 && threads > 1).then(|| in_pieces(file, text, pieces));
    match sheet.flatten() {
        Some(sheet) => (sheet, Vec::new()),
        None => parse_whole(file, text),
    }
}

/// The tree of a file whose every piece is read without an error; `None` where one is not.
///
/// No token goes beyond the end of its line, and a piece without an error leaves no block open: it is then read as it is
/// within the whole. Where a piece does not begin at the top level, the one before it ends in an open block.
fn in_pieces(file: u32, text: &str, pieces: usize) -> Option<Sheet<'_>> {
    let starts = starts(text, pieces);
    if starts.len() < 2 {
        return None;
    }
    let ends = starts[1..].iter().copied().chain([text.len()]);
    let pieces: Vec<(usize, usize)> = starts.iter().copied().zip(ends).collect();
    let read = |&(start, end): &(usize, usize)| {
        let (items, errors) = Reader::new(file, &text[start..end], start).read();
        errors.is_empty().then_some(items)
    };
    let pieces: Option<Vec<Vec<Item<'_>>>> = pieces.par_iter().map(read).collect();
    Some(Sheet { items: pieces?.into_iter().flatten().collect() })
}

/// Where at most so many pieces of about one length may begin, 0 the first: at lines that look like the first one of a
/// block of the top level.
fn starts(text: &str, pieces: usize) -> Vec<usize> {
    let mut starts = vec![0];
    for piece in 1..pieces {
        let from = text.len() / pieces * piece;
        let last = starts.last().copied().unwrap_or_default();
        starts.extend(block_after(text, from).filter(|start| *start > last));
    }
    starts
}

/// Start of the first line behind `from` that begins with the word of a block of the top level and has a brace.
fn block_after(text: &str, from: usize) -> Option<usize> {
    let rest = text.as_bytes().get(from..)?;
    let mut start = from + rest.iter().position(|byte| *byte == b'\n')? + 1;
    for line in text[start..].split_inclusive('\n') {
        let word = line.split(|c: char| !c.is_ascii_lowercase()).next().unwrap_or_default();
        if is_top_block(word) && line.contains('{') {
            return Some(start);
        }
        start += line.len();
    }
    None
}
