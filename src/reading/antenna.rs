//! The antenna of a feed.

use std::sync::Arc;

use super::{Findings, Surroundings, unknown_name};
use crate::diag::{Diagnostic, Span};
use crate::model::{Antenna, Resonator};
use crate::sheet::ast::Text;
use crate::sheet::values::Values;
use crate::units::{Hertz, Ohm};

const FORMS: &str =
    "write `antenna parallel 1575.42 MHz 50 ohm q 12`, `antenna series …`, `antenna 50 ohm` or `antenna table \"…\"`";

/// The antenna: exactly one of a resistance, a resonator and a table; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<Antenna> {
    let words = ["series", "parallel", "table"].map(|word| values.word(word).map(|w| w.span));
    let mut kinds = values.number("impedance").map(|v| v.span).into_iter().chain(words.into_iter().flatten());
    match (kinds.next(), kinds.next()) {
        (None, _) => {
            findings
                .errors
                .push(Diagnostic::error("missing-argument", span, "`antenna` does not say which antenna").help(FORMS));
            return None;
        }
        (Some(first), Some(second)) => {
            findings.errors.push(
                Diagnostic::error("two-alternatives", second, "`antenna` takes only one of these")
                    .also(first, "the other one")
                    .help(FORMS),
            );
            return None;
        }
        _ => {}
    }
    let quality = values.number("q");
    let resonator = values.number("frequency").zip(values.number("resistance"));
    match (resonator, quality) {
        (Some((frequency, resistance)), Some(quality)) => {
            let resonator =
                Resonator { frequency: Hertz(frequency.si), resistance: Ohm(resistance.si), quality: quality.si };
            return Some(if values.word("series").is_some() {
                Antenna::Series(resonator)
            } else {
                Antenna::Parallel(resonator)
            });
        }
        (Some(_), None) => {
            findings
                .errors
                .push(Diagnostic::error("missing-argument", span, "a resonator needs its `q`").help("add e.g. `q 12`"));
            return None;
        }
        (None, Some(quality)) => {
            findings
                .errors
                .push(Diagnostic::error("extra-argument", quality.span, "only a resonator has a `q`").help(FORMS));
            return None;
        }
        (None, None) => {}
    }
    if let Some(name) = values.text("table") {
        return table(name, surroundings, findings);
    }
    Some(Antenna::Resistance(Ohm(values.number("impedance")?.si)))
}

fn table(name: Text<'_>, surroundings: &Surroundings<'_, '_, '_>, findings: &mut Findings) -> Option<Antenna> {
    let context = surroundings.context;
    if let Some(table) = context.tables.get(name.text) {
        return Some(Antenna::Table(Arc::clone(table)));
    }
    if !context.is_excused("table", name.text) {
        let places = context.tables.iter().map(|(name, table)| (*name, table.span));
        findings.errors.push(unknown_name("unknown-table", "table", name, places));
    }
    None
}
