//! The elements of a path.

use super::{element, named, slot};
use crate::figures::*;
use crate::sheet::schema::{BlockSchema, Named, Need, Shape, Slot, TOGETHER};

const PAD: Named = named("pad", Shape::Value(CAPACITANCE), "pad capacitance, per line").varies();
const CLAMPS: Named = named(
    "clamps",
    Shape::ChipClamp,
    "the chip's own clamp: no current below the voltage, then voltage + resistance times I",
);
const SURVIVES: Named =
    named("survives", Shape::Value(CURRENT), "what the chip survives: the current of a 100 ns pulse");
const PEAK: Named = named("peak", Shape::Value(CURRENT), "the current it survives in the first nanoseconds");
const HUMAN_BODY: Named = named(
    "human_body",
    Shape::Value(VOLTAGE),
    "instead of `survives`: a human-body rating, over 1.5 kohm (an estimate)",
);
const NEGATIVE: Named = named(
    "negative",
    Shape::Value(VOLTAGE),
    "where its clamp conducts in the other polarity, without a sign; default 0.7 V",
);
const PERMITTIVITY_WORD: Named =
    named("permittivity", Shape::Value(PERMITTIVITY), "effective relative permittivity; default 4.0").varies();

/// Last in a line: what deviates alike.
pub(super) const TOGETHER_WORD: Named = named(
    TOGETHER,
    Shape::Name,
    "the group in which values of one kind deviate by the same share of their tolerance; last in the line",
);

const LINE_SLOTS: &[Slot] = &[
    slot("impedance", IMPEDANCE, Need::Required).varies(),
    slot("length", LENGTH, Need::OneOf).varies(),
    slot("delay", DELAY, Need::OneOf).varies(),
];
const LINE_WORDS: &[Named] = &[
    named("loss", Shape::Losses, "total loss at one or two frequencies, in dB or dB per length").varies(),
    PERMITTIVITY_WORD,
    named("loss_tangent", Shape::Value(LOSS_TANGENT), "dielectric loss tangent").varies(),
    TOGETHER_WORD,
];
const TRACE_SLOTS: &[Slot] = &[
    slot("impedance", IMPEDANCE, Need::Optional).varies(),
    slot("length", LENGTH, Need::OneOf).varies(),
    slot("delay", DELAY, Need::OneOf).varies(),
];
const ON: Named = named("on", Shape::Name, "the laminate");
const TRACE_WORDS: &[Named] = &[
    LINE_WORDS[0],
    LINE_WORDS[1],
    LINE_WORDS[2],
    named("microstrip", Shape::Flag, "over one plane"),
    named("stripline", Shape::Flag, "midway between two planes"),
    named("width", Shape::Value(SIZE), "width of the trace").varies(),
    named("height", Shape::Value(SIZE), "microstrip: trace to plane; stripline: plane to plane").varies(),
    named("gap", Shape::Value(SIZE), "between the traces of a pair").varies(),
    ON,
    TOGETHER_WORD,
];
const IMMITTANCE_SERIES: &[Slot] = &[
    slot("resistance", RESISTANCE, Need::OneOf).varies(),
    slot("inductance", INDUCTANCE, Need::OneOf).varies(),
    slot("capacitance", CAPACITANCE_ABOVE_ZERO, Need::OneOf).varies(),
];
const IMMITTANCE_SHUNT: &[Slot] = &[
    slot("resistance", SHUNT_RESISTANCE, Need::OneOf).varies(),
    slot("inductance", INDUCTANCE_ABOVE_ZERO, Need::OneOf).varies(),
    slot("capacitance", CAPACITANCE, Need::OneOf).varies(),
];

/// The elements of a path.
pub static PATH: BlockSchema = BlockSchema {
    name: "path",
    lines: &[
        element(
            "driver",
            &[slot("impedance", IMPEDANCE, Need::Required).varies()],
            &[
                PAD,
                named("rise", Shape::Value(TIME), "10–90 % rise time of the edge; default 0.3 unit intervals").varies(),
                named("swing", Shape::Value(VOLTAGE), "peak-to-peak swing into the matched load"),
                named("taps", Shape::List(TAP, 3, 3), "transmit equaliser: pre, main, post; absolute values sum to 1"),
                CLAMPS,
                SURVIVES,
                PEAK,
                HUMAN_BODY,
                NEGATIVE,
                TOGETHER_WORD,
            ],
            "the sending end; its impedance is across the pair",
        ),
        element(
            "receiver",
            &[slot("impedance", IMPEDANCE, Need::OneOf).varies()],
            &[
                named("open", Shape::Alternative, "an open end"),
                PAD,
                named("ctle", Shape::Value(PEAKING), "peaking of the receive equaliser"),
                named("zero", Shape::Value(FREQUENCY), "its zero; default a quarter of the symbol rate"),
                named(
                    "pole",
                    Shape::List(FREQUENCY, 1, 2),
                    "its poles; defaults a quarter of the symbol rate, and the symbol rate",
                ),
                named("dfe", Shape::Value(FEEDBACK), "taps of the decision feedback"),
                named(
                    "limit",
                    Shape::Value(TAP_LIMIT),
                    "the largest of these taps, of the main cursor; default unlimited",
                ),
                named("needs", Shape::Value(VOLTAGE), "least eye opening: a limit of the name `eye_opening`"),
                CLAMPS,
                SURVIVES,
                PEAK,
                HUMAN_BODY,
                NEGATIVE,
                TOGETHER_WORD,
            ],
            "the receiving end; its impedance is across the pair",
        ),
        element("cable", LINE_SLOTS, LINE_WORDS, "a line off the board: impedance (across the pair), length or delay"),
        element(
            "trace",
            TRACE_SLOTS,
            TRACE_WORDS,
            "a line on the board: impedance (across the pair), length or delay; or a length and its geometry",
        ),
        element(
            "connector",
            &[
                slot("capacitance", CAPACITANCE, Need::Required).varies(),
                slot("inductance", INDUCTANCE, Need::Optional).varies(),
            ],
            &[TOGETHER_WORD],
            "shunt capacitance per line; with an inductance a symmetric T",
        ),
        element(
            "via",
            &[
                slot("capacitance", CAPACITANCE, Need::Optional).varies(),
                slot("inductance", INDUCTANCE, Need::Optional).varies(),
            ],
            &[
                named("barrel", Shape::Value(SIZE), "length the signal travels; instead of the capacitance").varies(),
                named("drill", Shape::Value(SIZE), "diameter of the hole").varies(),
                named("pad", Shape::Value(SIZE), "diameter of the pad").varies(),
                named("antipad", Shape::Value(SIZE), "diameter of the clearance in the planes").varies(),
                ON,
                named("stub", Shape::Stub, "unused length of the barrel, an open line; default `inner`").varies(),
                PERMITTIVITY_WORD,
                TOGETHER_WORD,
            ],
            "shunt capacitance per line, with an inductance a symmetric pi; or `barrel` and its geometry",
        ),
        element("series", IMMITTANCE_SERIES, &[TOGETHER_WORD], "a resistance, inductance or capacitance in each line"),
        element(
            "shunt",
            IMMITTANCE_SHUNT,
            &[TOGETHER_WORD],
            "a resistance across the pair; a capacitance or inductance per line to ground",
        ),
        element(
            "antenna",
            &[slot("impedance", IMPEDANCE, Need::Optional).varies()],
            &[
                named("series", Shape::Resonator, "a series resonator: its frequency and resistance").varies(),
                named("parallel", Shape::Resonator, "a parallel resonator: its frequency and resistance").varies(),
                named("q", Shape::Value(QUALITY), "quality factor of the resonator").varies(),
                named("table", Shape::Name, "the measured reflection of a `table`"),
                TOGETHER_WORD,
            ],
            "outer end of a feed: a resistance, a resonator or a table",
        ),
        element(
            "radio",
            &[slot("impedance", IMPEDANCE, Need::Required).varies()],
            &[PAD, CLAMPS, SURVIVES, PEAK, HUMAN_BODY, NEGATIVE, TOGETHER_WORD],
            "inner end of a feed; the match is seen from it, in the feed's reference",
        ),
        element(
            "pin",
            &[],
            &[PAD, CLAMPS, SURVIVES, PEAK, HUMAN_BODY, NEGATIVE, TOGETHER_WORD],
            "inner end of the path of a bus or a rail: the protected pin",
        ),
        element("plane", &[], &[], "marks the port plane, where the return loss is seen"),
        element(
            "protector",
            &[slot("capacitance", CAPACITANCE, Need::Optional).varies()],
            &[
                named("part", Shape::Name, "judges this part at its worst-case capacitance"),
                PAD,
                named("inductance", Shape::Value(INDUCTANCE), "ground-via inductance in series with the part").varies(),
                named("resistance", Shape::Value(RESISTANCE), "resistance in series with the part").varies(),
                named("stub", Shape::Value(LENGTH), "length from the trace to the part").varies(),
                named(
                    "neck",
                    Shape::Neck,
                    "narrowed trace on either side: impedance as of the traces it is cut from, and length",
                )
                .varies(),
                named(
                    "spread",
                    Shape::Value(SPREAD),
                    "spread of the capacitance: the typical value to look for is C/(1 + spread)",
                ),
                TOGETHER_WORD,
            ],
            "the place of the protector; a capacitance or a part is judged, and the budget is sized all the same",
        ),
        element(
            "guard",
            &[],
            &[
                named("part", Shape::Name, "the part, at its worst-case capacitance"),
                PAD,
                named("inductance", Shape::Value(INDUCTANCE), "ground-via inductance in series with the part").varies(),
                named("stub", Shape::Value(LENGTH), "length from the trace to the part").varies(),
                TOGETHER_WORD,
            ],
            "a further part that is fitted, anywhere in the path",
        ),
    ],
};
