//! Temperature, qualification, package and channels.

use super::Check;
use crate::model::{Note, Part};
use crate::parts::Duty;
use crate::units::engineering;

/// The part's range must contain the line's; the end with less room counts.
pub(super) fn temperature(duty: &Duty, part: &Part) -> Option<Check> {
    let line = duty.demands.temperature?;
    let range = part.strength.temperature;
    let check = match range {
        None => Check::at_least("temperature", line.high, None, "degC"),
        Some(range) if line.low - range.low < range.high - line.high => {
            Check::at_most("temperature", line.low, Some(range.low), "degC")
        }
        Some(range) => Check::at_least("temperature", line.high, Some(range.high), "degC"),
    };
    Some(Check { ends: [Some(line), range].map(|range| range.map(|range| (range.low, range.high))), ..check })
}

/// One check for each qualification needed. A part that does not state it does not have it.
pub(super) fn qualification(duty: &Duty, part: &Part) -> impl Iterator<Item = Check> {
    duty.demands.needs.qualified.iter().map(|word| {
        let held = part.strength.qualified.contains(word);
        Check::words("qualification", Some(held)).because(format!("\"{word}\" is asked for"))
    })
}

/// The package by its name.
pub(super) fn package(duty: &Duty, part: &Part) -> Option<Check> {
    let needed = duty.demands.needs.package.as_ref()?;
    let stated = part.strength.package.as_ref();
    let check = Check::words("package", stated.map(|p| p == needed));
    Some(check.because(match stated {
        Some(stated) => format!("\"{needed}\" is asked for, the part has \"{stated}\""),
        None => format!("\"{needed}\" is asked for"),
    }))
}

/// Channels of one package: those asked for, and two for a pair that does not take one of each of two packages. A count
/// that is met leaves no margin.
pub(super) fn channels(duty: &Duty, part: &Part) -> Option<Check> {
    let pair = duty.differential && !part.is_across_alone();
    let asked = duty.demands.needs.channels;
    let needed = if pair && !part.is_taken_twice(true) { asked.max(Some(2)) } else { asked.or(pair.then_some(1)) };
    let check = Check::at_least("channels", f64::from(needed?), part.strength.channels.map(f64::from), "");
    Some(Check { margin: check.margin.filter(|margin| *margin < 0.0), ..check })
}

/// How far the two lines of a pair differ, where that is limited.
pub(super) fn mismatch(duty: &Duty, part: &Part) -> Option<Check> {
    let known = part.mismatch.is_some() || part.is_taken_twice(true) && part.spread.is_some();
    let check = || Check::words("mismatch", known.then_some(true));
    duty.conversion
        .then(|| check().because("mode conversion is limited, and how far the two lines differ is not stated"))
}

/// A part stated across a pair alone has no place on a single line.
pub(super) fn place(duty: &Duty, part: &Part) -> Option<Check> {
    let pair = duty.differential || duty.footprint.across;
    (part.is_across_alone() && !pair).then(|| {
        Check::words("place", Some(false)).because("the part is stated across a pair alone, and this is a single line")
    })
}

/// That a pair takes two packages, and how far they differ.
pub(super) fn two_packages(duty: &Duty, part: &Part) -> Option<Note> {
    let alone = duty.demands.needs.channels.unwrap_or(1) <= 1;
    let text = (alone && part.is_taken_twice(duty.differential))
        .then(|| format!("a pair takes two packages, {}", apart(part)))?;
    Some(Note { code: "two-packages", text, span: Some(part.span) })
}

/// How far two packages of a part differ.
pub(crate) fn apart(part: &Part) -> String {
    const UNKNOWN: &str = "how far these differ from package to package is not known: it states no typical value beside a \
                           maximum";
    match (part.spread, part.mismatch) {
        (Some(spread), None) => {
            format!("which differ by up to the part's whole spread: {} (estimate)", engineering(spread.0, "F"))
        }
        (Some(spread), Some(_)) => format!(
            "which differ by up to the part's whole spread of {} (estimate), or by its `mismatch` where that is more",
            engineering(spread.0, "F")
        ),
        (None, Some(_)) => format!("taken to differ by the part's `mismatch`; {UNKNOWN}"),
        (None, None) => UNKNOWN.to_owned(),
    }
}
