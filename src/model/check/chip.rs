//! What is stated of the chip at an end.

use super::flaw::Place;
use super::values::Values;
use crate::figures::*;
use crate::model::Chip;

/// What to do about a chip that states what it survives and not how it clamps.
pub const CHIP_CURE: &str = "add e.g. `clamps 6 V 1.5 ohm`: no current below 6 V, then 6 V + 1.5 ohm times the current";

/// Holds its values against their ranges; nothing is known of a chip's current without its clamp.
pub(super) fn check(chip: &Chip, of: &mut Values<'_>) {
    if let Some(clamp) = &chip.clamp {
        of.within("clamps", clamp.voltage.0, VOLTAGE);
        of.within("clamps", clamp.resistance.0, CHIP_RESISTANCE);
    }
    if let Some(survives) = &chip.survives {
        of.within("survives", survives.current.0, CURRENT);
        survives.peak.iter().for_each(|i| of.within("peak", i.0, CURRENT));
        survives.human_body.iter().for_each(|v| of.within("human_body", v.0, VOLTAGE));
    }
    chip.negative.iter().for_each(|v| of.within("negative", v.0, VOLTAGE));
    if let Some(word) = chip.word_without_clamp() {
        of.found.cured("chip-without-clamp", Place::Value(of.index, word), chip_fault(word), CHIP_CURE);
    }
}

/// What is wrong with this word of a chip without a clamp.
pub fn chip_fault(word: &str) -> String {
    format!("`{word}` is of a chip without a clamp, and says nothing of its current")
}
