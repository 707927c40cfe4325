//! The result as JSON: its field names are the keys.

use serde::Serialize;

use super::Report;
use crate::diag::is_hostile;

/// The report as indented JSON, ended by a line end. Numbers that are not finite become null.
pub(super) fn render(report: &Report) -> String {
    text(report)
}

/// Any plain data as indented JSON in which no character acts on a terminal.
pub(super) fn text(data: &impl Serialize) -> String {
    // Plain data with text keys, written to memory, has no way to fail.
    let json = serde_json::to_string_pretty(data).unwrap_or_default();
    if json.bytes().all(|b| b <= b'~') {
        return json + "\n";
    }
    let mut safe = String::with_capacity(json.len() + 1);
    for c in json.chars() {
        // Below U+0080 serde_json escapes what must be; what is left there is layout.
        if c > '~' && is_hostile(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                safe.push_str(&format!("\\u{unit:04x}"));
            }
        } else {
            safe.push(c);
        }
    }
    safe.push('\n');
    safe
}
