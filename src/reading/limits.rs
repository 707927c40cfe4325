//! Limits and limit sets.

use super::stated_limit::StatedLimit;
use super::{Context, Findings, name_line, unknown_name, unseen};
use crate::diag::{Diagnostic, Span};
use crate::figures::{
    self, EDGE_LEVEL, FREQUENCY, Figure, IMPEDANCE, LimitWord, LineKind, Sense, TIME, limited, limited_word, limits_of,
};
use crate::model::{Limit, Mask, MaskPoint, Over, ProfileRead};
use crate::sheet::ast::{ArgumentKind, Block, Item, Row, Word};
use crate::sheet::entries::Entries;
use crate::sheet::meant;
use crate::sheet::read::{Arguments, found};
use crate::units::{Dimension, Hertz, Ohm, Second};

/// The limits of a `limits "name" { … }` block.
pub(crate) fn lower_set(block: &Block<'_>, errors: &mut Vec<Diagnostic>) -> Vec<StatedLimit> {
    let mut limits: Vec<StatedLimit> = Vec::new();
    for item in &block.items {
        let line = match item {
            // Reported already.
            item if item.word().text.is_empty() => continue,
            Item::Row(line) => line,
            Item::Block(inner) => {
                errors.push(
                    Diagnostic::error("expected-line", inner.span, "a set of limits holds lines, no blocks")
                        .help("write each limit as `return_loss >= 10 dB`"),
                );
                continue;
            }
        };
        let mut arguments = Arguments::new(line, errors);
        if let Some(limit) = lower_limit(line.word, line.span, &mut arguments) {
            push_once(&mut limits, limit, errors);
        }
    }
    if limits.is_empty() && block.items.is_empty() {
        errors.push(
            Diagnostic::error("missing-line", block.span, "this set of limits is empty")
                .help("add a limit, e.g. `return_loss >= 10 dB`"),
        );
    }
    limits
}

fn push_once(limits: &mut Vec<StatedLimit>, limit: StatedLimit, errors: &mut Vec<Diagnostic>) {
    match limits.iter().find(|l| l.figure == limit.figure) {
        Some(earlier) => {
            let message = format!("`{}` is limited twice in this block", limit.figure.word());
            let error = Diagnostic::error("duplicate-limit", limit.span, message).help(
                "delete one of them; a mask takes several points: `return_loss >= 12 dB at 1 GHz, 8 dB at 3 GHz`",
            );
            errors.push(error.also(earlier.span, "limited here first"));
        }
        None => limits.push(limit),
    }
}

/// The limits of a line: the set it takes and its own, in the order of the sheet, as `of_line` makes them of its kind.
///
/// `None` where it states none.
pub(crate) fn lower_own<B>(
    entries: &Entries<'_, '_>,
    line: LineKind,
    of_line: impl Fn(StatedLimit) -> Option<Limit<B>>,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<Vec<Limit<B>>> {
    let errors = &mut findings.errors;
    let mut own = Vec::new();
    for row in entries.lines("limit") {
        let mut arguments = Arguments::new(row, errors);
        let Some(argument) = arguments.take() else {
            if !row.broken {
                errors.push(
                    Diagnostic::error("missing-argument", row.span, "expected the name of a limit after `limit`")
                        .help("e.g. `limit return_loss >= 10 dB`"),
                );
            }
            continue;
        };
        let ArgumentKind::Word(text) = argument.kind else {
            let message = format!("expected the name of a limit after `limit`, but found {}", found(argument));
            arguments.errors.push(
                Diagnostic::error("missing-argument", argument.span, message).help("e.g. `limit return_loss >= 10 dB`"),
            );
            continue;
        };
        let span = argument.span;
        if let Some(limit) = lower_limit(Word { text, span }, row.span, &mut arguments) {
            if !belongs(limit.figure, line) {
                errors.push(foreign(limit.figure, span, line));
            }
            push_once(&mut own, limit, errors);
        }
    }
    let taken = entries.line("limits").and_then(|row| take_set(row, line, context, errors));
    if taken.is_none() && own.is_empty() {
        return None;
    }
    let mut all: Vec<StatedLimit> = taken.unwrap_or_default();
    // One bound is at Nyquist of a lane, and over the whole band of a feed.
    unseen::replaced(&all, &own, (line == LineKind::Lane).then_some("at Nyquist alone"), findings);
    all.retain(|limit| !own.iter().any(|o| o.figure == limit.figure));
    let set_at = entries.line("limits").map_or(0, |line| line.span.start);
    // In the order of the sheet: a set stands where the lane takes it.
    let before = own.iter().take_while(|limit| limit.span.start < set_at).count();
    let after = own.split_off(before);
    Some(own.into_iter().chain(all).chain(after).filter_map(of_line).collect())
}

fn belongs(figure: &Figure, line: LineKind) -> bool {
    figure.limit.as_ref().is_none_or(|limit| limit.lines.contains(&line))
}

/// A limit in a block of another kind of line.
fn foreign(figure: &Figure, span: Span, line: LineKind) -> Diagnostic {
    let lines = figure.limit.as_ref().map_or(&[][..], |limit| limit.lines);
    let of: Vec<&str> = lines.iter().map(|line| line.word()).collect();
    let own: Vec<&str> = limits_of(line).collect();
    let (of, line) = (of.join(" and a "), line.word());
    let message = format!("`{}` is a limit of a {of}, not of a {line}", figure.word());
    Diagnostic::error("misplaced-limit", span, message).help(format!("a {line} has the limits {}", own.join(", ")))
}

fn take_set(
    row: &Row<'_>,
    line: LineKind,
    context: &Context<'_, '_>,
    errors: &mut Vec<Diagnostic>,
) -> Option<Vec<StatedLimit>> {
    let name = name_line(row, errors)?;
    if let Some(set) = context.limits.get(name.text) {
        for limit in set.limits.iter().filter(|limit| !belongs(limit.figure, line)) {
            let error = foreign(limit.figure, name.span, line);
            errors.push(error.also(limit.span, "in this set"));
        }
        return Some(set.limits.clone());
    }
    if context.is_excused("limits", name.text) {
        return None;
    }
    let places = context.limits.iter().map(|(name, set)| (*name, set.block.span));
    errors.push(unknown_name("unknown-limits", "limits", name, places));
    None
}

fn lower_limit(word: Word<'_>, span: Span, arguments: &mut Arguments<'_, '_>) -> Option<StatedLimit> {
    let Some((figure, row)) = limited_word(word.text) else {
        let error = Diagnostic::error("unknown-limit", word.span, format!("unknown limit `{}`", word.text));
        let words = || limited().map(|(_, limit)| limit.word);
        arguments.errors.push(error.help(match meant(word.text, words()) {
            Some((_, help)) => help,
            None => format!("the limits are {}", words().collect::<Vec<_>>().join(", ")),
        }));
        return None;
    };
    comparison(row, arguments)?;
    let over = over(figure, row, arguments)?;
    let levels = if figure == &figures::BUS_RISE { levels(arguments)? } else { None };
    let excursion = figure == &figures::IMPEDANCE_EXCURSION;
    let below = if excursion { Some(below(arguments)?) } else { None };
    let on_profile = excursion || figure == &figures::IMPEDANCE_DIP;
    let rise = if on_profile { time(arguments, "rise")? } else { None };
    let until = if on_profile && !excursion { time(arguments, "until")? } else { None };
    arguments.end();
    Some(StatedLimit { figure, over, levels, below, read: ProfileRead { rise, until }, span })
}

/// `below 76 ohm`; `None` after an error.
fn below(arguments: &mut Arguments<'_, '_>) -> Option<Ohm> {
    if arguments.take_word("below").is_none() {
        let here = arguments.here();
        arguments.errors.push(
            Diagnostic::error("missing-condition", here, "expected `below` and an impedance")
                .help("e.g. `impedance_excursion <= 250 ps below 76 ohm rise 200 ps`"),
        );
        return None;
    }
    arguments.quantity(&[IMPEDANCE], "below").map(|(value, _)| Ohm(value.si))
}

/// A word with a time, or nothing; `None` after an error.
fn time(arguments: &mut Arguments<'_, '_>, word: &'static str) -> Option<Option<Second>> {
    match arguments.take_word(word) {
        Some(_) => arguments.quantity(&[TIME], word).map(|(value, _)| Some(Second(value.si))),
        None => Some(None),
    }
}

/// `from 30 % to 70 %`, or nothing; `None` after an error.
fn levels(arguments: &mut Arguments<'_, '_>) -> Option<Option<(f64, f64)>> {
    if arguments.take_word("from").is_none() {
        return Some(None);
    }
    let (low, _) = arguments.quantity(&[EDGE_LEVEL], "from")?;
    if arguments.take_word("to").is_none() {
        let here = arguments.here();
        arguments.errors.push(
            Diagnostic::error("missing-condition", here, "expected `to` and the upper level")
                .help("e.g. `rise_time <= 300 ns from 30 % to 70 %`"),
        );
        return None;
    }
    let (high, _) = arguments.quantity(&[EDGE_LEVEL], "to")?;
    if high.si <= low.si {
        arguments.errors.push(
            Diagnostic::error("range-order", high.span, "a rise goes from the lower level to the higher one")
                .also(low.span, "the lower level")
                .help("exchange the two"),
        );
        return None;
    }
    Some(Some((low.si, high.si)))
}

fn comparison(row: &LimitWord, arguments: &mut Arguments<'_, '_>) -> Option<()> {
    let floor = row.sense == Sense::AtLeast;
    let sign = row.sense.sign();
    let side = if floor { "at least" } else { "at most" };
    let here = arguments.here();
    let (code, span, error) = match arguments.take() {
        Some(argument) => match argument.kind {
            ArgumentKind::AtLeast if floor => return Some(()),
            ArgumentKind::AtMost if !floor => return Some(()),
            ArgumentKind::AtLeast | ArgumentKind::AtMost => {
                ("wrong-comparison", argument.span, format!("`{}` is limited from the other side", row.word))
            }
            _ => ("missing-argument", argument.span, format!("expected `{sign}`, but found {}", found(argument))),
        },
        None => ("missing-argument", here, format!("expected `{sign}` and a bound, but the line ends")),
    };
    let negative = match arguments.peek().map(|argument| &argument.kind) {
        Some(ArgumentKind::Quantity(bound)) => bound.value < 0.0 && bound.dimension == Some(Dimension::Decibel),
        _ => false,
    };
    let positive = if negative { "; a loss is a positive number of decibels" } else { "" };
    arguments.push_unless_broken(
        Diagnostic::error(code, span, error)
            .help(format!("write `{} {sign} …`: it must be {side} the bound{positive}", row.word)),
    );
    None
}

fn over(figure: &Figure, row: &LimitWord, arguments: &mut Arguments<'_, '_>) -> Option<Over> {
    let (level, _) = arguments.quantity(&[figure.range], row.word)?;
    if arguments.peek().is_none() {
        return Some(Over::Level(level.si));
    }
    if !row.mask {
        if let Some(span) = arguments.take_word("at") {
            arguments.errors.push(
                Diagnostic::error("no-mask", span, format!("`{}` has one bound and takes no frequency", row.word))
                    .help("delete the `at` and its frequency"),
            );
            return None;
        }
        return Some(Over::Level(level.si));
    }
    let help = "every point of a mask has its frequency: `18 dB at 100 MHz, 12 dB at 1 GHz`";
    let mut points: Vec<(MaskPoint, Span)> = Vec::new();
    let mut level = level;
    loop {
        let frequency = arguments.condition(FREQUENCY, help)?;
        let point = MaskPoint { level: level.si, frequency: Hertz(frequency.si) };
        if let Some((before, earlier)) = points.last() {
            if point.frequency < before.frequency {
                arguments.errors.push(
                    Diagnostic::error("mask-order", frequency.span, "the points of a mask rise in frequency")
                        .also(*earlier, "the point before it")
                        .help("sort the points by frequency"),
                );
                return None;
            }
        }
        let same = points.iter().filter(|(p, _)| p.frequency == point.frequency).count();
        if same >= 2 {
            arguments.errors.push(
                Diagnostic::error("mask-order", frequency.span, "a mask has at most two points at one frequency")
                    .help("two points at one frequency are a step; delete the further ones"),
            );
            return None;
        }
        points.push((point, frequency.span));
        if points.len() > MAX_POINTS {
            let message = format!("a mask has at most {MAX_POINTS} points");
            arguments.errors.push(Diagnostic::error("mask-order", frequency.span, message));
            return None;
        }
        match arguments.peek() {
            Some(argument) if matches!(argument.kind, ArgumentKind::Comma) => {
                arguments.take();
                level = arguments.quantity(&[figure.range], row.word)?.0;
            }
            _ => break,
        }
    }
    Mask::new(points.into_iter().map(|(point, _)| point).collect()).map(Over::Mask)
}

const MAX_POINTS: usize = 256;
