//! Cables and traces.

use super::path::{DEFAULT_PERMITTIVITY, Surroundings};
use super::{Findings, geometry};
use crate::diag::{Diagnostic, Span};
use crate::model::{LineLoss, Medium, TransmissionLine};
use crate::resolve::{LineFault, LossPoint, resolve_loss};
use crate::sheet::values::{StatedLoss, Values};
use crate::units::{DB_PER_NEPER, Hertz, Metre, Ohm, SPEED_OF_LIGHT, significant};

/// Share of the conductor's internal reactance in the line's series reactance above which the loss is approximate.
const APPROXIMATE: f64 = 0.2;

/// A cable or trace; `None` after an error.
pub(crate) fn lower(
    word: &str,
    values: &Values<'_>,
    span: Span,
    surroundings: &Surroundings<'_, '_, '_>,
    findings: &mut Findings,
) -> Option<TransmissionLine> {
    if geometry::is_stated(values) {
        return geometry::lower(values, span, surroundings, findings);
    }
    geometry::refuse_strays(values, findings)?;
    let Some(impedance) = values.number("impedance") else {
        findings.errors.push(
            Diagnostic::error("missing-argument", span, format!("`{word}` needs an impedance or its geometry"))
                .help("e.g. `trace 90 ohm 32 mm`, or `trace 32 mm microstrip width … height … on \"laminate\"`"),
        );
        return None;
    };
    let permittivity = values.number("permittivity").map_or_else(
        || {
            let text = format!("no permittivity stated for this {word}: {DEFAULT_PERMITTIVITY:.1}");
            findings.default_used("default-permittivity", span, text);
            DEFAULT_PERMITTIVITY
        },
        |v| v.si,
    );
    let delay = values.number("delay").map(|v| SPEED_OF_LIGHT * v.si / permittivity.sqrt());
    let length = values.number("length").map(|v| v.si).or(delay)?;
    let tangent = values.number("loss_tangent");
    if let (Some(tangent), [_, second]) = (tangent, &values.losses[..]) {
        findings.errors.push(
            Diagnostic::error("loss-tangent-twice", tangent.span, "two loss points and a loss tangent say too much")
                .also(second.loss.span, "the second loss point")
                .help("keep one or the other: two points give the loss tangent themselves"),
        );
        return None;
    }
    let points: Option<Vec<LossPoint>> =
        values.losses.iter().map(|stated| loss_point(stated, length, findings)).collect();
    let stated_tangent = tangent.map(|v| v.si);
    let loss = match resolve_loss(&points?, stated_tangent, permittivity, Hertz(surroundings.nyquist)) {
        Ok(loss) => loss,
        Err(fault) => {
            findings.errors.push(loss_error(&fault, values, length, span));
            return None;
        }
    };
    check_internal(&loss, permittivity, span, findings)?;
    Some(TransmissionLine {
        medium: if word == "cable" { Medium::Cable } else { Medium::Trace },
        impedance: Ohm(impedance.si),
        length: Metre(length),
        permittivity,
        loss,
    })
}

fn loss_point(stated: &StatedLoss, length: f64, findings: &mut Findings) -> Option<LossPoint> {
    let per_metre = if stated.per_length {
        stated.loss.si
    } else if stated.loss.si == 0.0 {
        0.0
    } else if length == 0.0 {
        findings.errors.push(
            Diagnostic::error("loss-points", stated.loss.span, "a line without length has no loss")
                .help("state its length, or the loss per length"),
        );
        return None;
    } else {
        stated.loss.si / length
    };
    if per_metre * length > MAX_LOSS {
        findings.errors.push(
            Diagnostic::error("out-of-range", stated.loss.span, format!("this line loses more than {MAX_LOSS} dB"))
                .help("check the loss per length and the length"),
        );
        return None;
    }
    Some(LossPoint { attenuation: per_metre / DB_PER_NEPER, frequency: Hertz(stated.frequency.si) })
}

/// Total loss beyond which a line is surely mistyped, in dB.
const MAX_LOSS: f64 = 1000.0;

/// A loss in dB, total for the line, in words.
fn total(attenuation: f64, length: f64) -> String {
    format!("{} dB", significant(attenuation * length * DB_PER_NEPER, 4))
}

fn loss_error(fault: &LineFault, values: &Values<'_>, length: f64, span: Span) -> Diagnostic {
    let first = values.losses.first().map_or(span, |l| l.loss.span);
    let second = values.losses.last().map_or(span, |l| l.loss.span);
    // A line without length is spoken of per metre.
    let length = if length > 0.0 { length } else { 1.0 };
    match *fault {
        LineFault::BelowDielectric { stated, dielectric } => Diagnostic::error(
            "loss-below-dielectric",
            first,
            format!(
                "this loss is {}, but the loss tangent alone makes {}",
                total(stated, length),
                total(dielectric, length)
            ),
        )
        .help("state a larger loss or a smaller loss tangent"),
        LineFault::SecondOutOfRange { low, high, .. } => Diagnostic::error(
            "loss-points",
            second,
            format!(
                "no line has these two losses: given the first, the second lies between {} and {}",
                total(low, length),
                total(high, length)
            ),
        )
        .help("between a loss that grows as the square root of the frequency and one that grows as the frequency"),
        LineFault::SameFrequency(_) => Diagnostic::error("loss-points", second, "two losses at one frequency")
            .help("state them at two frequencies"),
        LineFault::TangentBesideTwoPoints | LineFault::TooManyPoints(_) => {
            Diagnostic::error("loss-points", second, "this line states more losses than it has")
                .help("state one loss and a loss tangent, or two losses")
        }
    }
}

pub(crate) fn check_internal(loss: &LineLoss, permittivity: f64, span: Span, findings: &mut Findings) -> Option<()> {
    let share = loss.inductance_ratio(permittivity);
    if share >= 1.0 {
        findings.errors.push(
            Diagnostic::error(
                "loss-too-high",
                span,
                "this loss is too high for a line of this impedance and delay",
            )
            .help(
                "the conductor's internal inductance alone would exceed the line's; check the loss and its frequency",
            ),
        );
        return None;
    }
    if share > APPROXIMATE {
        let text = format!(
            "R_s is {share:.2} of the line's series reactance at its loss frequency (0.2 at most for the stated loss to be met within 0.5 %)"
        );
        findings.warn("loss-approximate", span, text);
    }
    Some(())
}
