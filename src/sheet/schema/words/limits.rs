//! Limits.

use crate::sheet::schema::LimitSchema;
use crate::sheet::schema::kinds::*;

const fn limit(word: &'static str, floor: bool, kind: Kind, mask: bool, doc: &'static str) -> LimitSchema {
    LimitSchema { word, floor, kind, mask, blocks: &["lane"], doc }
}

const fn bus_limit(word: &'static str, floor: bool, kind: Kind, doc: &'static str) -> LimitSchema {
    LimitSchema { blocks: &["bus"], ..limit(word, floor, kind, false, doc) }
}

const fn feed_limit(word: &'static str, kind: Kind, doc: &'static str) -> LimitSchema {
    LimitSchema { blocks: &["feed"], ..limit(word, false, kind, false, doc) }
}

/// The limits and the blocks they belong to.
pub static LIMITS: &[LimitSchema] = &[
    limit("added_loss", false, LEVEL, true, "insertion loss with the protector minus without it"),
    limit("insertion_loss", false, LEVEL, true, "loss of the whole path"),
    LimitSchema {
        blocks: &["lane", "feed"],
        ..limit(
            "return_loss",
            true,
            LEVEL,
            true,
            "of a lane: at the port plane, looking in; of a feed: seen by the radio, over the band or a mask",
        )
    },
    limit("return_loss_inner", true, LEVEL, true, "seen from the chip"),
    limit("eye_penalty", false, SHARE, false, "loss of the fundamental at Nyquist; no eye measurement"),
    limit("worst_eye_penalty", false, SHARE, false, "loss of the worst-pattern eye height"),
    limit("eye_height", true, SHARE, false, "worst-pattern eye height, of the ideal eye"),
    limit("added_rise", false, ADDED_TIME, false, "10–90 % rise time with the protector minus without it"),
    limit(
        "impedance_dip",
        true,
        IMPEDANCE,
        false,
        "lowest impedance of the reflection profile, in the sheet's own ohms",
    ),
    limit("mode_conversion", false, CONVERSION, false, "conversion from differential to common mode, in negative dB"),
    bus_limit(
        "total_capacitance",
        false,
        CAPACITANCE_ABOVE_ZERO,
        "wiring, inputs and all protectors of a bus together",
    ),
    bus_limit("rise_time", false, TIME, "10–90 % rise time, or between the levels stated: `from 30 % to 70 %`"),
    bus_limit("time_constant", false, TIME, "resistance times total capacitance"),
    bus_limit("bandwidth", true, FREQUENCY, "−3 dB bandwidth 1/(2πRC)"),
    feed_limit("vswr", STANDING_WAVE, "standing-wave ratio (1 + |Γ|)/(1 − |Γ|), over the band"),
    feed_limit("mismatch_loss", LEVEL, "−10 log10(1 − |Γ|²), over the band"),
    feed_limit("detuning", FREQUENCY, "shift of the frequency of least reflection, up or down"),
];
