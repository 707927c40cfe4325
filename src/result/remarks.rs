//! What a result owns of a line's head and of its limits.

use std::sync::Arc;

use super::line::{LineHead, Note, Stated};
use crate::diag::Sources;
use crate::model;
use crate::model::{Bounds, Head, Limit, Part};
use crate::parts::Checks;
use crate::transient::LineDischarge;

/// What is said of a line beside its numbers.
pub(super) struct LineRemarks<'a> {
    pub(super) part: Option<&'a Arc<Part>>,
    pub(super) checked: Checks,
    /// What a discharge leaves, where it is computed.
    pub(super) discharge: Option<LineDischarge>,
    /// What only the computed figures tell.
    pub(super) found: Vec<Note>,
}

impl LineRemarks<'_> {
    /// The head of a line with its part and its checks.
    pub(super) fn head(self, head: &Head, sources: &Sources) -> LineHead {
        let warnings = notes(&head.warnings, sources).chain(self.found);
        LineHead {
            name: head.name.clone(),
            port: head.port.clone(),
            count: head.count,
            part: self.part.map(|part| part.name.clone()),
            defaults: notes(&head.defaults, sources).chain(assumed(self.discharge.as_ref())).collect(),
            warnings: warnings.chain(notes(&self.checked.cautions, sources)).collect(),
            checks: self.checked.checks,
            discharge: self.discharge,
            tolerance: None,
        }
    }
}

/// What the computation of a contact discharge assumes.
fn assumed(discharge: Option<&LineDischarge>) -> Option<Note> {
    const ASSUMED: &str = "the computed discharge is an estimate, see `explain`: 330 ohm beside the source; 0.7 V below ground \
                           where nothing else is stated; no losses, no terminations; the neighbour of a pair at rest; a part \
                           that snaps back lets go after 1 ns at its holding current or below; the line's own voltage counts at the pin alone, \
                           up to where a part conducts";
    discharge?.struck()?;
    Some(Note { code: "discharge-assumptions", text: ASSUMED.to_owned(), line: None })
}

fn notes(notes: &[model::Note], sources: &Sources) -> impl Iterator<Item = Note> {
    let note = |note: &model::Note| Note {
        code: note.code,
        text: note.text.clone(),
        line: note.span.map(|span| sources.line(span)),
    };
    notes.iter().map(note)
}

/// The limits of a line as its sheet states them.
pub(super) fn stated<B: Bounds>(limits: &[Limit<B>], sources: &Sources) -> Vec<Stated> {
    let stated = |limit: &Limit<B>| Stated {
        bound: limit.of.bound(),
        mask: limit.of.mask().cloned(),
        levels: limit.of.levels(),
        below: limit.of.below(),
        read: limit.of.read(),
        line: limit.span.map(|span| sources.line(span)),
    };
    limits.iter().map(stated).collect()
}
