//! The figures, each once.

use super::figure::{Figure, LimitWord, LineKind, Sense};
use super::range::*;
use crate::units::Dimension;

const LANE: &[LineKind] = &[LineKind::Lane];
const FEED: &[LineKind] = &[LineKind::Feed];
const BUS: &[LineKind] = &[LineKind::Bus];
const SIGNALS: &[LineKind] = &[LineKind::Lane, LineKind::Feed];

/// Magnitude of a reflection.
const MODULUS: Range = Range { dimension: Dimension::Number, low: 0.0, high: 1.0 };

const fn figure(key: &'static str, title: &'static str, range: Range, without: &'static str) -> Figure {
    Figure { key, title, range, without, limit: None }
}

impl Figure {
    const fn at_most(self, word: &'static str, lines: &'static [LineKind], doc: &'static str) -> Figure {
        self.limited(word, Sense::AtMost, lines, doc)
    }

    const fn at_least(self, word: &'static str, lines: &'static [LineKind], doc: &'static str) -> Figure {
        self.limited(word, Sense::AtLeast, lines, doc)
    }

    const fn limited(self, word: &'static str, sense: Sense, lines: &'static [LineKind], doc: &'static str) -> Figure {
        Figure { limit: Some(LimitWord { word, sense, mask: false, lines, doc }), ..self }
    }

    /// The same, where points over frequency may make the limit a mask.
    const fn or_mask(self) -> Figure {
        match self.limit {
            Some(limit) => Figure { limit: Some(LimitWord { mask: true, ..limit }), ..self },
            None => self,
        }
    }
}

/// Loss of a lane at Nyquist minus the one without protector; of a feed the same of its transducer loss.
pub static ADDED_LOSS: Figure = figure("added_loss_db", "added loss", LEVEL, "-")
    .at_most("added_loss", LANE, "insertion loss with the protector minus without it")
    .or_mask();
/// −20 log10 |S21|.
pub static INSERTION_LOSS: Figure = figure("insertion_loss_db", "insertion loss", LEVEL, "nothing passes")
    .at_most("insertion_loss", LANE, "loss of the whole path")
    .or_mask();
/// −20 log10 |S11| of a lane, −20 log10 |Γ| of a feed.
pub static RETURN_LOSS: Figure = figure("return_loss_db", "return loss", LEVEL, "no reflection")
    .at_least(
        "return_loss",
        SIGNALS,
        "of a lane: at the port plane, looking in; of a feed: seen by the radio, over the band or a mask",
    )
    .or_mask();
/// −20 log10 |S22|.
pub static RETURN_LOSS_INNER: Figure = figure("return_loss_inner_db", "return loss inside", LEVEL, "no reflection")
    .at_least("return_loss_inner", LANE, "seen from the chip")
    .or_mask();
/// 1 − |H(f_N; C)|/|H(f_N; absent)|.
pub static EYE_PENALTY: Figure = figure("eye_penalty", "eye penalty*", SHARE, "-").at_most(
    "eye_penalty",
    LANE,
    "loss of the fundamental at Nyquist; no eye measurement",
);
/// 1 − EH(C)/EH(absent) of the worst pattern.
pub static WORST_EYE_PENALTY: Figure = figure("worst_eye_penalty", "worst eye penalty", SHARE, "-").at_most(
    "worst_eye_penalty",
    LANE,
    "loss of the worst-pattern eye height",
);
/// EH of the worst pattern, of the ideal eye.
pub static EYE_HEIGHT: Figure = figure("eye_height", "eye height", SHARE, "-").at_least(
    "eye_height",
    LANE,
    "worst-pattern eye height, of the ideal eye",
);
/// 10–90 % time of the step, fitted − absent.
pub static ADDED_RISE: Figure = figure("added_rise_s", "added rise", ADDED_TIME, "-").at_most(
    "added_rise",
    LANE,
    "10–90 % rise time with the protector minus without it",
);
/// Lowest impedance of the reflection profile, in the sheet's own ohms.
pub static IMPEDANCE_DIP: Figure = figure("impedance_dip_ohm", "impedance dip", IMPEDANCE, "-").at_least(
    "impedance_dip",
    LANE,
    "lowest impedance of the reflection profile, in the sheet's own ohms; `rise 200 ps`, `until 1.5 ns`",
);
/// Longest stretch of the reflection profile below the impedance that the limit names.
pub static IMPEDANCE_EXCURSION: Figure = figure("impedance_excursion_s", "impedance excursion", ADDED_TIME, "-")
    .at_most(
        "impedance_excursion",
        LANE,
        "how long the reflection profile stays below an impedance at a stretch: `below 76 ohm`, `rise 200 ps`",
    );
/// 20 log10 |S_cd21|.
pub static MODE_CONVERSION: Figure = figure("mode_conversion_db", "mode conversion", CONVERSION, "-").at_most(
    "mode_conversion",
    LANE,
    "conversion from differential to common mode, in negative dB",
);
/// 20 log10 |S_cd11| at the port plane.
pub static MODE_CONVERSION_REFLECTED: Figure =
    figure("mode_conversion_reflected_db", "mode conversion reflected", CONVERSION, "-").at_most(
        "mode_conversion_reflected",
        LANE,
        "the same of what is reflected at the port plane, in negative dB: what an outer cable radiates",
    );
/// Worst-pattern eye opening at the receiver: the receiver's `needs`.
pub static EYE_OPENING: Figure = figure("eye_opening_v", "eye opening", VOLTAGE, "-").at_least(
    "eye_opening",
    &[],
    "worst-pattern eye opening at the receiver",
);
/// Wiring, inputs and all protectors of a bus.
pub static TOTAL_CAPACITANCE: Figure = figure("total_capacitance_f", "total", CAPACITANCE_ABOVE_ZERO, "-").at_most(
    "total_capacitance",
    BUS,
    "wiring, inputs and all protectors of a bus together",
);
/// 10–90 % rise time of a bus.
pub static BUS_RISE: Figure = figure("rise_s", "rise 10-90 %", TIME, "-").at_most(
    "rise_time",
    BUS,
    "10–90 % rise time, or between the levels stated: `from 30 % to 70 %`",
);
/// R C of a bus.
pub static TIME_CONSTANT: Figure = figure("time_constant_s", "time constant", TIME, "-").at_most(
    "time_constant",
    BUS,
    "resistance times total capacitance",
);
/// 1/(2π R C) of a bus.
pub static BANDWIDTH: Figure =
    figure("bandwidth_hz", "bandwidth", FREQUENCY, "-").at_least("bandwidth", BUS, "−3 dB bandwidth 1/(2πRC)");
/// (1 + |Γ|)/(1 − |Γ|).
pub static VSWR: Figure = figure("vswr", "VSWR", STANDING_WAVE, "total").at_most(
    "vswr",
    FEED,
    "standing-wave ratio (1 + |Γ|)/(1 − |Γ|), over the band",
);
/// −10 log10(1 − |Γ|²).
pub static MISMATCH_LOSS: Figure = figure("mismatch_loss_db", "mismatch loss", LEVEL, "total").at_most(
    "mismatch_loss",
    FEED,
    "−10 log10(1 − |Γ|²), over the band",
);
/// Shift of the frequency of least |Γ|.
pub static DETUNING: Figure = figure("detuning_hz", "detuning", FREQUENCY, "-").at_most(
    "detuning",
    FEED,
    "shift of the frequency of least reflection, up or down",
);
/// |S11|, or |Γ|.
pub static REFLECTED: Figure = figure("reflection", "reflection", MODULUS, "-");
/// |H(f_N)|.
pub static NYQUIST_AMPLITUDE: Figure = figure("nyquist_amplitude", "amplitude at Nyquist", MODULUS, "-");
/// Worst-pattern eye width in unit intervals.
pub static EYE_WIDTH: Figure = figure("eye_width_ui", "eye width", MODULUS, "-");
/// 10–90 % rise time of the step at a receiver.
pub static RISE: Figure = figure("rise_s", "rise", TIME, "-");
/// Skew between the two lines of a pair at Nyquist.
pub static SKEW: Figure = figure("skew_s", "skew", ADDED_TIME, "-");
/// Droop over a run of five symbols.
pub static DROOP: Figure = figure("droop", "droop", SHARE, "-");
/// Loss of the power into the antenna's resistance against the power available.
pub static TRANSDUCER_LOSS: Figure = figure("transducer_loss_db", "transducer loss", LEVEL, "-");
/// Frequency of least reflection.
pub static RESONANCE: Figure = figure("resonance_hz", "resonance", FREQUENCY, "-");

/// Every figure; those with a limit first, in the order of the reference.
pub static FIGURES: &[&Figure] = &[
    &ADDED_LOSS,
    &INSERTION_LOSS,
    &RETURN_LOSS,
    &RETURN_LOSS_INNER,
    &EYE_PENALTY,
    &WORST_EYE_PENALTY,
    &EYE_HEIGHT,
    &ADDED_RISE,
    &IMPEDANCE_DIP,
    &IMPEDANCE_EXCURSION,
    &MODE_CONVERSION,
    &MODE_CONVERSION_REFLECTED,
    &EYE_OPENING,
    &TOTAL_CAPACITANCE,
    &BUS_RISE,
    &TIME_CONSTANT,
    &BANDWIDTH,
    &VSWR,
    &MISMATCH_LOSS,
    &DETUNING,
    &REFLECTED,
    &NYQUIST_AMPLITUDE,
    &EYE_WIDTH,
    &RISE,
    &SKEW,
    &DROOP,
    &TRANSDUCER_LOSS,
    &RESONANCE,
];

impl Figure {
    /// Whether it is known in time alone, so that what a limit on it allows is searched for and not solved.
    pub fn is_in_time(&self) -> bool {
        let timed = [&EYE_HEIGHT, &EYE_OPENING, &WORST_EYE_PENALTY, &ADDED_RISE, &IMPEDANCE_DIP, &IMPEDANCE_EXCURSION];
        timed.contains(&self)
    }
}

/// Figures with a limit that a sheet can state, in the order of the reference.
pub fn limited() -> impl Iterator<Item = (&'static Figure, &'static LimitWord)> + Clone {
    let limited = FIGURES.iter().filter_map(|figure| Some((*figure, figure.limit.as_ref()?)));
    limited.filter(|(_, limit)| !limit.lines.is_empty())
}

/// The figure that a word of the sheet limits.
pub fn limited_word(word: &str) -> Option<(&'static Figure, &'static LimitWord)> {
    limited().find(|(_, limit)| limit.word == word)
}

/// The words of the limits of a kind of line.
pub fn limits_of(line: LineKind) -> impl Iterator<Item = &'static str> {
    limited().filter(move |(_, limit)| limit.lines.contains(&line)).map(|(_, limit)| limit.word)
}
