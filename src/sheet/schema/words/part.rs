//! Parts and laminates.

use super::path::TOGETHER_WORD;
use super::{line, named, slot, value};
use crate::figures::*;
use crate::sheet::schema::{BlockSchema, Form, Need, RowSchema, Shape, Slot};

/// A part.
pub static PART: BlockSchema = BlockSchema {
    name: "part",
    lines: &[
        RowSchema { repeats: true, ..line("capacitance", Form::Rating, "`Q [typical] [Q max] [at V] [across]`") },
        value(
            "grading",
            &[slot("voltage", VOLTAGE, Need::Required), slot("exponent", EXPONENT, Need::Required)],
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
            &[slot("capacitance", CAPACITANCE, Need::OneOf), slot("share", MISMATCH, Need::OneOf)],
            "largest difference between the two lines of a pair",
        ),
        value(
            "inductance",
            &[slot("inductance", INDUCTANCE, Need::Required).varies()],
            "in series with the capacitance",
        ),
        value(
            "resistance",
            &[slot("resistance", RESISTANCE, Need::Required).varies()],
            "in series with the capacitance",
        ),
        line("standoff", Form::Range(SIGNED_VOLTAGE), "highest working voltage; with `to` the lowest and the highest"),
        RowSchema {
            word: "holding",
            form: CLAMP,
            repeats: false,
            doc: "for a part that snaps back: the voltage it holds at, and the least current that it holds",
        },
        value(
            "trigger",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "for a part that snaps back: the voltage it turns on at",
        ),
        value(
            "turn_on",
            &[slot("time", TURN_ON, Need::Required)],
            "for a part that snaps back: the time constant of its turning on; default 0",
        ),
        value(
            "negative",
            &[slot("voltage", VOLTAGE, Need::Required)],
            "where it conducts in the other polarity, without a sign; default 0.7 V; not of a bidirectional part",
        ),
        RowSchema {
            word: "breakdown",
            form: CLAMP,
            repeats: false,
            doc: "where its curve begins, below the clamp voltage; default current 0",
        },
        RowSchema {
            word: "clamp",
            form: CLAMP,
            repeats: false,
            doc: "a point of its curve under a 100 ns pulse: `clamp 8.5 V at 16 A`",
        },
        value(
            "dynamic_resistance",
            &[slot("resistance", RESISTANCE, Need::Required)],
            "slope of that curve above the point",
        ),
        value("contact", &[slot("voltage", VOLTAGE, Need::Required)], "rated contact discharge, IEC 61000-4-2"),
        value("air", &[slot("voltage", VOLTAGE, Need::Required)], "rated air discharge, IEC 61000-4-2"),
        value("surge", &[slot("current", CURRENT, Need::Required)], "rated 8/20 µs surge current"),
        RowSchema {
            word: "surge_clamp",
            form: CLAMP,
            repeats: false,
            doc: "a point of its curve under an 8/20 µs surge",
        },
        RowSchema {
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
        value("channels", &[slot("channels", CHANNELS, Need::Required)], "channels of a package"),
        line("package", Form::Name, "package"),
        RowSchema { repeats: true, ..line("qualified", Form::Name, "a qualification; may be given several times") },
        value("cost", &[slot("cost", COST, Need::Required)], "cost of a package, in no currency"),
    ],
};

const CLAMP: Form = Form::Arguments {
    slots: &[slot("voltage", VOLTAGE, Need::Required)],
    named: &[named("at", Shape::Value(CURRENT), "the current it is stated at")],
};

const fn material(word: &'static str, slots: &'static [Slot], doc: &'static str) -> RowSchema {
    RowSchema { word, form: Form::Arguments { slots, named: &[TOGETHER_WORD] }, repeats: false, doc }
}

/// A board material.
pub static LAMINATE: BlockSchema = BlockSchema {
    name: "laminate",
    lines: &[
        line("permittivity", Form::ValueAt(PERMITTIVITY), "relative permittivity"),
        line("loss_tangent", Form::ValueAt(LOSS_TANGENT), "loss tangent"),
        material("copper", &[slot("thickness", SIZE, Need::Required).varies()], "thickness of the copper"),
        material(
            "resistivity",
            &[slot("resistivity", RESISTIVITY, Need::Required).varies()],
            "of the copper; default 17.2 nohm*m",
        ),
        material(
            "roughness",
            &[slot("height", ROUGHNESS, Need::Required).varies()],
            "rms height of the copper's roughness",
        ),
        RowSchema {
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
