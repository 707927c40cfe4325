//! The checks of a whole line: of its part, of the guards in its path, and of what a discharge leaves.

use super::{Check, Checks, Verdict, checks, discharged, exposure, latch_up, residual, surged, voltage};
use crate::model::{Element, Guard, Line, Part, Path};
use crate::parts::Duty;
use crate::transient::{LineDischarge, StruckPart};

/// What is fitted to a line beside what it asks for.
#[derive(Debug, Clone, Copy, Default)]
pub struct Fitted<'a> {
    /// The part, where one is named.
    pub part: Option<&'a Part>,
    /// The path, where there is one: its guards are checked.
    pub path: Option<&'a Path>,
    /// What a discharge leaves with them, where that is computed.
    pub discharge: Option<&'a LineDischarge>,
    /// Whether it was left out though the line may ask for it.
    pub left_out: bool,
}

/// Every check that the line asks for: those of [`checks`], those of its guards, and in the place of the estimates of
/// residuals those of the computed discharge, where there is one.
///
/// # Validity
/// As [`checks`]: no check is a proof of immunity.
pub fn line_checks(duty: &Duty, fitted: Fitted<'_>) -> Checks {
    let Fitted { part, path, discharge, left_out } = fitted;
    let mut found = part.map(|part| checks(duty, part)).unwrap_or_default();
    let place = path.and_then(Path::protector);
    let is_fitted = part.is_some() || place.is_some_and(|place| place.fitted.is_some());
    if let Some(discharge) = discharge {
        // Each goes in front of what is there behind the ratings: the surge comes last.
        surged::judge(&mut found, &duty.demands, part, discharge);
        discharged::judge(&mut found, duty, is_fitted, discharge);
    } else if let Some(chip) =
        path.and_then(Path::inner_chip).filter(|_| left_out && is_fitted && duty.demands.contact.is_some())
    {
        let open = discharged::open(&duty.demands, chip, "the discharge is not computed");
        discharged::insert(&mut found, open.into_iter().collect());
    }
    if is_fitted && path.and_then(Path::inner_chip).is_some_and(|chip| chip.survives.is_some()) {
        residual::caution_of_air(&mut found.cautions, &duty.demands);
    }
    for (path, (index, place)) in
        path.into_iter().flat_map(|path| path.elements.iter().enumerate().map(move |at| (path, at)))
    {
        if let Element::Guard(guard) = &place.element {
            let duty = duty.of_guard(path, index, guard.across);
            let struck = index >= path.port_plane_index();
            found.checks.extend(of_guard(&duty, guard, place.number, discharge, struck));
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

/// The checks that a computed discharge decides and no other, of those in [`line_checks`]: of the pin, and of what the surge
/// asks of each part.
pub(crate) fn discharge_checks(line: &Line, discharge: &LineDischarge) -> Vec<Check> {
    let (demands, part) = (&line.head.demands, line.part().map(AsRef::as_ref));
    let mut found = Checks::default();
    surged::judge(&mut found, demands, part, discharge);
    // What it meets and its voltage: a discharge asks no more of what a line asks of its part.
    discharged::judge(&mut found, &Duty::of(&line.head), part.is_some() || line.fitted().is_some(), discharge);
    let parts = discharge.surged().map_or(&[][..], |surge| &surge.parts);
    let rated = |own: &StruckPart| {
        let check = surged::worst_rating(discharge, demands, |part| part.element == own.element)?;
        Some(Check { part: (!own.protects).then(|| own.part.name.clone()), ..check })
    };
    found.checks.extend(parts.iter().filter_map(|(own, _)| rated(own)));
    found.checks
}

/// What a further part in the path must stand; the exposures where it lies inward of what is struck.
fn of_guard<'a>(
    duty: &Duty,
    guard: &'a Guard,
    element: usize,
    discharge: Option<&LineDischarge>,
    struck: bool,
) -> impl Iterator<Item = Check> + use<'a> {
    let part = &guard.part;
    let computed =
        discharge.and_then(|discharge| surged::worst_rating(discharge, &duty.demands, |part| part.element == element));
    let ratings = [exposure::contact(duty, part), exposure::air(duty, part)];
    let surge = computed.or_else(|| exposure::surge(duty, part));
    let against_ground = ratings.into_iter().chain([surge]).filter(|_| struck);
    let against_ground = against_ground.map(|check| Some(exposure::against_ground(duty, part, check?)));
    let in_work = [voltage::stand_off(duty, part), latch_up::latch_up(duty, part)];
    let all: Vec<Check> = in_work.into_iter().chain(against_ground).flatten().collect();
    all.into_iter().map(|check| Check { part: Some(part.name.clone()), ..check })
}
