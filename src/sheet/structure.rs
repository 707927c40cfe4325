//! Lines and blocks out of tokens, and recovery: one mistake gives one error, and reading goes on.

use super::ast::{Argument, ArgumentKind, Block, Item, Row, Sheet, Word};
use super::grammar;
use crate::diag::{Diagnostic, Span};

/// How deep blocks may nest.
const MAX_DEPTH: usize = 8;

/// Reads one file from its start to its end.
pub(super) fn parse_whole(file: u32, text: &str) -> (Sheet<'_>, Vec<Diagnostic>) {
    let (items, errors) = Reader::new(file, text, 0).read();
    (Sheet { items }, errors)
}

pub(super) struct Reader<'a> {
    pub(super) file: u32,
    /// First byte of the text in the file.
    start: usize,
    /// One past its last byte.
    end: usize,
    pub(super) rest: &'a str,
    errors: Vec<Diagnostic>,
    /// The blocks that are not closed yet, from the outside in.
    pub(super) open: Vec<Block<'a>>,
    /// Blocks nested too deep that are being passed over.
    pub(super) skip: usize,
}

impl<'a> Reader<'a> {
    /// A reader of the part of a file that begins at the byte `start`.
    pub(super) fn new(file: u32, text: &'a str, start: usize) -> Self {
        Reader { file, start, end: start + text.len(), rest: text, errors: Vec::new(), open: Vec::new(), skip: 0 }
    }

    /// The items of the text, and the errors of the rest in the order of their places.
    pub(super) fn read(mut self) -> (Vec<Item<'a>>, Vec<Diagnostic>) {
        self.control_characters(self.rest);
        if self.start == 0 {
            self.rest = self.rest.strip_prefix('\u{feff}').unwrap_or(self.rest);
        }
        let items = self.items();
        self.errors.sort_by_key(|e| e.primary.0);
        (items, self.errors)
    }

    pub(super) fn offset(&self) -> u32 {
        (self.end - self.rest.len()) as u32
    }

    pub(super) fn span_from(&self, start: u32) -> Span {
        Span { file: self.file, start, end: self.offset() }
    }

    pub(super) fn error(&mut self, diagnostic: Diagnostic) {
        self.errors.push(diagnostic);
    }

    /// Takes what `production` reads, or nothing.
    pub(super) fn take<T>(&mut self, production: impl Fn(&'a str) -> nom::IResult<&'a str, T>) -> Option<T> {
        let (rest, value) = production(self.rest).ok()?;
        self.rest = rest;
        Some(value)
    }

    pub(super) fn skip_blank(&mut self) {
        self.take(grammar::blank);
    }

    fn control_characters(&mut self, text: &str) {
        // Those beyond ASCII are U+0080 to U+009F, whose first byte is C2.
        let harmless = |byte: u8| byte >= b' ' && byte != 0x7f && byte != 0xc2 || byte == b'\n' || byte == b'\t';
        if text.bytes().all(harmless) {
            return;
        }
        for (at, c) in text.char_indices() {
            let line_end = c == '\n' || (c == '\r' && text.as_bytes().get(at + 1) == Some(&b'\n'));
            if !c.is_control() || c == '\t' || line_end {
                continue;
            }
            let at = self.start + at;
            let span = Span { file: self.file, start: at as u32, end: (at + c.len_utf8()) as u32 };
            let message = format!("control character U+{:04X} is not allowed in a sheet", c as u32);
            self.error(Diagnostic::error("control-character", span, message).help("delete it"));
            if self.errors.len() > super::MAX_ERRORS {
                return;
            }
        }
    }

    /// All items of the file; open blocks are kept on `self.open`.
    fn items(&mut self) -> Vec<Item<'a>> {
        let mut top = Vec::new();
        loop {
            self.skip_blank();
            let Some(next) = self.rest.chars().next().filter(|_| self.errors.len() <= super::MAX_ERRORS) else { break };
            match next {
                '\n' | ';' => self.rest = &self.rest[1..],
                '#' => {
                    self.take(grammar::comment);
                }
                '}' => self.close(&mut top),
                '{' => self.stray_brace(&mut top),
                _ => self.statement(&mut top),
            }
        }
        while let Some(block) = self.open.last() {
            let name = block.word.text;
            let error = Diagnostic::error("unclosed-block", block.span, format!("this `{name}` block is never closed"))
                .help("add a `}` where it ends");
            self.error(error);
            self.finish_block(&mut top);
        }
        top
    }

    fn push(&mut self, top: &mut Vec<Item<'a>>, item: Item<'a>) {
        if self.skip > 0 {
            return;
        }
        match self.open.last_mut() {
            Some(block) => block.items.push(item),
            None => top.push(item),
        }
    }

    pub(super) fn finish_block(&mut self, top: &mut Vec<Item<'a>>) {
        if let Some(block) = self.open.pop() {
            self.push(top, Item::Block(block));
        }
    }

    fn close(&mut self, top: &mut Vec<Item<'a>>) {
        let start = self.offset();
        self.rest = &self.rest[1..];
        if self.skip > 0 {
            self.skip -= 1;
        } else if self.open.is_empty() {
            let error = Diagnostic::error("unopened-block", self.span_from(start), "this `}` closes nothing")
                .help("delete it, or add the block's opening line above");
            self.error(error);
        } else {
            self.finish_block(top);
        }
    }

    pub(super) fn open_block(&mut self, block: Block<'a>) {
        if self.skip > 0 {
            self.skip += 1;
        } else if self.open.len() >= MAX_DEPTH {
            let error = Diagnostic::error("too-deep", block.span, format!("blocks nest more than {MAX_DEPTH} deep"));
            self.error(error);
            self.open.iter_mut().for_each(|block| block.broken = true);
            self.skip = 1;
        } else {
            self.open.push(block);
        }
    }

    /// A line, or a block's header with its `{`.
    fn statement(&mut self, top: &mut Vec<Item<'a>>) {
        let start = self.offset();
        let Some(text) = self.take(grammar::word) else {
            self.not_a_word(start);
            self.pass_over();
            if self.rest.starts_with('{') {
                self.rest = &self.rest[1..];
                self.open_block(Block::nameless(self.span_from(start)));
            } else {
                let word = Word { text: "", span: self.span_from(start) };
                self.push(top, Item::Row(Row { word, arguments: Vec::new(), span: word.span, broken: true }));
            }
            return;
        };
        let word = Word { text, span: self.span_from(start) };
        let mut line = Row { word, arguments: Vec::new(), span: word.span, broken: false };
        loop {
            self.skip_blank();
            match self.rest.chars().next() {
                None | Some('\n' | ';' | '}' | '#') => break,
                Some('{') => {
                    self.rest = &self.rest[1..];
                    let mut block = self.header(line);
                    block.span = self.span_from(start);
                    self.top_level_inside(&block, top);
                    self.open_block(block);
                    return;
                }
                Some(_) => match self.argument() {
                    Some(argument) => {
                        line.span.end = argument.span.end;
                        line.arguments.push(argument);
                    }
                    None => {
                        line.broken = true;
                        self.pass_over();
                    }
                },
            }
        }
        self.push(top, Item::Row(line));
    }

    fn not_a_word(&mut self, start: u32) {
        let c = self.rest.chars().next().unwrap_or(' ');
        let span = Span { file: self.file, start, end: start + c.len_utf8() as u32 };
        self.error(
            Diagnostic::error("expected-word", span, format!("expected a word, but found {}", shown(c)))
                .help("a line begins with a word in lower-case letters; there is no line continuation"),
        );
    }

    /// Passes over the rest of a line that cannot be read, up to where the next one or a block may begin.
    fn pass_over(&mut self) {
        loop {
            match self.rest.chars().next() {
                None | Some('\n' | ';' | '{' | '}' | '#') => return,
                Some('"') if self.take(grammar::string).is_some() => {}
                Some(c) => self.rest = &self.rest[c.len_utf8()..],
            }
        }
    }

    fn argument(&mut self) -> Option<Argument<'a>> {
        let start = self.offset();
        let c = self.rest.chars().next()?;
        let kind = if c == '"' {
            self.string(start)?
        } else if c.is_ascii_digit() || ((c == '+' || c == '-') && self.take_ahead_digit()) {
            ArgumentKind::Quantity(self.quantity(start)?)
        } else if let Some(text) = self.take(grammar::word) {
            ArgumentKind::Word(text)
        } else if let Some(sign) = self.take(grammar::sign) {
            match sign {
                "<=" => ArgumentKind::AtMost,
                ">=" => ArgumentKind::AtLeast,
                _ => ArgumentKind::Comma,
            }
        } else {
            self.unexpected(c, start);
            return None;
        };
        Some(Argument { kind, span: self.span_from(start) })
    }

    fn take_ahead_digit(&self) -> bool {
        self.rest.as_bytes().get(1).is_some_and(u8::is_ascii_digit)
    }

    fn string(&mut self, start: u32) -> Option<ArgumentKind<'a>> {
        if let Some(text) = self.take(grammar::string) {
            return Some(ArgumentKind::Text(text));
        }
        let end = self.rest.find('\n').unwrap_or(self.rest.len());
        let line_end = self.rest[..end].trim_end_matches('\r').len();
        self.rest = &self.rest[line_end..];
        let span = self.span_from(start);
        self.error(
            Diagnostic::error("unclosed-string", span, "this text has no closing quote")
                .help("close it with `\"` on the same line; a text holds no quote and no line end"),
        );
        None
    }

    pub(super) fn unexpected(&mut self, c: char, start: u32) {
        let span = Span { file: self.file, start, end: start + c.len_utf8() as u32 };
        let help = match c {
            '+' if self.rest.starts_with("+/-") => "a tolerance is written `±` or `+-`",
            '.' => "write a digit before the point: `0.5`",
            '<' => "a limit compares with `<=`",
            '>' => "a limit compares with `>=`",
            '=' => "a value follows its word without a sign; a limit compares with `<=` or `>=`",
            '\u{b1}' | '+' | '-' => "a sign belongs to the number that follows it: `-0.5 V`, `0.3 pF ± 10 %`",
            _ => "names stand in quotes, comments begin with `#`",
        };
        self.error(
            Diagnostic::error("unexpected-character", span, format!("unexpected {}", bare(&shown(c)))).help(help),
        );
    }
}

/// What is unexpected, without its article.
pub(super) fn bare(what: &str) -> &str {
    ["a ", "an ", "the "].iter().find_map(|article| what.strip_prefix(article)).unwrap_or(what)
}

/// A character as a message shows it.
pub(super) fn shown(c: char) -> String {
    match c {
        '\n' | '\r' => "the end of the line".to_owned(),
        c if c.is_ascii_graphic() || c.is_alphanumeric() => format!("`{c}`"),
        c => format!("the character U+{:04X}", c as u32),
    }
}
