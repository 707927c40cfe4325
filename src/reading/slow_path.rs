//! The part of a bus or a rail, and the path it may state.

use std::sync::Arc;

use super::named_part::named_part;
use super::{Context, Findings, Reader, Surroundings, part, path};
use crate::diag::Diagnostic;
use crate::figures::LineKind;
use crate::model::{Head, PARTS_CURE, Part, Path};
use crate::resolve::DISCHARGE_FREQUENCY;
use crate::units::Farad;

/// The part of a line and the path with it.
#[derive(Default)]
pub(crate) struct Slow {
    /// The part, named in a row of its own or in the path.
    pub(crate) part: Option<Arc<Part>>,
    /// Its worst capacitance; of a rail only where there is a path.
    pub(crate) fitted: Option<Farad>,
    /// The path.
    pub(crate) path: Option<Path>,
}

/// Part and path of a line of this kind.
pub(crate) fn lower(
    reader: &Reader<'_, '_, '_>,
    kind: LineKind,
    head: &Head,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Slow {
    let named = named_part(reader.entries, head.voltage, context, findings);
    let mut path = reader.entries.block("path").and_then(|block| {
        let nyquist = DISCHARGE_FREQUENCY.0;
        let surroundings = Surroundings { context, kind, nyquist, differential: false, voltages: head.voltages() };
        path::lower(block, &head.name, &surroundings, findings)
    });
    let own = path.as_ref().and_then(Path::protector).and_then(|place| place.part.clone().zip(place.fitted));
    if let Some((own, fitted)) = own {
        if let Some((_, name)) = named.filter(|(part, _)| *part != own) {
            let place = path.as_ref().and_then(|path| path.elements.get(path.protector_index()));
            let message = format!("the protector of this path is another part than that of the {}", kind.word());
            findings.errors.push(
                Diagnostic::error("parts-differ", place.map_or(name.span, |place| place.span), message)
                    .also(name.span, "the part of the line")
                    .help(PARTS_CURE),
            );
        }
        return Slow { part: Some(own), fitted: Some(fitted), path };
    }
    let Some((part, name)) = named else { return Slow { path, ..Slow::default() } };
    let mut fitted = None;
    if kind == LineKind::Bus || path.is_some() {
        let on_line = part::on_line(&part, name, false, head.voltages(), findings);
        if let (Some(on_line), Some(path)) = (&on_line, &mut path) {
            path.fit_part(&part, on_line);
        }
        fitted = on_line.map(|on_line| on_line.capacitance);
    } else if part::on_single_line(&part, name, findings).is_none() {
        return Slow::default();
    }
    Slow { part: Some(part), fitted, path }
}
