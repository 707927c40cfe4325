//! The working of one lane, so that every number can be checked by hand.

mod circuit;
mod decision;
mod feed;
mod numbers;
mod slow;
mod time;

pub use slow::{explain_bus, explain_rail};

use std::fmt::Write as _;

use super::{LaneReport, Note};
use crate::budget::LaneOutcome;
use crate::diag::{inert, shorten};
use crate::model::Lane;
use crate::network::Chain;
pub(super) use feed::explain_feed;
use numbers::{real, si};

/// The working as text: symbols, half circuit, elements, chain, Möbius coefficients, limits, budget, figures.
///
/// `report` is what [`super::size`] made of the same lane and outcome.
pub fn explain(lane: &Lane, outcome: &LaneOutcome, report: &LaneReport, cautions: &[&str]) -> String {
    let chain = Chain::new(lane);
    let mut text = String::new();
    heading(&mut text, &format!("{}: the working", inert(&shorten(&lane.name, 80))), '=');
    symbols(&mut text, lane);
    circuit::half_circuit(&mut text, lane, &chain);
    let frame =
        circuit::Frame { across: lane.across_factor(), reference: lane.half_reference(), frequency: lane.nyquist() };
    circuit::elements(&mut text, &lane.path, &frame, "3  Elements at f_N, from the outer end in");
    circuit::chain(&mut text, lane, &chain);
    decision::limits(&mut text, lane, outcome, &chain);
    decision::budget(&mut text, &report.budget);
    decision::figures(&mut text, lane, &chain, report);
    time::working(&mut text, lane, &chain, report);
    slow::checks(&mut text, report.fitted.as_ref().map_or(&[], |f| &f.checks));
    finish(&mut text, &report.defaults, &report.warnings, cautions);
    text
}

/// What stands below every working.
fn finish(text: &mut String, defaults: &[Note], warnings: &[Note], cautions: &[&str]) {
    notes(text, "Defaults used", defaults);
    notes(text, "Warnings", warnings);
    if cautions.is_empty() {
        return;
    }
    heading(text, "Keep in mind", '-');
    for caution in cautions {
        line(text, &format!("  - {caution}"));
    }
}

fn symbols(text: &mut String, lane: &Lane) {
    heading(text, "1  Symbols", '-');
    line(
        text,
        &format!(
            "  f_s = {}, {}, M = {} levels",
            si(lane.symbol_rate.0, "Bd"),
            lane.modulation.word(),
            lane.modulation.levels()
        ),
    );
    line(text, &format!("  Nyquist frequency f_N = f_s/2 = {}", si(lane.nyquist().0, "Hz")));
    let omega = std::f64::consts::TAU * lane.nyquist().0;
    line(text, &format!("  omega = 2 pi f_N = {} rad/s", real(omega)));
}

fn notes(text: &mut String, title: &str, notes: &[Note]) {
    if notes.is_empty() {
        return;
    }
    heading(text, title, '-');
    for note in notes {
        let place = note.line.map_or(String::new(), |line| format!("line {line}: "));
        line(text, &format!("  {place}{}", inert(&note.text)));
    }
}

fn heading(text: &mut String, title: &str, rule: char) {
    if !text.is_empty() {
        text.push('\n');
    }
    line(text, title);
    line(text, &rule.to_string().repeat(title.chars().count()));
}

fn line(text: &mut String, line: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(text, "{line}");
}
