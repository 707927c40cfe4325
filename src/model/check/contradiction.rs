//! What a part states of its stand-off and of what else it says.

use super::strength::CurveFlaw;
use crate::model::{Part, Polarity};
use crate::units::Volt;

/// How far below ground a junction to ground may be driven in work.
pub const BELOW_GROUND: Volt = Volt(-0.3);

impl Part {
    /// What contradicts itself of its stand-off and its holding voltage, the first of it.
    ///
    /// A part neither turns on nor breaks down within its stand-off; one that snaps back clamps at no less than it holds at;
    /// a junction to ground, and one to either rail, has no stand-off below −0.3 V.
    pub fn contradiction(&self) -> Option<CurveFlaw> {
        let strength = &self.strength;
        let flaw = |code, word, other, message: String, help| {
            Some(CurveFlaw { code, word, other: Some(other), message, help })
        };
        if let Some((trigger, standoff)) = below(strength.trigger, strength.standoff) {
            let message = format!("this part turns on at {trigger}, below the {standoff} it stands off");
            let help = "a part turns on above its stand-off; check both in the data sheet";
            return flaw("trigger-below-standoff", "trigger", "standoff", message, help);
        }
        let breakdown = strength.breakdown.map(|point| point.voltage);
        if let Some((breakdown, standoff)) = below(breakdown, strength.standoff) {
            let message = format!("this part breaks down at {breakdown}, below the {standoff} it stands off");
            let help = "the breakdown lies above the stand-off; check both in the data sheet";
            return flaw("breakdown-below-standoff", "breakdown", "standoff", message, help);
        }
        for (word, point) in [("clamp", strength.clamp), ("surge_clamp", strength.surge_clamp)] {
            if let Some((clamp, holding)) = below(point.map(|point| point.voltage), strength.holding) {
                let message = format!("this part clamps at {clamp}, below the {holding} it holds at");
                let help = "the voltage rises with the current: `holding` is the least voltage of a part that is on";
                return flaw("clamp-below-holding", word, "holding", message, help);
            }
        }
        let word = match self.polarity {
            Some(Polarity::Unidirectional) => "unidirectional",
            Some(Polarity::Rails(_)) => "rails",
            Some(Polarity::Bidirectional) | None => return None,
        };
        let (low, _) = below(strength.standoff_low, Some(BELOW_GROUND))?;
        let message = format!("this part states `{word}` and stands off {low}, where a junction to ground conducts");
        let help = "state `bidirectional`, or a stand-off from 0 V";
        flaw("standoff-below-ground", "standoff", word, message, help)
    }
}

/// Both, where the first is below the second.
fn below(a: Option<Volt>, b: Option<Volt>) -> Option<(Volt, Volt)> {
    a.zip(b).filter(|(a, b)| a.0 < b.0)
}
