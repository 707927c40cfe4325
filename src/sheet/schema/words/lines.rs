//! The top level, and the blocks of lines: lanes, feeds, buses, rails.

use super::{line, named, slot, value};
use crate::figures::*;
use crate::sheet::schema::{BlockSchema, Form, Need, RowSchema, Shape};

/// The top level.
pub static TOP: BlockSchema = BlockSchema {
    name: "sheet",
    lines: &[
        line("title", Form::Name, "title of the results"),
        RowSchema {
            word: "include",
            form: Form::Name,
            repeats: true,
            doc: "another file, relative to this one; read once, its title ignored",
        },
        RowSchema {
            word: "tolerances",
            form: Form::Arguments {
                slots: &[],
                named: &[
                    named("uniform", Shape::Flag, "alike everywhere between the bounds (the default)"),
                    named("normal", Shape::Flag, "normally, the bounds at three standard deviations and cut there"),
                ],
            },
            repeats: false,
            doc: "how values with a `±` lie between their bounds",
        },
        RowSchema { repeats: true, ..line("limits", Form::Block, "a set of limits, taken by name") },
        RowSchema { repeats: true, ..line("part", Form::Block, "a protector part") },
        RowSchema {
            repeats: true,
            ..line("laminate", Form::Block, "a board material, for lines and vias from their dimensions")
        },
        RowSchema { repeats: true, ..line("table", Form::Block, "measured reflection of an antenna") },
        RowSchema { repeats: true, ..line("lane", Form::Block, "a line or pair that carries symbols at a rate") },
        RowSchema { repeats: true, ..line("feed", Form::Block, "the line between an antenna and its radio") },
        RowSchema { repeats: true, ..line("bus", Form::Block, "a slow line that charges through a resistance") },
        RowSchema { repeats: true, ..line("rail", Form::Block, "a power line: only the checks of its part") },
    ],
};

/// What a line of any kind meets: several kinds of exposure, each once.
const EXPOSURE: RowSchema = RowSchema {
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
const WITHSTANDS: RowSchema = RowSchema {
    word: "withstands",
    form: Form::Arguments {
        slots: &[slot("voltage", VOLTAGE, Need::Required)],
        named: &[
            named("peak", Shape::Value(VOLTAGE), "for the first 5 ns of a contact discharge"),
            named("surge", Shape::Value(VOLTAGE), "for the microseconds of a surge"),
        ],
    },
    repeats: false,
    doc: "what the protected chip survives at its pin",
};
const NEEDS: RowSchema = RowSchema {
    word: "needs",
    form: Form::Arguments {
        slots: &[],
        named: &[
            named("qualified", Shape::Name, "a qualification the part must state"),
            named("package", Shape::Name, "the package of the part"),
            named("channels", Shape::Value(CHANNELS), "channels of one package, at least"),
            named("leakage", Shape::AtMost(CURRENT), "leakage at the line's voltage and highest temperature"),
            named("bidirectional", Shape::Flag, "the part must conduct alike in both directions"),
        ],
    },
    repeats: true,
    doc: "what the part must have",
};
const TEMPERATURE_LINE: RowSchema =
    line("temperature", Form::Range(TEMPERATURE), "ambient range; that of the part must contain it");
const COUNT_LINE: RowSchema =
    value("count", &[slot("count", COUNT, Need::Required)], "how many identical lines; default 1");
const LINE_VOLTAGE: RowSchema = line("line_voltage", Form::Range(SIGNED_VOLTAGE), "range of the working voltage");
const PORT: RowSchema = line("port", Form::Name, "connector the line belongs to");
const PART_NAME: RowSchema = line("part", Form::Name, "judges this part");
const SLOW_PATH: RowSchema =
    line("path", Form::Block, "the way of a discharge, from the connector to the pin; `path outward` from the pin out");
const LIMITS_LINE: RowSchema = line("limits", Form::Name, "takes a set of limits");
const LIMIT_LINE: RowSchema =
    RowSchema { repeats: true, ..line("limit", Form::Limit, "adds a limit, or replaces the set's of the same name") };

/// A lane.
pub static LANE: BlockSchema = BlockSchema {
    name: "lane",
    lines: &[
        value(
            "count",
            &[slot("count", COUNT, Need::Required)],
            "how many identical lanes; a pair counts once; default 1",
        ),
        RowSchema {
            word: "rate",
            form: Form::Arguments {
                slots: &[slot("bits", BIT_RATE, Need::OneOf), slot("symbols", SYMBOL_RATE, Need::OneOf)],
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
        RowSchema {
            word: "reference",
            form: Form::Arguments {
                slots: &[slot("impedance", IMPEDANCE, Need::Required)],
                named: &[named("differential", Shape::Flag, "a pair: the reference is across it")],
            },
            repeats: false,
            doc: "reference impedance",
        },
        LINE_VOLTAGE,
        line(
            "pair_voltage",
            Form::Range(SIGNED_VOLTAGE),
            "between the two lines of a pair; default ± (high − low) of `line_voltage`, which it narrows",
        ),
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        line("port", Form::Name, "connector the lane belongs to"),
        LIMITS_LINE,
        LIMIT_LINE,
        line("path", Form::Block, "the elements, from the outside in; `path outward` from the chip out"),
    ],
};

/// A slow bus.
pub static BUS: BlockSchema = BlockSchema {
    name: "bus",
    lines: &[
        COUNT_LINE,
        value("rate", &[slot("bits", BIT_RATE, Need::Required)], "bit rate, for the reader; it enters no figure"),
        value(
            "pull_up",
            &[slot("resistance", SHUNT_RESISTANCE, Need::Required).varies()],
            "the resistor to the supply through which the line charges",
        ),
        value(
            "source",
            &[slot("resistance", SHUNT_RESISTANCE, Need::Required).varies()],
            "the resistance of the driver through which the line charges; instead of `pull_up`",
        ),
        LINE_VOLTAGE,
        value("wiring", &[slot("capacitance", CAPACITANCE, Need::Required).varies()], "capacitance of the wiring"),
        value("inputs", &[slot("capacitance", CAPACITANCE, Need::Required).varies()], "capacitance of all inputs"),
        value("nodes", &[slot("nodes", COUNT, Need::Required)], "protectors that share the budget; default 1"),
        PART_NAME,
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        PORT,
        LIMITS_LINE,
        LIMIT_LINE,
        SLOW_PATH,
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
            "what it can supply; not stated: more than any part that snapped back holds at",
        ),
        PART_NAME,
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        PORT,
        SLOW_PATH,
    ],
};

/// An antenna feed.
pub static FEED: BlockSchema = BlockSchema {
    name: "feed",
    lines: &[
        value("count", &[slot("count", COUNT, Need::Required)], "how many identical feeds; default 1"),
        line("band", Form::Range(FREQUENCY), "the frequencies in use"),
        value(
            "reference",
            &[slot("impedance", IMPEDANCE, Need::Required)],
            "reference impedance; a feed is single-ended",
        ),
        value(
            "power",
            &[slot("watt", POWER, Need::OneOf), slot("level", POWER_LEVEL, Need::OneOf)],
            "what the radio sends: sets the highest voltage of the feed",
        ),
        line("line_voltage", Form::Range(SIGNED_VOLTAGE), "range of the direct voltage on the feed"),
        value(
            "current",
            &[slot("current", CURRENT, Need::Required)],
            "direct current that the radio's bias can supply",
        ),
        EXPOSURE,
        WITHSTANDS,
        NEEDS,
        TEMPERATURE_LINE,
        line("port", Form::Name, "connector the feed belongs to"),
        LIMITS_LINE,
        LIMIT_LINE,
        line("path", Form::Block, "the elements from the antenna to the radio; `path outward` from the radio out"),
    ],
};

/// A table of measured reflection.
pub static TABLE: BlockSchema = BlockSchema {
    name: "table",
    lines: &[
        value("reference", &[slot("impedance", IMPEDANCE, Need::Required)], "impedance the reflection is measured in"),
        RowSchema {
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
