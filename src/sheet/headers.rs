//! The first lines of blocks, and braces without one.

use super::ast::{ArgumentKind, Block, Item, Row, Text, Word};
use super::schema;
use super::structure::Reader;
use crate::diag::Diagnostic;

/// The cure of a brace that no line stands before.
const BEGIN_WITH_A_WORD: &str = "a block begins with its word: write it before the brace, or delete the braces";

impl<'a> Reader<'a> {
    /// A `{` at the start of a line: its block's line stands above, or it has none.
    pub(super) fn stray_brace(&mut self, top: &mut Vec<Item<'a>>) {
        let start = self.offset();
        self.rest = &self.rest[1..];
        let span = self.span_from(start);
        let stray = Diagnostic::error("brace-placement", span, "this `{` stands alone");
        if self.skip > 0 {
            self.error(stray.help(BEGIN_WITH_A_WORD));
            self.skip += 1;
            return;
        }
        let within = self.open.last().map_or("", |block| block.word.text);
        let items = self.open.last_mut().map_or(top, |block| &mut block.items);
        let header = match items.last() {
            Some(Item::Row(line)) if schema::may_head_block(line.word.text, within) => items.pop(),
            _ => None,
        };
        self.error(stray.help(match header {
            Some(_) => "put it at the end of its block's first line",
            None => BEGIN_WITH_A_WORD,
        }));
        let mut block = match header {
            Some(Item::Row(line)) => self.header(line),
            _ => Block::nameless(span),
        };
        block.span = block.span.to(span);
        self.open_block(block);
    }

    /// A block that belongs to the top level inside an open one: that one was never closed.
    pub(super) fn top_level_inside(&mut self, block: &Block<'a>, top: &mut Vec<Item<'a>>) {
        if self.open.is_empty() || self.skip > 0 || !schema::is_top_block(block.word.text) {
            return;
        }
        if let Some(innermost) = self.open.last() {
            let error = Diagnostic::error(
                "unclosed-block",
                innermost.span,
                format!("this `{}` block is not closed before the next one begins", innermost.word.text),
            )
            .also(block.span, "begins inside it")
            .help("add a `}` where it ends");
            self.error(error);
        }
        while !self.open.is_empty() {
            self.finish_block(top);
        }
    }

    /// Turns a line that ends with `{` into a block's header.
    pub(super) fn header(&mut self, line: Row<'a>) -> Block<'a> {
        let mut block =
            Block { word: line.word, name: None, tag: None, items: Vec::new(), span: line.span, broken: line.broken };
        for argument in line.arguments {
            match argument.kind {
                ArgumentKind::Text(text) if block.name.is_none() && block.tag.is_none() => {
                    block.name = Some(Text { text, span: argument.span });
                }
                ArgumentKind::Word(text) if block.tag.is_none() => {
                    block.tag = Some(Word { text, span: argument.span });
                }
                _ if block.broken => {}
                _ => {
                    let message = format!("this does not belong in the first line of a `{}` block", line.word.text);
                    self.error(
                        Diagnostic::error("block-header", argument.span, message)
                            .help("a block begins with its word, a name in quotes where it has one, and `{`"),
                    );
                    block.broken = true;
                }
            }
        }
        block
    }
}
