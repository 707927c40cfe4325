//! Discharges in words.

use super::named::named;
use crate::model::{Part, Polarity};
use crate::transient::{
    Contact, Discharged, LineDischarge, NEGATIVE, Outcome, Sign, StruckPart, Surge, SurgeOutcome, misses_clamp,
};
use crate::units::Volt;

/// A surge as it is stated.
pub(crate) fn surge(surge: Surge) -> String {
    match surge {
        Surge::Current(current) => format!("surge of {current} (8/20 us)"),
        Surge::Voltage(volts, through) => format!("surge of {volts} through {through} (1.2/50 us)"),
    }
}

/// A level from a search, which is known to 1 %.
pub(crate) fn found(level: Volt) -> String {
    format!("{level:.3}")
}

/// What is to be said of a contact discharge beside its numbers.
pub(crate) fn contact_facts(line: &LineDischarge, contact: &Contact) -> Vec<String> {
    let mut facts = vec![conducts_from(contact)];
    for (sign, of) in contact.both() {
        facts.extend(no_part(contact, sign, of));
        facts.extend(worse_below(line, sign, of));
    }
    if line.chip.clamp.is_none() {
        facts.push(
            "The chip states no `clamps`: it is taken to draw no current, and its voltage alone is told.".to_owned(),
        );
    }
    let without_peak = |part: &&StruckPart| {
        let place = contact.parts.iter().position(|other| std::ptr::eq(other, *part));
        let on = |of: &Discharged| place.and_then(|k| of.stated.outcome.parts.get(k)?.on_at).is_some();
        !part.has_peak && (on(&contact.positive) || on(&contact.negative))
    };
    facts.extend(contact.parts.iter().filter(without_peak).map(|part| {
        format!(
            "The highest current of {} has no value: nothing slows it as it snaps back; state an `inductance` or `turn_on`.",
            named(&part.part.name)
        )
    }));
    facts
}

/// From which level on the protector conducts.
fn conducts_from(contact: &Contact) -> String {
    let level = contact.positive.level;
    let Some(protector) = contact.parts.iter().find(|part| part.protects) else {
        return "The protector lies outward of the struck plane and is not met.".to_owned();
    };
    let name = format!(" {}", named(&protector.part.name));
    let from = |of: &Discharged| of.turns_on_from.map(found);
    match (from(&contact.positive), from(&contact.negative)) {
        (None, None) => format!("The protector{name} does not conduct up to {level}, in either polarity."),
        (Some(positive), None) => {
            format!(
                "The protector{name} conducts from a discharge of {positive} on in the positive polarity; up to {level} not in the negative one."
            )
        }
        (None, Some(negative)) => {
            format!(
                "The protector{name} conducts from a discharge of {negative} on in the negative polarity; up to {level} not in the positive one."
            )
        }
        (Some(positive), Some(negative)) if positive == negative => {
            format!("The protector{name} conducts from a discharge of {positive} on, in both polarities.")
        }
        (Some(positive), Some(negative)) => format!(
            "The protector{name} conducts from a discharge of {positive} on in the positive polarity, of {negative} in the negative one."
        ),
    }
}

/// That nothing on the way to the chip conducts.
fn no_part(contact: &Contact, sign: Sign, of: &Discharged) -> Option<String> {
    let conducts = of.stated.outcome.parts.iter().any(|part| part.on_at.is_some());
    let parts = match contact.parts.len() {
        0 => return None,
        1 => "The part does not conduct".to_owned(),
        2 => "Neither of the two parts conducts".to_owned(),
        count => format!("None of the {count} parts conducts"),
    };
    let said = format!("{parts} at {} in the {} polarity: all of it goes on to the chip.", of.level, sign.word());
    (!conducts).then_some(said)
}

/// That a weaker discharge leaves more.
fn worse_below(line: &LineDischarge, sign: Sign, of: &Discharged) -> Option<String> {
    let worse = |outcome: &Outcome| match line.chip.clamp {
        Some(_) => outcome.pin.equivalent.0,
        None => outcome.pin.peak.0,
    };
    let weaker = of.worst_level < of.level && worse(&of.worst.outcome) > worse(&of.stated.outcome);
    let why = match of.turns_on_from {
        Some(from) if of.worst_level < from => ": it is too weak for the protector to conduct",
        _ => "",
    };
    let (worst, sign) = (found(of.worst_level), sign.word());
    let more = match line.chip.clamp {
        Some(_) => "puts more current into the chip than",
        None => "brings the pin to a higher voltage than",
    };
    weaker.then(|| format!("In the {sign} polarity a discharge of {worst} {more} one of {}{why}.", of.level))
}

/// What a surge leaves at the pin.
pub(crate) fn surge_fact(stated: Surge, outcome: &SurgeOutcome) -> String {
    let current = outcome.pin_peak_current.map_or(String::new(), |i| format!(" and {i:.3} into the chip"));
    let conducts = outcome.parts.iter().any(|(_, part)| part.on_at.is_some());
    let none = if conducts { "" } else { "; no part conducts" };
    let stated = surge(stated);
    format!("A positive {stated} leaves {:.3} at the pin{current}{none}.", outcome.pin_peak)
}

/// What is taken where nothing is stated.
pub(crate) fn assumed(line: &LineDischarge, parts: &[StruckPart]) -> Vec<String> {
    let mut assumed = Vec::new();
    let mut seen: Vec<&Part> = Vec::new();
    for part in parts.iter().map(|part| &*part.part) {
        if seen.contains(&part) {
            continue;
        }
        seen.push(part);
        let (strength, name) = (&part.strength, named(&part.name));
        if let (Some(volts), Some(point)) = (misses_clamp(part), strength.clamp) {
            assumed.push(format!(
                "{name} has {volts:.3} at {} and not the {} of its `clamp`: its `resistance`, `dynamic_resistance` and stand-off \
                 do not go through that point",
                point.current, point.voltage
            ));
        }
        if strength.holding.is_some() && strength.holding_current.is_none() {
            assumed.push(format!("{name} lets go where its current is back at 0 A: no holding current is stated"));
        }
        let junction = matches!(part.polarity, Some(Polarity::Unidirectional | Polarity::Rails(_)));
        if junction && strength.negative.is_none() {
            assumed.push(format!("{name} conducts from {NEGATIVE} in the negative polarity: no `negative` is stated"));
        }
    }
    if line.chip.clamp.is_some() && line.chip.negative.is_none() {
        assumed.push(format!("the chip conducts from {NEGATIVE} in the negative polarity: no `negative` is stated"));
    }
    assumed
}
