//! What the computed surge leaves at the pin and in the parts: an estimate, no proof of immunity.

use super::exposure::{CHARGE, STIFF};
use super::{Check, Checks, Verdict, discharged};
use crate::model::{Demands, Part};
use crate::transient::{LineDischarge, PartInSurge, Sign, StruckPart, SurgeOutcome};
use crate::units::{Ampere, Second, Volt, engineering};

/// The check that gives way to that of the computed surge.
pub(super) const ESTIMATE: &str = "residual surge";
const RATING: &str = "rating surge";
const CURRENT: &str = "pin surge current";
/// Longer than 8/20 µs by no more than this, a pulse counts as one.
const ALIKE: f64 = 1.02;
/// Within this share of a stated current, a part carries all of it.
const WHOLE: f64 = 1e-4;

/// Puts the checks of the surge in the place of the estimates where it is computed; else the estimates stay.
pub(super) fn judge(found: &mut Checks, demands: &Demands, part: Option<&Part>, discharge: &LineDischarge) {
    let withstands = demands.withstands_surge.or(demands.withstands);
    match &discharge.surge {
        None => return,
        Some(Err(why)) => {
            let asked = withstands.filter(|_| discharge.chip.is_stated() && part.is_some());
            let open = |withstands: Volt| Check::open("pin surge", Some(withstands.0), None, "V");
            let open = asked.map(|withstands| open(withstands).because(discharged::reason(why)));
            return discharged::insert(found, open.into_iter().collect());
        }
        Some(Ok(_)) => {}
    }
    if let Some(withstands) = withstands {
        found.checks.retain(|check| check.check != ESTIMATE);
        if let Some((share, sign, surge)) = greatest(discharge, |surge| surge.pin_peak.0) {
            let check = Check::at_most("pin surge", withstands.0, Some(surge.pin_peak.0), "V");
            let why = joined(beside(surge).into_iter().chain(at(share, sign)), "; ");
            discharged::insert(found, vec![Check { why, ..check }]);
        }
    }
    let into = |surge: &SurgeOutcome| surge.pin_peak_current.map_or(0.0, |current| current.0);
    if let Some((share, sign, surge)) = greatest(discharge, into).filter(|(.., surge)| into(surge) > 0.0) {
        let survives = discharge.chip.survives.map(|survives| survives.current.0);
        let (check, why) = match survives.filter(|survives| into(surge) > *survives) {
            Some(survives) => (
                Some(Check::at_most(CURRENT, survives, Some(into(surge)), "A")),
                "what the chip survives is of 100 ns, and a surge is longer",
            ),
            None => (
                withstands.is_none().then(|| Check::open(CURRENT, None, Some(into(surge)), "A")),
                "the surge drives a current into the chip's clamp, and the line does not state what the chip `withstands` in a \
                 `surge`; what it survives is of 100 ns",
            ),
        };
        let why = joined(std::iter::once(why.to_owned()).chain(at(share, sign)), "; ");
        discharged::insert(found, check.map(|check| Check { why, ..check }).into_iter().collect());
    }
    if let Some(slow) = discharge.surges().filter_map(|(.., surge)| surge.rings).max_by(|a, b| a.0.total_cmp(&b.0)) {
        let why = format!(
            "an inductance in front of a capacitance rings behind the last part that conducts, sqrt(L C) = {slow:.2}, and the \
             computed surge leaves both out"
        );
        let is_it = |check: &&mut Check| check.is_of_pin() && check.verdict == Verdict::Passes;
        found
            .checks
            .iter_mut()
            .filter(is_it)
            .for_each(|check| *check = discharged::open_check(check.clone()).because(&*why));
    }
    if let Some(rated) = worst_rating(discharge, demands, |part| part.protects)
        && let Some(check) = found.checks.iter_mut().find(|check| check.check == RATING && check.part.is_none())
    {
        *check = rated;
    }
}

/// The surge that leaves most of a figure, the stated positive one where others leave as much.
fn greatest(discharge: &LineDischarge, figure: impl Fn(&SurgeOutcome) -> f64) -> Option<(f64, Sign, &SurgeOutcome)> {
    let more = |found: Option<(f64, Sign, _)>, next: (f64, Sign, _)| match found {
        Some(found) if figure(found.2) >= figure(next.2) => Some(found),
        _ => Some(next),
    };
    discharge.surges().fold(None, more)
}

/// Which surge, where it is not the stated positive one.
fn at(share: f64, sign: Sign) -> Option<String> {
    let weaker = (share < 1.0).then(|| format!("at {:.0} % of the surge", 100.0 * share));
    let negative = (sign == Sign::Negative).then(|| "negative".to_owned());
    joined(weaker.into_iter().chain(negative), ", ")
}

/// What is said together; `None` where it is nothing.
fn joined(said: impl Iterator<Item = String>, between: &str) -> Option<String> {
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| said.join(between))
}

/// The rating of a part in the surge that leaves it least room.
pub(super) fn worst_rating(
    discharge: &LineDischarge,
    demands: &Demands,
    is_it: impl Fn(&StruckPart) -> bool,
) -> Option<Check> {
    let rated = |(share, sign, surge): (f64, Sign, &SurgeOutcome)| {
        let (own, carried) = surge.parts.iter().find(|(part, _)| is_it(part))?;
        let check = rating(own, carried, demands)?;
        let why = joined(check.why.iter().cloned().chain(at(share, sign)), "; ");
        Some(Check { why, ..check })
    };
    let room = |check: &Check| check.margin.unwrap_or(f64::INFINITY);
    discharge.surges().filter_map(rated).min_by(|a, b| room(a).total_cmp(&room(b)))
}

/// What the voltage at the pin does not show.
fn beside(surge: &SurgeOutcome) -> Option<String> {
    let into = surge.pin_peak_current.filter(|current| current.0 > 0.0);
    let into = into.map(|current| format!("{} into the chip's clamp", engineering(current.0, "A")));
    let short = surge.parts.iter().any(|(part, _)| part.part.strength.surge_clamp.is_none());
    let short = short.then(|| "a part states no `surge_clamp`: its `clamp` is taken, of the short pulse".to_owned());
    joined(into.into_iter().chain(short), "; ")
}

/// The current of a part in the surge against its 8/20 µs rating, which counts by the length of the part's own pulse:
/// √(17.4 µs/length), at most 1, the thermal limit of a pulse (from memory, an estimate). `None` where no rating is stated.
///
/// A generator of 2 ohm or less sends 8/20 µs into a short circuit, whatever its open voltage does.
fn rating(part: &StruckPart, carried: &PartInSurge, demands: &Demands) -> Option<Check> {
    let rated = part.part.strength.surge?.0;
    if carried.peak.0 <= 0.0 {
        let none = Check::at_least(RATING, 0.0, Some(rated), "A");
        return Some(none.because("none of the surge goes through the part"));
    }
    let long = carried.length.0 > ALIKE * CHARGE.0 && demands.surge_through.is_none_or(|z| z > STIFF);
    // What the computation leaves beside the path of a stated current is no relief.
    let all = demands.surge.filter(|_| demands.surge_through.is_none());
    let peak = all.filter(|all| carried.peak.0 > (1.0 - WHOLE) * all.0).unwrap_or(carried.peak);
    let share = if long { (CHARGE.0 / carried.length.0).sqrt() } else { 1.0 };
    let check = Check::at_least(RATING, peak.0, Some(rated * share), "A");
    Some(if long {
        check.because(format!(
            "the part's pulse is {} long, 8/20 us is 17.4 us: {} of the rated {} counts (an estimate)",
            Second((carried.length.0 * 1e7).round() / 1e7),
            engineering(rated * share, "A"),
            Ampere(rated)
        ))
    } else {
        check
    })
}
