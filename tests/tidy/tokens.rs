//! The words of a Rust file.

/// Words and signs of a file; texts, characters, lifetimes and comments left out.
pub(super) fn tokens(text: &str) -> Vec<String> {
    let mut rest = text;
    let mut found = Vec::new();
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    while let Some(first) = rest.chars().next() {
        let length = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            comment(rest)
        } else if let Some(hashes) = raw_text(rest) {
            let end = format!("\"{}", "#".repeat(hashes));
            let body = rest.find('"').unwrap() + 1;
            body + rest[body..].find(&end).map_or(rest.len() - body, |at| at + end.len())
        } else if first == '"' {
            quoted(rest, '"')
        } else if first == '\'' {
            // A character ends in a quote, a lifetime does not.
            let mut next = rest.chars().skip(1);
            if next.next() == Some('\\') || next.next() == Some('\'') { quoted(rest, '\'') } else { 1 }
        } else if is_word(first) {
            let length = rest.find(|c| !is_word(c)).unwrap_or(rest.len());
            found.push(rest[..length].to_string());
            length
        } else if rest.starts_with("::") {
            found.push("::".into());
            2
        } else {
            found.extend((!first.is_whitespace()).then(|| first.to_string()));
            first.len_utf8()
        };
        rest = &rest[length..];
    }
    found
}

/// Length of a comment that may hold others.
fn comment(text: &str) -> usize {
    let (mut at, mut depth) = (0, 0);
    loop {
        let step = match text.get(at..at + 2) {
            Some("/*") => {
                depth += 1;
                2
            }
            Some("*/") => {
                depth -= 1;
                2
            }
            _ => text[at..].chars().next().map_or(1, char::len_utf8),
        };
        at += step;
        if depth == 0 || at >= text.len() {
            return at.min(text.len());
        }
    }
}

/// The number of `#` of a raw text that begins here.
fn raw_text(text: &str) -> Option<usize> {
    let after = text.strip_prefix('b').unwrap_or(text).strip_prefix('r')?;
    let body = after.trim_start_matches('#');
    body.starts_with('"').then_some(after.len() - body.len())
}

/// Length of what stands between two equal quotes, these included.
fn quoted(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        if !escaped && c == quote {
            return at + 1;
        }
        escaped = !escaped && c == '\\';
    }
    text.len()
}
