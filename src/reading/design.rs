//! The blocks of a sheet put together to what it describes.

use std::collections::HashMap;
use std::sync::Arc;

use rayon::prelude::*;

use super::context::LimitSet;
use super::names::block_name;
use super::{Context, flat, groups, laminate, limits, line, part, table};
use crate::diag::{Diagnostic, Span};
use crate::figures::LineKind;
use crate::model::Design;
use crate::sheet::MAX_ERRORS;
use crate::sheet::ast::{Block, Sheet, Text};

/// Lines read at once.
const AT_ONCE: usize = 512;

/// Turns parsed files into a design; `includes` tells which file stands for which include line.
///
/// Where a file that is included is missing (`context.incomplete`), what lines cannot find is no error of its own. Work ends with
/// the block in which [`MAX_ERRORS`] are reached.
pub(super) fn lower<'s, 'a>(
    sheets: &'s [Sheet<'a>],
    includes: &[(Span, u32)],
    mut context: Context<'s, 'a>,
) -> (Design, Vec<Diagnostic>) {
    let mut errors = Vec::new();
    let mut design = Design::default();
    let mut blocks = Vec::new();
    if let Some(root) = sheets.first() {
        flat::flatten(root, sheets, includes, &mut blocks, &mut errors);
        design.title = flat::title(root, &mut errors);
    }
    context.distribution = sheets.first().and_then(|root| flat::distribution(root, &mut errors));
    let mut lines: Vec<(LineKind, &Block<'_>, Text<'_>)> = Vec::new();
    let mut names = HashMap::new();
    for block in &blocks {
        if errors.len() >= MAX_ERRORS {
            return (design, errors);
        }
        let name = block_name(block, &mut errors);
        let kind = LineKind::ALL.into_iter().find(|kind| kind.word() == block.word.text);
        let space = if kind.is_some() { "line" } else { block.word.text };
        if let Some(earlier) = names.get(&(space, name.text)).filter(|_| !name.text.is_empty()) {
            errors.push(duplicate(space, name, *earlier));
        } else {
            names.insert((space, name.text), name.span);
        }
        match kind {
            Some(kind) => lines.push((kind, block, name)),
            None => referred(block, name, &mut design, &mut context, &mut errors),
        }
    }
    lines.sort_by_key(|(kind, ..)| *kind);
    for some in lines.chunks(AT_ONCE) {
        if errors.len() >= MAX_ERRORS {
            break;
        }
        let lowered: Vec<_> =
            some.par_iter().map(|(kind, block, name)| line::lower(*kind, block, *name, &context)).collect();
        for (line, found) in lowered {
            design.lines.extend(line);
            errors.extend(found);
        }
    }
    groups::warn_of_groups_of_one(&mut design);
    (design, errors)
}

fn duplicate(space: &str, name: Text<'_>, earlier: Span) -> Diagnostic {
    let message = if space == "line" {
        "there are two lines of this name".to_owned()
    } else {
        format!("there are two `{space}` of this name")
    };
    Diagnostic::error("duplicate-name", name.span, message)
        .also(earlier, "the first one")
        .help("give one of them another name")
}

/// A block that lines refer to.
fn referred<'s, 'a>(
    block: &'s Block<'a>,
    name: Text<'a>,
    design: &mut Design,
    context: &mut Context<'s, 'a>,
    errors: &mut Vec<Diagnostic>,
) {
    let word = match block.word.text {
        "limits" => {
            let limits = limits::lower_set(block, errors);
            context.limits.insert(name.text, LimitSet { limits, block });
            return;
        }
        "part" => {
            if let Some((part, values)) = part::lower(block, name, errors) {
                let part = Arc::new(part);
                design.values.extend_from_slice(&values);
                context.values.insert(("part", name.text), (name.span, values));
                design.parts.push(Arc::clone(&part));
                context.parts.insert(name.text, part);
                return;
            }
            "part"
        }
        "laminate" => {
            if let Some((laminate, values)) = laminate::lower(block, name, errors) {
                design.values.extend_from_slice(&values);
                context.values.insert(("laminate", name.text), (name.span, values));
                context.laminates.insert(name.text, laminate);
                return;
            }
            "laminate"
        }
        _ => {
            if let Some(table) = table::lower(block, name, errors) {
                context.tables.insert(name.text, Arc::new(table));
                return;
            }
            "table"
        }
    };
    context.faulty.insert((word, name.text));
}
