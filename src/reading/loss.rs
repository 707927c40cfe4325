//! The loss of a cable or trace, as stated and as it can be.

use super::Findings;
use crate::diag::{Diagnostic, Span};
use crate::model::LineLoss;
use crate::resolve::{LineFault, LossPoint};
use crate::sheet::values::{StatedLoss, Values};
use crate::units::{DB_PER_NEPER, Hertz, significant};

/// Total loss beyond which a line is surely mistyped, in dB.
const MAX_LOSS: f64 = 1000.0;

/// Share of the conductor's internal reactance in the line's series reactance above which the loss is approximate.
const APPROXIMATE: f64 = 0.2;

/// A stated loss as attenuation per length; `None` after an error.
pub(crate) fn loss_point(stated: &StatedLoss, length: f64, findings: &mut Findings) -> Option<LossPoint> {
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

/// A loss in dB, total for the line, in words.
fn total(attenuation: f64, length: f64) -> String {
    format!("{} dB", significant(attenuation * length * DB_PER_NEPER, 4))
}

pub(crate) fn loss_error(fault: &LineFault, values: &Values<'_>, length: f64, span: Span) -> Diagnostic {
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

/// Whether the conductor leaves the line an inductance of its own; `None` after an error.
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
