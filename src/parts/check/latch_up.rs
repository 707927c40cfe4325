//! Whether a part that snapped back turns off again.

use super::{Check, Verdict};
use crate::model::Part;
use crate::parts::{Duty, Supply};
use crate::units::engineering;

const NAME: &str = "latch-up";

/// A part that snapped back stays on where its line supplies the holding current at the holding voltage. It turns off where
/// it holds above the line's highest direct voltage, or where the line supplies less at the voltage it holds at.
pub(super) fn latch_up(duty: &Duty, part: &Part) -> Option<Check> {
    if duty.supply == Supply::Blocked || !part.snaps_back() {
        return None;
    }
    let holding = part.strength.holding.map(|v| v.0);
    let (Some(high), Some(holding)) = (highest(duty, part), holding) else {
        let required = highest(duty, part);
        let why = match required {
            None => duty.no_voltage(part),
            Some(_) => "the part states no `holding`",
        };
        return Some(Check::open(NAME, required, holding, "V").because(why));
    };
    let held = Check::at_least(NAME, high, Some(holding), "V");
    if holding > high {
        return Some(held);
    }
    let least = part.strength.holding_current.map(|i| i.0);
    let fails =
        |why: String| Check { verdict: Verdict::Fails, ..held.clone() }.because(format!("could stay on: {why}"));
    let behind = match duty.supply {
        Supply::Through(_) => {
            format!(", from {} behind {}", engineering(high, "V"), engineering(loop_resistance(duty, part), "ohm"))
        }
        _ => String::new(),
    };
    let supplied =
        |current| format!("the line supplies {} at {}{behind}", engineering(current, "A"), engineering(holding, "V"));
    let current = match duty.supply {
        Supply::Rail(None) => {
            let why = "a rail that states no `current` is taken to supply more than any part holds at";
            return Some(fails(why.to_owned()));
        }
        Supply::Rail(Some(current)) if least.is_none() => {
            return Some(fails(format!("{}, and the part states no holding current", supplied(current.0))));
        }
        Supply::Bias(None) | Supply::Unknown(_) => {
            let why =
                if let Supply::Unknown(why) = duty.supply { why } else { "the feed states no `current` of its bias" };
            return Some(Check::open(NAME, None, least, "A").because(format!("could stay on: {why}")));
        }
        Supply::Rail(Some(current)) | Supply::Bias(Some(current)) => current.0,
        Supply::Through(_) => (high - holding) / loop_resistance(duty, part),
        Supply::Blocked => 0.0,
    };
    if current <= 0.0 {
        return Some(held);
    }
    let mut check = Check::at_least(NAME, current, least, "A");
    if least == Some(current) {
        check.verdict = Verdict::Fails;
    }
    let stays = if check.verdict == Verdict::Passes { "" } else { "could stay on: " };
    Some(check.because(format!("{stays}{}", supplied(current))))
}

/// The resistance in ohm that a line supplies the part through: of both lines for a part across the pair alone.
fn loop_resistance(duty: &Duty, part: &Part) -> f64 {
    let lines = if duty.is_across_alone(part) { 2.0 } else { 1.0 };
    match duty.supply {
        Supply::Through(resistance) => lines * resistance.0,
        _ => 0.0,
    }
}

/// The highest direct voltage the part sees, without the peak of a feed's power; either way round for a part that conducts
/// alike in both directions or stands off below ground, and across a pair.
fn highest(duty: &Duty, part: &Part) -> Option<f64> {
    let range = duty.seen_by(part)?;
    let either = duty.is_across_alone(part) || part.works_both_ways();
    Some(if either { range.magnitudes().high.0 } else { range.high.0 })
}
