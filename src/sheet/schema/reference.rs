//! The word table of the documentation, made from the schema.

use std::fmt::Write as _;

use super::{BLOCKS, BlockSchema, Form, Named, Need, RowSchema, Shape, Slot, TOGETHER};
use crate::figures::{LENGTH, Range, limited};

/// Every word with its arguments, ranges and meaning, as Markdown tables.
pub fn word_table() -> String {
    let mut text = String::new();
    for block in BLOCKS {
        table(&mut text, block);
    }
    text.push_str("### Limits\n\n| limit | range | blocks | mask | meaning |\n|---|---|---|---|---|\n");
    for (figure, row) in limited() {
        let sign = row.sense.sign();
        let lines: Vec<&str> = row.lines.iter().map(|line| line.word()).collect();
        let mask = if row.mask { "yes" } else { "no" };
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "| `{} {sign}` {} | {} | {} | {mask} | {} |",
            row.word,
            symbol(figure.range),
            figure.range.range(),
            lines.join(", "),
            row.doc
        );
    }
    text
}

fn table(text: &mut String, block: &BlockSchema) {
    let title = match block.name {
        "sheet" => "Top level".to_owned(),
        name => format!("In a `{name}` block"),
    };
    let _ = write!(text, "### {title}\n\n| line | meaning | ranges |\n|---|---|---|\n");
    for row in block.lines {
        let _ = writeln!(text, "| {} | {} | {} |", usage(row), row.doc, ranges(row));
        if let Form::Arguments { named, .. } = row.form {
            for named in named {
                let range = shape_kind(named.shape).map_or(String::new(), |kind| kind.range());
                let _ = writeln!(
                    text,
                    "| &nbsp;&nbsp;`{}`{} | {} | {range} |",
                    named.word,
                    shape(named.shape, sign(named.varies)),
                    named.doc
                );
            }
        }
    }
    text.push('\n');
}

fn usage(row: &RowSchema) -> String {
    let word = row.word;
    match row.form {
        Form::Arguments { slots, named } => format!("`{word}`{}", arguments(slots, named)),
        Form::Name => format!("`{word}` \"name\""),
        Form::Range(kind) => format!("`{word}` {0} [`to` {0}]", symbol(kind)),
        Form::ValueAt(kind) => format!("`{word}` {} ± [`at` Hz] [`{TOGETHER}` \"name\"]", symbol(kind)),
        Form::Rating => format!("`{word}` F ± [`typical`] [F `max`] [`at` V] [`across`]"),
        Form::Limit => format!("`{word}` limit bound [`at` Hz, bound `at` Hz …]"),
        Form::Block => format!("`{word}` … {{ … }}"),
    }
}

fn arguments(slots: &[Slot], named: &[Named]) -> String {
    let mut text = String::new();
    let alternatives: Vec<String> = slots
        .iter()
        .filter(|slot| slot.need == Need::OneOf)
        .map(|slot| format!("{}{}", symbol(slot.kind), sign(slot.varies)))
        .chain(named.iter().filter(|n| matches!(n.shape, Shape::Alternative)).map(|n| format!("`{}`", n.word)))
        .collect();
    for slot in slots.iter().filter(|slot| slot.need == Need::Required) {
        let _ = write!(text, " {}{}", symbol(slot.kind), sign(slot.varies));
    }
    if !alternatives.is_empty() {
        let _ = write!(text, " {}", alternatives.join(" or "));
    }
    for slot in slots.iter().filter(|slot| slot.need == Need::Optional) {
        let _ = write!(text, " [{}{}]", symbol(slot.kind), sign(slot.varies));
    }
    text
}

fn ranges(row: &RowSchema) -> String {
    match row.form {
        Form::Arguments { slots, .. } => slots.iter().map(|slot| slot.kind.range()).collect::<Vec<_>>().join("; "),
        Form::Range(kind) | Form::ValueAt(kind) => kind.range(),
        _ => String::new(),
    }
}

/// What follows a word, each value that may state a tolerance with its sign.
fn shape(shape: Shape, sign: &str) -> String {
    let plain = match shape {
        Shape::Losses => return format!(" dB or dB/m{sign} `at` Hz [, …{sign} `at` Hz]"),
        Shape::Stub => return format!(" m{sign} [`outer` or `inner`]"),
        Shape::Resonator => return format!(" Hz{sign} ohm{sign}"),
        Shape::Neck => return format!(" ohm{sign} m{sign}"),
        Shape::Flag | Shape::Alternative => "",
        Shape::Value(kind) => match kind.dimension.symbol() {
            "F" => " F",
            "H" => " H",
            "ohm" => " ohm",
            "s" => " s",
            "m" => " m",
            "V" => " V",
            "A" => " A",
            "Hz" => " Hz",
            "dB" => " dB",
            "m2" => " m2",
            "%" => " %",
            _ => " number",
        },
        Shape::Name => " \"name\"",
        Shape::AtMost(_) => " `<=` A",
        Shape::Surge => " A, or V `through` ohm",
        Shape::ChipClamp => " V ohm",
        Shape::List(_, 1, _) => " Hz [Hz]",
        Shape::List(..) => " number number number",
    };
    format!("{plain}{sign}")
}

fn shape_kind(shape: Shape) -> Option<Range> {
    match shape {
        Shape::Value(kind) | Shape::AtMost(kind) | Shape::List(kind, ..) => Some(kind),
        Shape::Stub => Some(LENGTH),
        _ => None,
    }
}

/// What marks a value that may state a tolerance.
fn sign(varies: bool) -> &'static str {
    if varies { " ±" } else { "" }
}

fn symbol(kind: Range) -> &'static str {
    match kind.dimension.symbol() {
        "" => "number",
        symbol => symbol,
    }
}
