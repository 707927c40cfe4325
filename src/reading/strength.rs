//! What a part states of its strength, its package and cost.

use super::reader::range;
use super::{Reader, name_line};
use crate::diag::{Diagnostic, Span};
use crate::figures::{SIGNED_VOLTAGE, VOLTAGE};
use crate::model::{ClampPoint, Leakage, Strength};
use crate::sheet::ast::ArgumentKind;
use crate::units::{Ampere, Ohm, Second, Volt};

/// The strength of a part.
pub(crate) fn lower(reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) -> Strength {
    let mut volt = |word: &str| reader.number(word, errors).map(|v| Volt(v.si));
    let (trigger, negative) = (volt("trigger"), volt("negative"));
    let (contact, air) = (volt("contact"), volt("air"));
    let turn_on = reader.number("turn_on", errors).map(|v| Second(v.si));
    let holding = reader.line("holding", errors);
    let holds = |name: &str| holding.as_ref().and_then(|values| values.number(name)).map(|v| v.si);
    let qualified = reader.entries.lines("qualified");
    let qualified: Vec<_> = qualified.filter_map(|line| name_line(line, errors)).collect();
    let standoff = standoff(reader, errors);
    let breakdown = breakdown(reader, errors);
    let mut clamp = |word| clamp(reader, word, breakdown, errors);
    let (clamp, surge_clamp) = (clamp("clamp"), clamp("surge_clamp"));
    let strength = Strength {
        standoff: standoff.map(|(_, high)| high),
        standoff_low: standoff.and_then(|(low, _)| low),
        holding: holds("voltage").map(Volt),
        holding_current: holds("at").map(Ampere),
        trigger,
        turn_on,
        negative,
        contact,
        air,
        breakdown: breakdown.map(|(point, _)| point),
        clamp,
        dynamic_resistance: reader.number("dynamic_resistance", errors).map(|v| Ohm(v.si)),
        surge: reader.number("surge", errors).map(|v| Ampere(v.si)),
        surge_clamp,
        leakage: reader.line("leakage", errors).and_then(|values| {
            Some(Leakage { current: Ampere(values.number("current")?.si), at: values.number("at").map(|v| Volt(v.si)) })
        }),
        temperature: reader.temperature(errors),
        channels: reader.whole("channels", errors),
        package: reader.name("package", errors),
        qualified: qualified.into_iter().map(|text| text.text.to_owned()).collect(),
        cost: reader.number("cost", errors).map(|v| v.si),
    };
    check_curve(&strength, reader, errors);
    strength
}

/// What the rows of a part say against each other.
fn check_curve(strength: &Strength, reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) {
    let span = |word: &str| reader.entries.line(word).map(|row| row.span);
    let Some(flaw) = strength.curve_flaw() else { return };
    // A row that could not be read has an error of its own.
    let unread = ["trigger", "holding"].into_iter().zip([strength.trigger, strength.holding]);
    if unread.into_iter().any(|(word, value)| value.is_none() && reader.entries.may_hold(word)) {
        return;
    }
    let Some(at) = span(flaw.word) else { return };
    let mut error = Diagnostic::error(flaw.code, at, flaw.message);
    if let Some(other) = flaw.other.and_then(span) {
        error = error.also(other, "the other value");
    }
    errors.push(error.help(flaw.help));
}

/// `V`, or `V to V` where the lowest working voltage is stated too: low ≤ 0 ≤ high.
fn standoff(reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) -> Option<(Option<Volt>, Volt)> {
    let line = reader.entries.line("standoff")?;
    if !line.arguments.iter().any(|argument| matches!(argument.kind, ArgumentKind::Word("to"))) {
        return Some((None, Volt(range(line, VOLTAGE, errors)?.1)));
    }
    let (low, high) = range(line, SIGNED_VOLTAGE, errors)?;
    if low > 0.0 || high < 0.0 {
        errors.push(
            Diagnostic::error("standoff-range", line.span, "a stand-off reaches from 0 V or below to 0 V or above")
                .help("write e.g. `standoff -7 V to 12 V`, or `standoff 12 V`"),
        );
        return None;
    }
    Some((Some(Volt(low)), Volt(high)))
}

/// `V [at A]`.
fn breakdown(reader: &Reader<'_, '_, '_>, errors: &mut Vec<Diagnostic>) -> Option<(ClampPoint, Span)> {
    let values = reader.line("breakdown", errors)?;
    let (voltage, current) = (values.number("voltage")?, values.number("at").map_or(0.0, |v| v.si));
    Some((ClampPoint { voltage: Volt(voltage.si), current: Ampere(current) }, voltage.span))
}

/// `V at A`, above the breakdown.
fn clamp(
    reader: &Reader<'_, '_, '_>,
    word: &str,
    breakdown: Option<(ClampPoint, Span)>,
    errors: &mut Vec<Diagnostic>,
) -> Option<ClampPoint> {
    let values = reader.line(word, errors)?;
    let voltage = values.number("voltage")?;
    let Some(current) = values.number("at") else {
        errors.push(
            Diagnostic::error("missing-condition", voltage.span, format!("`{word}` states a voltage at a current"))
                .help(format!("write e.g. `{word} 8.5 V at 16 A`")),
        );
        return None;
    };
    if let Some((from, span)) = breakdown.filter(|(b, _)| b.voltage.0 >= voltage.si || b.current.0 >= current.si) {
        let what = if from.voltage.0 >= voltage.si { "voltage" } else { "current" };
        errors.push(
            Diagnostic::error(
                "breakdown-above-clamp",
                span,
                format!("the {what} of the breakdown is not below that of `{word}`"),
            )
            .also(voltage.span, "the clamp voltage")
            .help("a part that snaps back states `trigger` and `holding` in place of `breakdown`"),
        );
        return None;
    }
    Some(ClampPoint { voltage: Volt(voltage.si), current: Ampere(current.si) })
}
