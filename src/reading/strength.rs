//! What a part states of its strength, its package and cost.

use super::{Reader, name_line};
use crate::diag::Diagnostic;
use crate::model::{ClampPoint, Leakage, Strength};
use crate::units::{Ampere, Ohm, Volt};

/// The strength of a part.
pub(crate) fn lower(reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) -> Strength {
    let mut volt = |word: &str| reader.number(word, errors).map(|v| Volt(v.si));
    let (standoff, holding, trigger) = (volt("standoff"), volt("holding"), volt("trigger"));
    let (contact, air) = (volt("contact"), volt("air"));
    let qualified = reader.entries.lines("qualified");
    let qualified: Vec<_> = qualified.filter_map(|line| name_line(line, errors)).collect();
    Strength {
        standoff,
        holding,
        trigger,
        contact,
        air,
        clamp: clamp(reader, "clamp", errors),
        dynamic_resistance: reader.number("dynamic_resistance", errors).map(|v| Ohm(v.si)),
        surge: reader.number("surge", errors).map(|v| Ampere(v.si)),
        surge_clamp: clamp(reader, "surge_clamp", errors),
        leakage: reader.line("leakage", errors).and_then(|values| {
            Some(Leakage { current: Ampere(values.number("current")?.si), at: values.number("at").map(|v| Volt(v.si)) })
        }),
        temperature: reader.temperature(errors),
        channels: reader.whole("channels", errors),
        package: reader.name("package", errors),
        qualified: qualified.into_iter().map(|text| text.text.to_owned()).collect(),
        cost: reader.number("cost", errors).map(|v| v.si),
    }
}

/// `V at A`.
fn clamp(reader: &Reader<'_, '_, '_>, word: &str, errors: &mut Vec<Diagnostic>) -> Option<ClampPoint> {
    let values = reader.line(word, errors)?;
    let voltage = values.number("voltage")?;
    let Some(current) = values.number("at") else {
        errors.push(
            Diagnostic::error("missing-condition", voltage.span, format!("`{word}` states a voltage at a current"))
                .help(format!("write e.g. `{word} 8.5 V at 16 A`")),
        );
        return None;
    };
    Some(ClampPoint { voltage: Volt(voltage.si), current: Ampere(current.si) })
}
