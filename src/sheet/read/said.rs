//! What messages call an argument, a kind and a value.

use crate::diag::Diagnostic;
use crate::figures::Range;
use crate::sheet::ast::{Argument, ArgumentKind, Quantity};
use crate::units::Dimension;

/// A quantity of a kind that `what` does not take.
pub(super) fn wrong_unit(quantity: &Quantity, dimension: Dimension, kinds: &[Range], what: &str) -> Diagnostic {
    if dimension == Dimension::Number {
        let examples: Vec<String> = kinds.iter().map(|k| format!("`{}`", k.dimension.example())).collect();
        return Diagnostic::error(
            "missing-unit",
            quantity.span,
            format!("this number needs a unit: `{what}` takes {}", wanted(kinds)),
        )
        .help(format!("add the unit, e.g. {}", examples.join(" or ")));
    }
    let message = format!("expected {} for `{what}`, but found {}", wanted(kinds), with_article(dimension));
    let error = Diagnostic::error("wrong-unit", quantity.span, message);
    if kinds.iter().all(|k| k.dimension == Dimension::Number) {
        error.help("delete the unit")
    } else {
        error.help(format!("write it as {}", example(kinds)))
    }
}

/// What an argument is, for a message.
pub fn found(argument: &Argument<'_>) -> String {
    match &argument.kind {
        ArgumentKind::Quantity(quantity) => match quantity.dimension {
            Some(dimension) if dimension != Dimension::Number => with_article(dimension),
            _ => "a number".to_owned(),
        },
        ArgumentKind::Word(word) => format!("the word `{word}`"),
        ArgumentKind::Text(_) => "a text in quotes".to_owned(),
        ArgumentKind::AtMost => "`<=`".to_owned(),
        ArgumentKind::AtLeast => "`>=`".to_owned(),
        ArgumentKind::Comma => "`,`".to_owned(),
    }
}

pub(super) fn with_article(dimension: Dimension) -> String {
    let name = dimension.to_string();
    let article = if name.starts_with(['a', 'i', 'o']) { "an" } else { "a" };
    format!("{article} {name}")
}

/// The kinds a place takes, for a message.
pub fn wanted(kinds: &[Range]) -> String {
    let names: Vec<String> = kinds.iter().map(|k| with_article(k.dimension)).collect();
    names.join(" or ")
}

/// Something else in the place of a value.
pub(super) fn misplaced(argument: &Argument<'_>, kinds: &[Range], what: &str) -> Diagnostic {
    let message = format!("expected {} after `{what}`, but found {}", wanted(kinds), found(argument));
    Diagnostic::error("missing-argument", argument.span, message)
}

/// Values of these kinds, for a message.
pub(super) fn example(kinds: &[Range]) -> String {
    let examples: Vec<String> = kinds.iter().map(|kind| format!("`{}`", sample(*kind))).collect();
    examples.join(" or ")
}

/// A value as it is written.
pub(super) fn sample(kind: Range) -> String {
    match kind.dimension {
        Dimension::Number => "2".to_owned(),
        Dimension::Resistance => "50 ohm".to_owned(),
        dimension => format!("1 {}", dimension.example()),
    }
}
