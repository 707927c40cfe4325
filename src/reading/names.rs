//! Names: of blocks, in lines, and of blocks that are not there.

use crate::diag::{Diagnostic, Span, nearest};
use crate::sheet::ast::{Block, Row, Text};
use crate::sheet::read::Arguments;

/// An error for a name that no block of `word` has, with the nearest that one has.
pub(crate) fn unknown_name<'a>(
    code: &'static str,
    word: &str,
    name: Text<'_>,
    known: impl Iterator<Item = (&'a str, Span)> + Clone,
) -> Diagnostic {
    let error = Diagnostic::error(code, name.span, format!("there is no `{word} \"{}\"`", name.text));
    let near = nearest(name.text, known.clone().map(|(name, _)| name));
    match near.and_then(|near| known.clone().find(|(name, _)| *name == near)) {
        Some((near, span)) => error.also(span, "this one?").help(format!("did you mean `\"{near}\"`?")),
        None => error.help(format!("add a block `{word} \"{}\" {{ … }}`", name.text)),
    }
}

/// The name of a line that is a word and a name.
pub(crate) fn name_line<'a>(line: &Row<'a>, errors: &mut Vec<Diagnostic>) -> Option<Text<'a>> {
    let mut arguments = Arguments::new(line, errors);
    let text = arguments.name(line.word.text);
    if text.is_some() {
        arguments.end();
    }
    text
}

/// The name of a block; an error and an empty name, or the word in its place, where it has none.
pub(crate) fn block_name<'a>(block: &Block<'a>, errors: &mut Vec<Diagnostic>) -> Text<'a> {
    let word = block.word.text;
    let error = match (block.name, block.tag) {
        _ if block.broken => None,
        (_, Some(tag)) => Some(
            Diagnostic::error("block-header", tag.span, format!("`{}` does not belong here", tag.text))
                .help(format!("a name stands in quotes: `{word} \"{}\" {{`", tag.text)),
        ),
        (Some(name), None) => name.text.trim().is_empty().then(|| {
            Diagnostic::error("missing-name", name.span, format!("this `{word}` has an empty name"))
                .help("put a name between the quotes")
        }),
        (None, None) => Some(
            Diagnostic::error("missing-name", block.span, format!("this `{word}` has no name"))
                .help(format!("write `{word} \"name\" {{`")),
        ),
    };
    errors.extend(error);
    block.name.or(block.tag).unwrap_or(Text { text: "", span: block.span })
}
