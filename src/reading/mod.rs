//! From the tree of a sheet to the port: names resolved, values in SI, every rule that takes more than one line.

mod antenna;
mod asks;
mod ends;
mod feed;
mod geometry;
mod laminate;
mod lane;
mod limits;
mod line;
mod part;
mod path;
mod protector;
mod slow;
mod strength;
mod table;
mod via;

use std::collections::HashMap;
use std::sync::Arc;

use rayon::prelude::*;

use self::limits::StatedLimit;
use crate::diag::{Diagnostic, Span, nearest};
use crate::model::{Design, Note, Part, ReflectionTable};
use crate::resolve::Laminate;
use crate::sheet::ast::{Block, Item, Line, Sheet, Text};
use crate::sheet::entries::Entries;
use crate::sheet::read::Arguments;
use crate::sheet::schema::TOP;
use crate::sheet::{Gathered, MAX_ERRORS, parse};

/// Reads the files of a sheet into a port.
///
/// # Errors
/// All errors of the sheet, in the order of their places, at most [`MAX_ERRORS`].
pub fn read(gathered: &Gathered) -> Result<Design, Vec<Diagnostic>> {
    let mut errors = gathered.errors.clone();
    if errors.iter().any(|error| error.code == "not-utf8") {
        return Err(errors);
    }
    let mut sheets = Vec::new();
    for (index, source) in gathered.sources.files.iter().enumerate() {
        let (sheet, found) = parse(index as u32, &source.text);
        sheets.push(sheet);
        errors.extend(found);
    }
    let (port, found) = lower(&sheets, &gathered.includes);
    errors.extend(found);
    if port.names().is_empty() && errors.is_empty() {
        errors.push(
            Diagnostic::error("empty-sheet", Span::default(), "this sheet has no line")
                .help("add a `lane \"name\" { … }`; `lanecap starter` prints a sheet to begin from"),
        );
    }
    if errors.is_empty() {
        return Ok(port);
    }
    errors.sort_by_key(|error| error.primary.0);
    errors.truncate(MAX_ERRORS);
    Err(errors)
}

/// What the lines of a sheet refer to.
struct Context<'s, 'a> {
    limits: HashMap<&'a str, LimitSet<'s, 'a>>,
    parts: HashMap<&'a str, Arc<Part>>,
    laminates: HashMap<&'a str, Laminate>,
    tables: HashMap<&'a str, Arc<ReflectionTable>>,
    /// Blocks (word and name) that are there but cannot be used: their errors are reported already.
    faulty: Vec<(&'static str, &'a str)>,
}

struct LimitSet<'s, 'a> {
    limits: Vec<StatedLimit>,
    block: &'s Block<'a>,
}

/// Remarks and errors of one line, gathered as it is read.
#[derive(Default)]
struct Findings {
    errors: Vec<Diagnostic>,
    defaults: Vec<Note>,
    warnings: Vec<Note>,
}

impl Findings {
    fn default_used(&mut self, code: &'static str, span: Span, text: impl Into<String>) {
        self.defaults.push(Note { code, text: text.into(), span: Some(span) });
    }

    fn warn(&mut self, code: &'static str, span: Span, text: impl Into<String>) {
        self.warnings.push(Note { code, text: text.into(), span: Some(span) });
    }
}

/// Turns parsed files into a port; `includes` tells which file stands for which include line.
fn lower(sheets: &[Sheet<'_>], includes: &[(Span, u32)]) -> (Design, Vec<Diagnostic>) {
    let mut errors = Vec::new();
    let mut port = Design::default();
    let mut flat = Vec::new();
    if let Some(root) = sheets.first() {
        flatten(root, sheets, includes, &mut flat, &mut errors);
        port.title = title(root, &mut errors);
    }
    let mut context = Context {
        limits: HashMap::new(),
        parts: HashMap::new(),
        laminates: HashMap::new(),
        tables: HashMap::new(),
        faulty: Vec::new(),
    };
    let mut lanes: Vec<(&Block<'_>, Text<'_>)> = Vec::new();
    let mut slow: Vec<(&Block<'_>, Text<'_>)> = Vec::new();
    let mut feeds: Vec<(&Block<'_>, Text<'_>)> = Vec::new();
    let mut names = HashMap::new();
    for block in &flat {
        let name = block_name(block, &mut errors);
        let space = match block.word.text {
            "lane" | "feed" | "bus" | "rail" => "line",
            other => other,
        };
        if let Some(earlier) = names.get(&(space, name.text)).filter(|_| !name.text.is_empty()) {
            errors.push(
                Diagnostic::error(
                    "duplicate-name",
                    name.span,
                    if space == "line" {
                        "there are two lines of this name".to_owned()
                    } else {
                        format!("there are two `{space}` of this name")
                    },
                )
                .also(*earlier, "the first one")
                .help("give one of them another name"),
            );
        } else {
            names.insert((space, name.text), name.span);
        }
        match block.word.text {
            "limits" => {
                let limits = limits::lower_set(block, &mut errors);
                context.limits.insert(name.text, LimitSet { limits, block });
            }
            "part" => match part::lower(block, name, &mut errors) {
                Some(part) => {
                    let part = Arc::new(part);
                    port.parts.push(Arc::clone(&part));
                    context.parts.insert(name.text, part);
                }
                None => context.faulty.push(("part", name.text)),
            },
            "laminate" => match laminate::lower(block, name, &mut errors) {
                Some(laminate) => {
                    context.laminates.insert(name.text, laminate);
                }
                None => context.faulty.push(("laminate", name.text)),
            },
            "bus" | "rail" => slow.push((block, name)),
            "table" => match table::lower(block, name, &mut errors) {
                Some(table) => {
                    context.tables.insert(name.text, Arc::new(table));
                }
                None => context.faulty.push(("table", name.text)),
            },
            "feed" => feeds.push((block, name)),
            _ => lanes.push((block, name)),
        }
    }
    let lowered: Vec<_> = lanes.par_iter().map(|(block, name)| lane::lower(block, *name, &context)).collect();
    for (lane, found) in lowered {
        port.lanes.extend(lane);
        errors.extend(found);
    }
    let lowered: Vec<_> = feeds.par_iter().map(|(block, name)| feed::lower(block, *name, &context)).collect();
    for (feed, found) in lowered {
        port.feeds.extend(feed);
        errors.extend(found);
    }
    for (block, name) in slow {
        let found = if block.word.text == "bus" {
            let (bus, found) = slow::bus(block, name, &context);
            port.buses.extend(bus);
            found
        } else {
            let (rail, found) = slow::rail(block, name, &context);
            port.rails.extend(rail);
            found
        };
        errors.extend(found);
    }
    (port, errors)
}

/// The blocks of a file, with those of the files it includes in the place of the include line.
fn flatten<'s, 'a>(
    root: &'s Sheet<'a>,
    sheets: &'s [Sheet<'a>],
    includes: &[(Span, u32)],
    blocks: &mut Vec<&'s Block<'a>>,
    errors: &mut Vec<Diagnostic>,
) {
    let mut stack = vec![Entries::of(&TOP, &root.items, errors).known.into_iter()];
    while let Some(entries) = stack.last_mut() {
        let Some(entry) = entries.next() else {
            stack.pop();
            continue;
        };
        match entry.item {
            Item::Block(block) => blocks.push(block),
            Item::Line(line) if line.word.text == "include" => {
                let mut arguments = Arguments::new(line, errors);
                let Some(path) = arguments.name("include") else {
                    continue;
                };
                arguments.end();
                let file = includes.iter().find(|(span, _)| *span == path.span).map(|(_, file)| *file);
                if let Some(sheet) = file.and_then(|file| sheets.get(file as usize)) {
                    stack.push(Entries::of(&TOP, &sheet.items, errors).known.into_iter());
                }
            }
            Item::Line(_) => {}
        }
    }
}

fn title(root: &Sheet<'_>, errors: &mut Vec<Diagnostic>) -> Option<String> {
    let line = root.items.iter().find_map(|item| match item {
        Item::Line(line) if line.word.text == "title" => Some(line),
        _ => None,
    })?;
    name_line(line, errors).map(|text| text.text.to_owned())
}

/// An error for a name that no block of `word` has, with the nearest that one has.
fn unknown_name<'a>(
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
fn name_line<'a>(line: &Line<'a>, errors: &mut Vec<Diagnostic>) -> Option<Text<'a>> {
    let mut arguments = Arguments::new(line, errors);
    let text = arguments.name(line.word.text);
    if text.is_some() {
        arguments.end();
    }
    text
}

/// The name of a block; an error and an empty name, or the word in its place, where it has none.
fn block_name<'a>(block: &Block<'a>, errors: &mut Vec<Diagnostic>) -> Text<'a> {
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
