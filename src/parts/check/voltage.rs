//! Working voltage and polarity.

use super::{Check, Verdict};
use crate::model::{BELOW_GROUND, Note, Part, Polarity};
use crate::parts::Duty;

/// The line's range, a feed's peak included, within the part's working range: from a stated lowest voltage, else from
/// − stand-off of a bidirectional part, else from −0.3 V, up to the stand-off (the supply, for rail diodes). The tighter
/// end is shown. Across the pair the largest magnitude counts: the part may be put in either way round. A line that states
/// no voltage leaves open what is asked of a part that says what it bears.
pub(super) fn stand_off(duty: &Duty, part: &Part) -> Option<Check> {
    let (ceiling, floor) = (part.working_voltage().map(|v| v.0), part.strength.standoff_low.map(|v| v.0));
    if duty.is_across_alone(part) {
        let ceiling = ceiling.map(|ceiling| floor.map_or(ceiling, |floor| ceiling.min(-floor)));
        let Some(pair) = duty.pair_voltage else {
            return unknown(duty, part, ceiling);
        };
        let check = at_least(pair.magnitudes().high.0, ceiling);
        return Some(check.because("across the pair the part sees the voltage between the two lines"));
    }
    let Some((low, high)) = duty.extent() else {
        return unknown(duty, part, ceiling);
    };
    if part.polarity == Some(Polarity::Bidirectional) && floor.is_none() {
        return Some(at_least(low.abs().max(high.abs()), ceiling));
    }
    let upper = at_least(high, ceiling);
    if low >= 0.0 {
        return Some(upper);
    }
    let mut lower = Check::at_most("stand-off", low, Some(floor.unwrap_or(BELOW_GROUND.0)), "V");
    if lower.verdict == Verdict::Fails && floor.is_none() {
        lower = lower.because("the line goes below ground, where a junction to ground conducts");
    }
    let tighter = match (upper.verdict, lower.verdict) {
        (Verdict::Fails, Verdict::Passes) => upper,
        (Verdict::Passes | Verdict::NotStated, Verdict::Fails) => lower,
        (Verdict::NotStated, _) => upper,
        _ if lower.margin < upper.margin => lower,
        _ => upper,
    };
    Some(tighter)
}

/// A stand-off against a voltage that is not stated.
fn unknown(duty: &Duty, part: &Part, available: Option<f64>) -> Option<Check> {
    let asked = duty.direct && (duty.compared || part.bounds_voltage());
    asked.then(|| Check::open("stand-off", None, available, "V").because(duty.no_voltage(part)))
}

fn at_least(required: f64, available: Option<f64>) -> Check {
    Check::at_least("stand-off", required, available, "V")
}

/// A line that goes below ground, or says so, needs a part that conducts alike in both directions, or one that states a
/// lowest working voltage. So does a pair of a part across it.
pub(super) fn polarity(duty: &Duty, part: &Part) -> Option<Check> {
    let reverses = duty.seen_by(part).is_some_and(|range| range.low.0 < 0.0) && part.strength.standoff_low.is_none();
    let across = duty.is_across_alone(part);
    (duty.demands.needs.bidirectional || reverses)
        .then(|| Check::words("polarity", part.polarity.map(|p| p == Polarity::Bidirectional)))
        .map(|check| match (reverses, across) {
            (true, true) => check.because("the voltage between the two lines of the pair changes its sign"),
            (true, false) => check.because("the line goes below ground"),
            _ => check.because("a bidirectional part is asked for"),
        })
}

/// Of a part stated to ground and across the pair the stand-off is that to ground: a voltage between the two lines above it
/// is held against nothing.
pub(super) fn between_lines(duty: &Duty, part: &Part) -> Option<Note> {
    part.to_ground.and(part.across).filter(|_| duty.differential)?;
    let (most, standoff) = (duty.pair_voltage?.magnitudes().high, part.working_voltage()?);
    (most > standoff).then(|| Note {
        code: "pair-voltage-not-held",
        text: format!(
            "the part is stated to ground and across the pair: the voltage between the two lines, up to {most}, is not held \
             against its stand-off of {standoff}"
        ),
        span: Some(part.span),
    })
}
