//! What is stated of the chip at an end.

use super::Findings;
use crate::diag::Diagnostic;
use crate::model::{CHIP_CURE, Chip, ChipClamp, Survives, chip_fault};
use crate::sheet::values::Values;
use crate::units::{Ampere, Ohm, Volt};

/// The chip of an end; `None` after an error.
pub(crate) fn chip(values: &Values<'_>, findings: &mut Findings) -> Option<Chip> {
    let volt = |name: &str| values.number(name).map(|v| Volt(v.si));
    let clamp = volt("voltage").zip(values.number("resistance").map(|v| Ohm(v.si)));
    let chip = Chip {
        clamp: clamp.map(|(voltage, resistance)| ChipClamp { voltage, resistance }),
        survives: survives(values, findings)?,
        negative: volt("negative"),
    };
    if let Some(word) = chip.word_without_clamp().and_then(|word| values.word(word)) {
        findings.errors.push(Diagnostic::error("chip-without-clamp", word.span, chip_fault(word.text)).help(CHIP_CURE));
        return None;
    }
    Some(chip)
}

/// The currents it survives; the outer `None` after an error.
fn survives(values: &Values<'_>, findings: &mut Findings) -> Option<Option<Survives>> {
    let (current, peak, rating) = (values.number("survives"), values.number("peak"), values.number("human_body"));
    match (current, rating) {
        (Some(current), Some(rating)) => {
            findings.errors.push(
                Diagnostic::error("survives-twice", rating.span, "what a chip survives is stated once")
                    .also(current.span, "the current")
                    .help("keep `survives`; a current follows from `human_body` only where none is known"),
            );
            None
        }
        (None, _) if peak.is_some() => {
            let span = peak.map_or_else(Default::default, |peak| peak.span);
            let message = "`peak` belongs to `survives`, and there is none";
            findings
                .errors
                .push(Diagnostic::error("extra-argument", span, message).help("write e.g. `survives 8 A peak 20 A`"));
            None
        }
        (Some(current), None) => {
            Some(Some(Survives { current: Ampere(current.si), peak: peak.map(|v| Ampere(v.si)), human_body: None }))
        }
        (None, Some(rating)) => {
            let survives = Survives::of_human_body(Volt(rating.si));
            let text = format!(
                "the chip is taken to survive {} for 100 ns, its human-body rating of {} over 1.5 kohm (common practice, no source; an \
                 estimate)",
                survives.current,
                Volt(rating.si)
            );
            findings.default_used("default-survives", rating.span, text);
            Some(Some(survives))
        }
        (None, None) => Some(None),
    }
}
