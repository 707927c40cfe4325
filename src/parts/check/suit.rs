//! Temperature, qualification, package and channels.

use super::Check;
use crate::model::Part;
use crate::parts::Duty;

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

/// Channels of one package.
pub(super) fn channels(duty: &Duty, part: &Part) -> Option<Check> {
    let needed = f64::from(duty.demands.needs.channels?);
    Some(Check::at_least("channels", needed, part.strength.channels.map(f64::from), ""))
}
