//! Traces from their geometry.

use super::loss::check_internal;
use super::{Findings, Surroundings, laminate};
use crate::diag::{Diagnostic, Span};
use crate::model::{LineLoss, Medium, TransmissionLine};
use crate::resolve::geometry::microstrip;
use crate::resolve::geometry::stripline;
use crate::sheet::values::Values;
use crate::units::{DB_PER_NEPER, Hertz, Metre, Ohm, significant};

/// The words that say a trace is given by its geometry.
const KINDS: [&str; 2] = ["microstrip", "stripline"];
/// The words of the geometry itself.
const WORDS: [&str; 4] = ["width", "height", "gap", "on"];

/// Whether a trace is given by its geometry.
pub(crate) fn is_stated(values: &Values<'_>) -> bool {
    KINDS.iter().any(|word| values.word(word).is_some())
}

/// Refuses words of a geometry in a trace that is not given by one.
pub(crate) fn refuse_strays(values: &Values<'_>, findings: &mut Findings) -> Option<()> {
    let Some(stray) = WORDS.iter().find_map(|word| values.word(word)) else {
        return Some(());
    };
    findings.errors.push(
        Diagnostic::error(
            "extra-argument",
            stray.span,
            format!("`{}` belongs to a trace from its geometry", stray.text),
        )
        .help("write `trace 32 mm microstrip width … height … on \"laminate\"`"),
    );
    None
}

/// A trace from its geometry, evaluated at the Nyquist frequency; `None` after an error.
pub(crate) fn lower(
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<TransmissionLine> {
    check_alternatives(values, findings)?;
    let length = required(values, "length", span, findings)?;
    let width = required(values, "width", span, findings)?;
    let height = required(values, "height", span, findings)?;
    let gap = values.number("gap");
    if let (Some(gap), false) = (gap, surroundings.differential) {
        findings.errors.push(
            Diagnostic::error("gap-single-ended", gap.span, "a single line has no gap to a partner")
                .help("delete the `gap`, or write `reference … differential`"),
        );
        return None;
    }
    let material = laminate::at(values, span, surroundings, findings)?;
    let frequency = Hertz(surroundings.nyquist);
    let gap = gap.map(|v| Metre(v.si));
    let is_stripline = values.word("stripline").is_some();
    if is_stripline && material.copper_thickness.0 >= height.0 {
        let at = values.number("height").map_or(span, |v| v.span);
        findings.errors.push(
            Diagnostic::error(
                "stripline-height",
                at,
                format!("the copper is {} thick and does not fit between these planes", material.copper_thickness),
            )
            .help("the `height` of a stripline is from plane to plane"),
        );
        return None;
    }
    let made = if is_stripline {
        stripline(width, height, gap, &material, frequency)
    } else {
        microstrip(width, height, gap, &material, frequency)
    };
    for note in &made.notes {
        findings.warn("geometry-range", span, note.to_string());
    }
    if surroundings.differential && gap.is_none() {
        findings.default_used("default-gap", span, "no gap stated: the two traces of the pair are taken as uncoupled");
    }
    let impedance = Ohm(made.impedance.0 * if surroundings.differential { 2.0 } else { 1.0 });
    let loss = LineLoss { reference: frequency, conductor: made.conductor_loss, loss_tangent: made.loss_tangent };
    let decibel = |per_metre: f64| significant(per_metre * length.0 * DB_PER_NEPER, 4);
    let dielectric = crate::resolve::dielectric_attenuation(frequency, made.effective_permittivity, made.loss_tangent);
    findings.default_used(
        "geometry-at-nyquist",
        span,
        format!(
            "trace from its geometry at {frequency}: {impedance}, effective permittivity {}, {} dB in the conductor and {} dB in the \
             dielectric; the causal line carries them over frequency",
            significant(made.effective_permittivity, 4),
            decibel(made.conductor_loss),
            decibel(dielectric)
        ),
    );
    check_internal(&loss, made.effective_permittivity, span, findings)?;
    Some(TransmissionLine { medium: Medium::Trace, impedance, length, permittivity: made.effective_permittivity, loss })
}

fn required(values: &Values<'_>, word: &str, span: Span, findings: &mut Findings) -> Option<Metre> {
    let value = values.number(word).map(|v| Metre(v.si));
    if value.is_none() {
        findings.errors.push(
            Diagnostic::error("missing-argument", span, format!("a trace from its geometry needs its {word}"))
                .help("e.g. `trace 32 mm microstrip width 0.12 mm height 0.1 mm gap 0.15 mm on \"laminate\"`"),
        );
    }
    value
}

/// What follows from the geometry may not be stated beside it, and there is one geometry.
fn check_alternatives(values: &Values<'_>, findings: &mut Findings) -> Option<()> {
    let [first, second] = KINDS.map(|word| values.word(word));
    if let (Some(first), Some(second)) = (first, second) {
        findings.errors.push(
            Diagnostic::error("two-alternatives", second.span, "a trace is a microstrip or a stripline")
                .also(first.span, "the other one")
                .help("delete one of them"),
        );
        return None;
    }
    let numbers = ["impedance", "delay", "permittivity", "loss_tangent"].iter().find_map(|name| values.number(name));
    let stated = numbers.map(|v| v.span).or(values.losses.first().map(|l| l.loss.span));
    if let Some(stated) = stated {
        let kind = first.or(second).map_or(stated, |word| word.span);
        findings.errors.push(
            Diagnostic::error(
                "two-alternatives",
                stated,
                "this follows from the trace's geometry and is stated beside it",
            )
            .also(kind, "the geometry")
            .help("delete it, or the geometry; a length is stated as a length"),
        );
        return None;
    }
    Some(())
}
