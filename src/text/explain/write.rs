//! Rows, headings and remarks of a working.

use crate::diag::{inert, shorten};
use crate::figures::Figure;
use crate::model::AddressedValue;
use crate::result::{LineHead, Note, State};
use crate::units::decimal::working::{picofarad, real};
use crate::words::tolerances;

/// Adds a row to a working, as `writeln!` would; writing to a string cannot fail.
macro_rules! say {
    ($text:expr, $($row:tt)+) => {{
        use std::fmt::Write as _;
        let _ = writeln!($text, $($row)+);
    }};
}
pub(crate) use say;

/// Three digits, as of any estimate.
pub(crate) fn amount(value: impl std::fmt::Display) -> String {
    format!("{value:.3}")
}

/// A working that holds nothing but its title.
pub(crate) fn titled(name: &str) -> String {
    let mut text = String::new();
    heading(&mut text, &format!("{}: the working", inert(&shorten(name, 80))), '=');
    text
}

/// The row above the figures of one state.
pub(crate) fn state_row<F, C>(text: &mut String, state: &State<F, C>) {
    let with = state.capacitance.map_or(String::new(), |c| format!(", C = {}", picofarad(c.0)));
    say!(text, "  {}{with}:", state.protector.word());
}

/// What stands in a working beside what was found of its line.
pub(crate) struct Last<'a> {
    /// The values that have an address.
    pub(crate) values: &'a [AddressedValue],
    /// The working of a discharge; empty for none.
    pub(crate) discharge: &'a str,
    /// What the reader must keep in mind.
    pub(crate) cautions: &'a [&'a str],
}

/// What stands below every working.
pub(crate) fn finish(text: &mut String, head: &LineHead, last: &Last<'_>) {
    tolerance(text, head);
    if !last.discharge.is_empty() {
        text.push('\n');
        text.push_str(last.discharge);
    }
    let note = |note: &Note| {
        let place = note.line.map_or(String::new(), |line| format!("line {line}: "));
        format!("{place}{}", inert(&note.text))
    };
    list(text, "Defaults used", head.defaults.iter().map(note));
    list(text, "Warnings", head.warnings.iter().map(note));
    list(text, "Keep in mind", last.cautions.iter().map(|caution| format!("- {caution}")));
}

/// Between what the values vary, and what that leaves.
fn tolerance(text: &mut String, head: &LineHead) {
    let Some(tolerance) = &head.tolerance else { return };
    heading(text, "Tolerances", '-');
    say!(text, "  Values lie between their bounds, {}; a setting takes one of each.", tolerances::spread(tolerance));
    for row in tolerances::values(tolerance) {
        let [address, stated, low, high, worst] = row.as_slice() else { continue };
        let worst = if worst == "-" { String::new() } else { format!("; at the worst {worst}") };
        say!(text, "    {}: {stated}, {low} to {high}{worst}", inert(address));
    }
    let worst = &tolerance.worst;
    if worst.setting.is_some() {
        let which = worst.capacitance.map_or("at which nothing is allowed".to_owned(), |c| {
            format!("whose own allowed set ends at {}", picofarad(c.0))
        });
        say!(text, "  At the worst: a setting {which}.");
    }
    say!(text, "  Allowed at all of {} settings: {}.", tolerance.settings, either(&worst.allowed.ends(), "nothing"));
    for limit in &worst.limits {
        say!(text, "    {} by itself: {}", limit.figure.word(), either(&limit.allowed.ends(), "nothing"));
    }
    for limit in worst.fitted.iter().flat_map(|fitted| &fitted.limits) {
        let margin = limit.margin.map_or("-".to_owned(), |margin| level_text(limit.figure, margin));
        let word = if limit.holds { "holds" } else { "breaks" };
        say!(text, "    {}, worst margin of the fitted value: {margin}: {word}", limit.figure.word());
    }
    let yielded = &tolerance.yielded;
    if let (Some(held), Some((low, high))) = (yielded.held, yielded.interval()) {
        let (n, seed) = (yielded.samples, yielded.seed);
        say!(
            text,
            "  Held: {held} of {n} settings drawn with seed {seed}; 95 % interval {} to {}.",
            real(low),
            real(high)
        );
    }
    if let Some(budget) = yielded.budget {
        say!(text, "  99.7 % of {} settings allow every C up to {}.", yielded.samples, picofarad(budget.0));
    }
}

/// One of the ranges of capacitance, or `none` of them.
pub(crate) fn either(ranges: &[(f64, Option<f64>)], none: &str) -> String {
    let range = |&(low, high): &(f64, Option<f64>)| {
        let high = high.map_or("and more".to_owned(), |high| format!("to {}", picofarad(high)));
        format!("{} {high}", picofarad(low))
    };
    let all: Vec<String> = ranges.iter().map(range).collect();
    if all.is_empty() { none.to_owned() } else { all.join(" or ") }
}

/// A number in the unit of a figure.
pub(crate) fn level_text(figure: &Figure, level: f64) -> String {
    match figure.unit() {
        "" => format!("{} %", real(level * 100.0)),
        "1" => real(level),
        "Hz" => format!("{} MHz", real(level * 1e-6)),
        unit => format!("{} {unit}", real(level)),
    }
}

/// Rows below a title; nothing where there are none.
pub(crate) fn list(text: &mut String, title: &str, rows: impl ExactSizeIterator<Item = String>) {
    if rows.len() > 0 {
        heading(text, title, '-');
    }
    for row in rows {
        say!(text, "  {row}");
    }
}

pub(crate) fn heading(text: &mut String, title: &str, rule: char) {
    if !text.is_empty() {
        text.push('\n');
    }
    say!(text, "{title}\n{}", rule.to_string().repeat(title.chars().count()));
}
