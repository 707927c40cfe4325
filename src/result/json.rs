//! The result as JSON: its field names are the keys.

use serde::Serialize;

use super::report::Report;
use crate::diag::is_hostile;

/// The report as indented JSON, ended by a line end. Numbers that are not finite become null.
pub(crate) fn render(report: &Report) -> String {
    sized(report, BYTES_PER_LINE * (report.lanes.len() + report.feeds.len()))
}

/// What a line takes in the text, roughly: room that need not be found again and again.
const BYTES_PER_LINE: usize = 4400;

/// Any plain data as indented JSON in which no character acts on a terminal.
pub(crate) fn text(data: &impl Serialize) -> String {
    sized(data, 0)
}

fn sized(data: &impl Serialize, bytes: usize) -> String {
    let mut json = Vec::with_capacity(bytes);
    // Plain data with text keys, written to memory, has no way to fail, and what is written is UTF-8.
    let _ = serde_json::to_writer_pretty(&mut json, data);
    let json = String::from_utf8(json).unwrap_or_default();
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
