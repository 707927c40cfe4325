//! The words themselves, block by block.

use super::kinds::*;
use super::{BlockSchema, Form, LimitSchema, LineSchema, Named, Need, Shape, Slot};

const fn line(word: &'static str, form: Form, doc: &'static str) -> LineSchema {
    LineSchema {
        word,
        form,
        repeats: false,
        doc,
    }
}

const fn element(word: &'static str, slots: &'static [Slot], named: &'static [Named], doc: &'static str) -> LineSchema {
    LineSchema {
        word,
        form: Form::Arguments { slots, named },
        repeats: true,
        doc,
    }
}

const fn value(word: &'static str, slots: &'static [Slot], doc: &'static str) -> LineSchema {
    LineSchema {
        word,
        form: Form::Arguments { slots, named: &[] },
        repeats: false,
        doc,
    }
}

const fn slot(name: &'static str, kind: Kind, need: Need) -> Slot {
    Slot { name, kind, need }
}

const fn named(word: &'static str, shape: Shape, doc: &'static str) -> Named {
    Named { word, shape, doc }
}

/// The top level.
pub static TOP: BlockSchema = BlockSchema {
    name: "sheet",
    lines: &[
        line("title", Form::Name, "title of the results"),
        LineSchema {
            word: "include",
            form: Form::Name,
            repeats: true,
            doc: "another file, relative to this one; read once, its title ignored",
        },
        LineSchema {
            repeats: true,
            ..line("limits", Form::Block, "a set of limits, taken by name")
        },
        LineSchema {
            repeats: true,
            ..line("part", Form::Block, "a protector part")
        },
        LineSchema {
            repeats: true,
            ..line(
                "laminate",
                Form::Block,
                "a board material, for lines and vias from their dimensions",
            )
        },
        LineSchema {
            repeats: true,
            ..line("table", Form::Block, "measured reflection of an antenna")
        },
        LineSchema {
            repeats: true,
            ..line("lane", Form::Block, "a line or pair that carries symbols at a rate")
        },
        LineSchema {
            repeats: true,
            ..line("feed", Form::Block, "the line between an antenna and its radio")
        },
        LineSchema {
            repeats: true,
            ..line("bus", Form::Block, "a slow line that charges through a resistance")
        },
        LineSchema {
            repeats: true,
            ..line("rail", Form::Block, "a power line: only the checks of its part")
        },
    ],
};

/// What a line of any kind meets: several kinds of exposure, each once.
const EXPOSURE: LineSchema = LineSchema {
    word: "exposure",
    form: Form::Arguments {
        slots: &[],
        named: &[
            named("contact", Shape::Value(VOLTAGE), "contact discharge, IEC 61000-4-2"),
            named("air", Shape::Value(VOLTAGE), "air discharge, IEC 61000-4-2"),
            named("surge", Shape::Surge, "8/20 µs surge current"),
        ],
    },
    repeats: true,
    doc: "what the port meets",
};
const WITHSTANDS: LineSchema = value(
    "withstands",
    &[slot("voltage", VOLTAGE, Need::Required)],
    "what the protected chip survives at its pin",
);
const NEEDS: LineSchema = LineSchema {
    word: "needs",
    form: Form::Arguments {
        slots: &[],
        named: &[
            named("qualified", Shape::Name, "a qualification the part must state"),
            named("package", Shape::Name, "the package of the part"),
            named("channels", Shape::Value(CHANNELS), "channels of one package, at least"),
            named(
                "leakage",
                Shape::AtMost(CURRENT),
                "leakage at the line's voltage and highest temperature",
            ),
            named(
                "bidirectional",
                Shape::Flag,
                "the part must conduct alike in both directions",
            ),
        ],
    },
    repeats: true,
    doc: "what the part must have",
};
const TEMPERATURE_LINE: LineSchema = line(
    "temperature",
    Form::Range(TEMPERATURE),
    "ambient range; that of the part must contain it",
);
const COUNT_LINE: LineSchema = value(
    "count",
    &[slot("count", COUNT, Need::Required)],
    "how many identical lines; default 1",
);
const LINE_VOLTAGE: LineSchema = line(
    "line_voltage",
    Form::Range(SIGNED_VOLTAGE),
    "range of the working voltage",
);
const PORT: LineSchema = line("port", Form::Name, "connector the line belongs to");
const PART_NAME: LineSchema = line("part", Form::Name, "judges this part");
const LIMITS_LINE: LineSchema = line("limits", Form::Name, "takes a set of limits");
const LIMIT_LINE: LineSchema = LineSchema {
    repeats: true,
    ..line(
        "limit",
        Form::Limit,
        "adds a limit, or replaces the set's of the same name",
    )
};

/// A lane.
pub static LANE: BlockSchema = BlockSchema {
    name: "lane",
    lines: &[
        value(
            "count",
            &[slot("count", COUNT, Need::Required)],
            "how many identical lanes; a pair counts once; default 1",
        ),
        LineSchema {
            word: "rate",
            form: Form::Arguments {
                slots: &[
                    slot("bits", BIT_RATE, Need::OneOf),
                    slot("symbols", SYMBOL_RATE, Need::OneOf),
                ],
                named: &[
                    named("nrz", Shape::Flag, "two levels (the default)"),
                    named("pam3", Shape::Flag, "three levels"),
                    named("pam4", Shape::Flag, "four levels"),
                    named("pam5", Shape::Flag, "five levels"),
                    named("pam16", Shape::Flag, "sixteen levels"),
                ],
            },
            repeats: false,
            doc: "bit rate (nrz and pam4) or symbol rate, and the line code",
        },
        LineSchema {
            word: "reference",
            form: Form::Arguments {
                slots: &[slot("impedance", IMPEDANCE, Need::Required)],
                named: &[named("differential", Shape::Flag, "a pair: the reference is across it")],
            },
            repeats: false,
            doc: "reference impedance",
        },
        line(
            "line_voltage",
            Form::Range(SIGNED_VOLTAGE),
            "range of the working voltage",
        ),
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        line("port", Form::Name, "connector the lane belongs to"),
        line("limits", Form::Name, "takes a set of limits"),
        LineSchema {
            repeats: true,
            ..line(
                "limit",
                Form::Limit,
                "adds a limit, or replaces the set's of the same name",
            )
        },
        line(
            "path",
            Form::Block,
            "the elements, from the outside in; `path outward` from the chip out",
        ),
    ],
};

/// A slow bus.
pub static BUS: BlockSchema = BlockSchema {
    name: "bus",
    lines: &[
        COUNT_LINE,
        value(
            "rate",
            &[slot("bits", BIT_RATE, Need::Required)],
            "bit rate, for the reader; it enters no figure",
        ),
        value(
            "pull_up",
            &[slot("resistance", SHUNT_RESISTANCE, Need::Required)],
            "the resistor to the supply through which the line charges",
        ),
        value(
            "source",
            &[slot("resistance", SHUNT_RESISTANCE, Need::Required)],
            "the resistance of the driver through which the line charges; instead of `pull_up`",
        ),
        LINE_VOLTAGE,
        value(
            "wiring",
            &[slot("capacitance", CAPACITANCE, Need::Required)],
            "capacitance of the wiring",
        ),
        value(
            "inputs",
            &[slot("capacitance", CAPACITANCE, Need::Required)],
            "capacitance of all inputs",
        ),
        value(
            "nodes",
            &[slot("nodes", COUNT, Need::Required)],
            "protectors that share the budget; default 1",
        ),
        PART_NAME,
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        PORT,
        LIMITS_LINE,
        LIMIT_LINE,
    ],
};

/// A power line.
pub static RAIL: BlockSchema = BlockSchema {
    name: "rail",
    lines: &[
        COUNT_LINE,
        LINE_VOLTAGE,
        value(
            "current",
            &[slot("current", CURRENT, Need::Required)],
            "what it can supply, for the reader",
        ),
        PART_NAME,
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        PORT,
    ],
};

/// An antenna feed.
pub static FEED: BlockSchema = BlockSchema {
    name: "feed",
    lines: &[
        value(
            "count",
            &[slot("count", COUNT, Need::Required)],
            "how many identical feeds; default 1",
        ),
        line("band", Form::Range(FREQUENCY), "the frequencies in use"),
        value(
            "reference",
            &[slot("impedance", IMPEDANCE, Need::Required)],
            "reference impedance; a feed is single-ended",
        ),
        value(
            "power",
            &[
                slot("watt", POWER, Need::OneOf),
                slot("level", POWER_LEVEL, Need::OneOf),
            ],
            "what the radio sends: sets the highest voltage of the feed",
        ),
        line(
            "line_voltage",
            Form::Range(SIGNED_VOLTAGE),
            "range of the direct voltage on the feed",
        ),
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        line("port", Form::Name, "connector the feed belongs to"),
        line("limits", Form::Name, "takes a set of limits"),
        LineSchema {
            repeats: true,
            ..line(
                "limit",
                Form::Limit,
                "adds a limit, or replaces the set's of the same name",
            )
        },
        line(
            "path",
            Form::Block,
            "the elements from the antenna to the radio; `path outward` from the radio out",
        ),
    ],
};

/// A table of measured reflection.
pub static TABLE: BlockSchema = BlockSchema {
    name: "table",
    lines: &[
        value(
            "reference",
            &[slot("impedance", IMPEDANCE, Need::Required)],
            "impedance the reflection is measured in",
        ),
        LineSchema {
            repeats: true,
            ..value(
                "point",
                &[
                    slot("frequency", FREQUENCY, Need::Required),
                    slot("magnitude", REFLECTION, Need::Required),
                    slot("angle", ANGLE, Need::Required),
                ],
                "frequency, magnitude of the reflection, its angle; in rising frequency",
            )
        },
    ],
};

const PAD: Named = named("pad", Shape::Value(CAPACITANCE), "pad capacitance, per line");
const PERMITTIVITY_WORD: Named = named(
    "permittivity",
    Shape::Value(PERMITTIVITY),
    "effective relative permittivity; default 4.0",
);

const LINE_SLOTS: &[Slot] = &[
    slot("impedance", IMPEDANCE, Need::Required),
    slot("length", LENGTH, Need::OneOf),
    slot("delay", DELAY, Need::OneOf),
];
const LINE_WORDS: &[Named] = &[
    named(
        "loss",
        Shape::Losses,
        "total loss at one or two frequencies, in dB or dB per length",
    ),
    PERMITTIVITY_WORD,
    named("loss_tangent", Shape::Value(LOSS_TANGENT), "dielectric loss tangent"),
];
const TRACE_SLOTS: &[Slot] = &[
    slot("impedance", IMPEDANCE, Need::Optional),
    slot("length", LENGTH, Need::OneOf),
    slot("delay", DELAY, Need::OneOf),
];
const ON: Named = named("on", Shape::Name, "the laminate");
const TRACE_WORDS: &[Named] = &[
    LINE_WORDS[0],
    LINE_WORDS[1],
    LINE_WORDS[2],
    named("microstrip", Shape::Flag, "over one plane"),
    named("stripline", Shape::Flag, "midway between two planes"),
    named("width", Shape::Value(SIZE), "width of the trace"),
    named(
        "height",
        Shape::Value(SIZE),
        "microstrip: trace to plane; stripline: plane to plane",
    ),
    named("gap", Shape::Value(SIZE), "between the traces of a pair"),
    ON,
];
const IMMITTANCE_SERIES: &[Slot] = &[
    slot("resistance", RESISTANCE, Need::OneOf),
    slot("inductance", INDUCTANCE, Need::OneOf),
    slot("capacitance", CAPACITANCE_ABOVE_ZERO, Need::OneOf),
];
const IMMITTANCE_SHUNT: &[Slot] = &[
    slot("resistance", SHUNT_RESISTANCE, Need::OneOf),
    slot("inductance", INDUCTANCE_ABOVE_ZERO, Need::OneOf),
    slot("capacitance", CAPACITANCE, Need::OneOf),
];

/// The elements of a path.
pub static PATH: BlockSchema = BlockSchema {
    name: "path",
    lines: &[
        element(
            "driver",
            &[slot("impedance", IMPEDANCE, Need::Required)],
            &[
                PAD,
                named(
                    "rise",
                    Shape::Value(TIME),
                    "10–90 % rise time of the edge; default 0.3 unit intervals",
                ),
                named(
                    "swing",
                    Shape::Value(VOLTAGE),
                    "peak-to-peak swing into the matched load",
                ),
                named(
                    "taps",
                    Shape::List(TAP, 3, 3),
                    "transmit equaliser: pre, main, post; absolute values sum to 1",
                ),
            ],
            "the sending end; its impedance is across the pair",
        ),
        element(
            "receiver",
            &[slot("impedance", IMPEDANCE, Need::OneOf)],
            &[
                named("open", Shape::Alternative, "an open end"),
                PAD,
                named("ctle", Shape::Value(PEAKING), "peaking of the receive equaliser"),
                named(
                    "zero",
                    Shape::Value(FREQUENCY),
                    "its zero; default a quarter of the symbol rate",
                ),
                named(
                    "pole",
                    Shape::List(FREQUENCY, 1, 2),
                    "its poles; defaults a quarter of the symbol rate, and the symbol rate",
                ),
                named("dfe", Shape::Value(FEEDBACK), "taps of the decision feedback"),
                named(
                    "needs",
                    Shape::Value(VOLTAGE),
                    "least eye opening: a limit of the name `eye_opening`",
                ),
            ],
            "the receiving end; its impedance is across the pair",
        ),
        element(
            "cable",
            LINE_SLOTS,
            LINE_WORDS,
            "a line off the board: impedance (across the pair), length or delay",
        ),
        element(
            "trace",
            TRACE_SLOTS,
            TRACE_WORDS,
            "a line on the board: impedance (across the pair), length or delay; or a length and its geometry",
        ),
        element(
            "connector",
            &[
                slot("capacitance", CAPACITANCE, Need::Required),
                slot("inductance", INDUCTANCE, Need::Optional),
            ],
            &[],
            "shunt capacitance per line; with an inductance a symmetric T",
        ),
        element(
            "via",
            &[
                slot("capacitance", CAPACITANCE, Need::Optional),
                slot("inductance", INDUCTANCE, Need::Optional),
            ],
            &[
                named(
                    "barrel",
                    Shape::Value(SIZE),
                    "length the signal travels; instead of the capacitance",
                ),
                named("drill", Shape::Value(SIZE), "diameter of the hole"),
                named("pad", Shape::Value(SIZE), "diameter of the pad"),
                named("antipad", Shape::Value(SIZE), "diameter of the clearance in the planes"),
                ON,
                named(
                    "stub",
                    Shape::Stub,
                    "unused length of the barrel, an open line; default `inner`",
                ),
                PERMITTIVITY_WORD,
            ],
            "shunt capacitance per line, with an inductance a symmetric pi; or `barrel` and its geometry",
        ),
        element(
            "series",
            IMMITTANCE_SERIES,
            &[],
            "a resistance, inductance or capacitance in each line",
        ),
        element(
            "shunt",
            IMMITTANCE_SHUNT,
            &[],
            "a resistance across the pair; a capacitance or inductance per line to ground",
        ),
        element(
            "antenna",
            &[slot("impedance", IMPEDANCE, Need::Optional)],
            &[
                named(
                    "series",
                    Shape::Resonator,
                    "a series resonator: its frequency and resistance",
                ),
                named(
                    "parallel",
                    Shape::Resonator,
                    "a parallel resonator: its frequency and resistance",
                ),
                named("q", Shape::Value(QUALITY), "quality factor of the resonator"),
                named("table", Shape::Name, "the measured reflection of a `table`"),
            ],
            "outer end of a feed: a resistance, a resonator or a table",
        ),
        element(
            "radio",
            &[slot("impedance", IMPEDANCE, Need::Required)],
            &[PAD],
            "inner end of a feed; the match is seen from it, in the feed's reference",
        ),
        element("plane", &[], &[], "marks the port plane, where the return loss is seen"),
        element(
            "protector",
            &[slot("capacitance", CAPACITANCE, Need::Optional)],
            &[
                named("part", Shape::Name, "judges this part at its worst-case capacitance"),
                PAD,
                named(
                    "inductance",
                    Shape::Value(INDUCTANCE),
                    "ground-via inductance in series with the part",
                ),
                named(
                    "resistance",
                    Shape::Value(RESISTANCE),
                    "resistance in series with the part",
                ),
                named("stub", Shape::Value(LENGTH), "length from the trace to the part"),
                named(
                    "spread",
                    Shape::Value(SPREAD),
                    "spread of the capacitance: the typical value to look for is C/(1 + spread)",
                ),
            ],
            "the place of the protector; a capacitance or a part is judged, nothing is sized",
        ),
    ],
};

/// A part.
pub static PART: BlockSchema = BlockSchema {
    name: "part",
    lines: &[
        LineSchema {
            repeats: true,
            ..line("capacitance", Form::Rating, "`Q [typical] [Q max] [at V] [across]`")
        },
        value(
            "grading",
            &[
                slot("voltage", VOLTAGE, Need::Required),
                slot("exponent", EXPONENT, Need::Required),
            ],
            "built-in voltage and exponent of the junction law; exponent 0 for polymer and metal-oxide parts",
        ),
        value("unidirectional", &[], "one junction to ground"),
        value("bidirectional", &[], "two junctions back to back"),
        value(
            "rails",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "two diodes, to ground and to a supply of this voltage",
        ),
        value(
            "mismatch",
            &[
                slot("capacitance", CAPACITANCE, Need::OneOf),
                slot("share", MISMATCH, Need::OneOf),
            ],
            "largest difference between the two lines of a pair",
        ),
        value(
            "inductance",
            &[slot("inductance", INDUCTANCE, Need::Required)],
            "in series with the capacitance",
        ),
        value(
            "resistance",
            &[slot("resistance", RESISTANCE, Need::Required)],
            "in series with the capacitance",
        ),
        value(
            "standoff",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "highest working voltage",
        ),
        value(
            "holding",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "for a part that snaps back: the voltage it holds at",
        ),
        value(
            "trigger",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "for a part that snaps back: the voltage it turns on at",
        ),
        LineSchema {
            word: "clamp",
            form: CLAMP,
            repeats: false,
            doc: "a point of its curve under a 100 ns pulse: `clamp 8.5 V at 16 A`",
        },
        value(
            "dynamic_resistance",
            &[slot("resistance", RESISTANCE, Need::Required)],
            "slope of that curve",
        ),
        value(
            "contact",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "rated contact discharge, IEC 61000-4-2",
        ),
        value(
            "air",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "rated air discharge, IEC 61000-4-2",
        ),
        value(
            "surge",
            &[slot("current", CURRENT, Need::Required)],
            "rated 8/20 µs surge current",
        ),
        LineSchema {
            word: "surge_clamp",
            form: CLAMP,
            repeats: false,
            doc: "a point of its curve under an 8/20 µs surge",
        },
        LineSchema {
            word: "leakage",
            form: Form::Arguments {
                slots: &[slot("current", CURRENT, Need::Required)],
                named: &[named(
                    "at",
                    Shape::Value(SIGNED_VOLTAGE),
                    "the voltage it is stated at; default the stand-off",
                )],
            },
            repeats: false,
            doc: "leakage at 25 degC",
        },
        line("temperature", Form::Range(TEMPERATURE), "operating temperature"),
        value(
            "channels",
            &[slot("channels", CHANNELS, Need::Required)],
            "channels of a package",
        ),
        line("package", Form::Name, "package"),
        LineSchema {
            repeats: true,
            ..line("qualified", Form::Name, "a qualification; may be given several times")
        },
        value(
            "cost",
            &[slot("cost", COST, Need::Required)],
            "cost of a package, in no currency",
        ),
    ],
};

const CLAMP: Form = Form::Arguments {
    slots: &[slot("voltage", VOLTAGE, Need::Required)],
    named: &[named("at", Shape::Value(CURRENT), "the current it is stated at")],
};

const fn limit(word: &'static str, floor: bool, kind: Kind, mask: bool, doc: &'static str) -> LimitSchema {
    LimitSchema {
        word,
        floor,
        kind,
        mask,
        blocks: &["lane"],
        doc,
    }
}

const fn bus_limit(word: &'static str, floor: bool, kind: Kind, doc: &'static str) -> LimitSchema {
    LimitSchema {
        blocks: &["bus"],
        ..limit(word, floor, kind, false, doc)
    }
}

const fn feed_limit(word: &'static str, kind: Kind, doc: &'static str) -> LimitSchema {
    LimitSchema {
        blocks: &["feed"],
        ..limit(word, false, kind, false, doc)
    }
}

/// A board material.
pub static LAMINATE: BlockSchema = BlockSchema {
    name: "laminate",
    lines: &[
        line("permittivity", Form::ValueAt(PERMITTIVITY), "relative permittivity"),
        line("loss_tangent", Form::ValueAt(LOSS_TANGENT), "loss tangent"),
        value(
            "copper",
            &[slot("thickness", SIZE, Need::Required)],
            "thickness of the copper",
        ),
        value(
            "resistivity",
            &[slot("resistivity", RESISTIVITY, Need::Required)],
            "of the copper; default 17.2 nohm*m",
        ),
        value(
            "roughness",
            &[slot("height", ROUGHNESS, Need::Required)],
            "rms height of the copper's roughness",
        ),
        LineSchema {
            word: "snowballs",
            form: Form::Arguments {
                slots: &[slot("count", BALLS, Need::Required)],
                named: &[
                    named("radius", Shape::Value(SIZE), "of one ball"),
                    named("area", Shape::Value(AREA), "of the tile that carries them"),
                ],
            },
            repeats: false,
            doc: "roughness as balls on a tile; instead of `roughness`",
        },
    ],
};

/// The limits and the blocks they belong to.
pub static LIMITS: &[LimitSchema] = &[
    limit(
        "added_loss",
        false,
        LEVEL,
        true,
        "insertion loss with the protector minus without it",
    ),
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
    limit(
        "eye_penalty",
        false,
        SHARE,
        false,
        "loss of the fundamental at Nyquist; no eye measurement",
    ),
    limit(
        "worst_eye_penalty",
        false,
        SHARE,
        false,
        "loss of the worst-pattern eye height",
    ),
    limit(
        "eye_height",
        true,
        SHARE,
        false,
        "worst-pattern eye height, of the ideal eye",
    ),
    limit(
        "added_rise",
        false,
        ADDED_TIME,
        false,
        "10–90 % rise time with the protector minus without it",
    ),
    limit(
        "impedance_dip",
        true,
        IMPEDANCE,
        false,
        "lowest impedance of the reflection profile, in the sheet's own ohms",
    ),
    limit(
        "mode_conversion",
        false,
        CONVERSION,
        false,
        "conversion from differential to common mode, in negative dB",
    ),
    bus_limit(
        "total_capacitance",
        false,
        CAPACITANCE_ABOVE_ZERO,
        "wiring, inputs and all protectors of a bus together",
    ),
    bus_limit(
        "rise_time",
        false,
        TIME,
        "10–90 % rise time, or between the levels stated: `from 30 % to 70 %`",
    ),
    bus_limit("time_constant", false, TIME, "resistance times total capacitance"),
    bus_limit("bandwidth", true, FREQUENCY, "−3 dB bandwidth 1/(2πRC)"),
    feed_limit(
        "vswr",
        STANDING_WAVE,
        "standing-wave ratio (1 + |Γ|)/(1 − |Γ|), over the band",
    ),
    feed_limit("mismatch_loss", LEVEL, "−10 log10(1 − |Γ|²), over the band"),
    feed_limit(
        "detuning",
        FREQUENCY,
        "shift of the frequency of least reflection, up or down",
    ),
];
