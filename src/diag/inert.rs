//! Text that cannot act on the terminal or hide from the reader.

use unicode_width::UnicodeWidthChar;

/// Whether a character acts on the terminal, turns the direction of the text or is invisible.
///
/// These are the control characters, the bidirectional marks, the zero-width and filler characters,
/// the variation selectors and the tags of Unicode.
pub fn is_hostile(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}'
            | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{2800}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
            | '\u{ffa0}' | '\u{fff9}'..='\u{fffb}' | '\u{13430}'..='\u{13438}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}')
}

/// `text` with every hostile character written by its code point.
///
/// ```
/// use lanecap::diag::inert;
/// assert_eq!(inert("red \u{1b}[31m"), "red U+001B[31m");
/// ```
pub fn inert(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        push_inert(&mut shown, c);
    }
    shown
}

/// `text` made inert and cut with `…` to at most `columns` terminal columns.
///
/// ```
/// use lanecap::diag::shorten;
/// assert_eq!(shorten("camera link", 20), "camera link");
/// assert_eq!(shorten("camera link", 7), "camera…");
/// ```
pub fn shorten(text: &str, columns: usize) -> String {
    let mut shown = String::new();
    let mut used = 0;
    // Where the text is cut when it turns out too long.
    let mut cut = 0;
    let mut cell = String::new();
    // Marks of no width could pile up without end on one letter.
    let most = 4 * columns;
    for (count, c) in text.chars().enumerate() {
        cell.clear();
        push_inert(&mut cell, c);
        used += columns_of(&cell);
        if used > columns || count >= most {
            shown.truncate(cut);
            shown.push('…');
            return shown;
        }
        shown.push_str(&cell);
        if used < columns {
            cut = shown.len();
        }
    }
    shown
}

/// Terminal columns of inert text.
pub(super) fn columns_of(text: &str) -> usize {
    text.chars().map(|c| c.width().unwrap_or(0)).sum()
}

/// Appends `c`, by its code point where it is hostile.
pub(super) fn push_inert(to: &mut String, c: char) {
    if is_hostile(c) {
        push_code_point(to, c);
    } else {
        to.push(c);
    }
}

/// Appends `c` by its code point.
pub(super) fn push_code_point(to: &mut String, c: char) {
    to.push_str(&format!("U+{:04X}", u32::from(c)));
}
