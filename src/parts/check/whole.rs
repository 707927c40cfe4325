//! The checks of a whole line: of its part, of the guards in its path, and of what a discharge leaves.

use super::{Check, Checks, Verdict, checks, discharged, exposure, surged, voltage};
use crate::model::{Element, Guard, Part, Path};
use crate::parts::Duty;
use crate::transient::LineDischarge;

/// What is fitted to a line beside what it asks for.
#[derive(Debug, Clone, Copy, Default)]
pub struct Fitted<'a> {
    /// The part, where one is named.
    pub part: Option<&'a Part>,
    /// The path, where there is one: its guards are checked.
    pub path: Option<&'a Path>,
    /// What a discharge leaves with them, where that is computed.
    pub discharge: Option<&'a LineDischarge>,
}

/// Every check that the line asks for: those of [`checks`], those of its guards, and in the place of the estimates of
/// residuals those of the computed discharge, where there is one.
///
/// # Validity
/// As [`checks`]: no check is a proof of immunity.
pub fn line_checks(duty: &Duty, fitted: Fitted<'_>) -> Checks {
    let Fitted { part, path, discharge } = fitted;
    let mut found = part.map(|part| checks(duty, part)).unwrap_or_default();
    if let Some(discharge) = discharge {
        // Each goes in front of what is there behind the ratings: the surge comes last.
        surged::judge(&mut found, &duty.demands, part, discharge);
        discharged::judge(&mut found, &duty.demands, part, discharge);
    }
    let inward = path.map_or(&[][..], |path| path.elements.get(path.port_plane_index()..).unwrap_or_default());
    for place in inward {
        if let Element::Guard(guard) = &place.element {
            found.checks.extend(of_guard(duty, guard, place.number, discharge));
        }
    }
    found
}

/// Whether a check fails that no computed discharge can put right.
pub(crate) fn fails_already(found: &Checks) -> bool {
    let estimated = |check: &Check| {
        discharged::ESTIMATES.contains(&check.check) || [surged::ESTIMATE, "rating surge"].contains(&check.check)
    };
    found.checks.iter().any(|check| check.verdict == Verdict::Fails && !estimated(check))
}

/// The ratings of a further part in the path.
fn of_guard<'a>(
    duty: &Duty,
    guard: &'a Guard,
    element: usize,
    discharge: Option<&LineDischarge>,
) -> impl Iterator<Item = Check> + use<'a> {
    let part = &guard.part;
    let mut duty = duty.clone();
    duty.footprint.across = guard.across;
    let surge = discharge.and_then(|discharge| discharge.surge.as_ref()?.as_ref().ok());
    let own = surge.and_then(|surge| surge.parts.iter().find(|(part, _)| part.element == element));
    let computed = own.and_then(|(part, carried)| surged::rating(part, carried, &duty.demands));
    let ratings = [exposure::contact(&duty, part), exposure::air(&duty, part)];
    let surge = computed.or_else(|| exposure::surge(&duty, part));
    let against_ground = ratings.into_iter().chain([surge]);
    let against_ground = against_ground.map(|check| Some(exposure::against_ground(&duty, part, check?)));
    let all: Vec<Check> = std::iter::once(voltage::stand_off(&duty, part)).chain(against_ground).flatten().collect();
    all.into_iter().map(|check| Check { part: Some(part.name.clone()), ..check })
}
