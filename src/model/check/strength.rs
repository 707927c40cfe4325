//! A part's curve: what rises, and what of a snap-back belongs together.

use super::flaw::Place;
use super::values::Found;
use crate::figures::*;
use crate::model::Strength;
use crate::units::Volt;

/// What is wrong with the curve that a part states.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CurveFlaw {
    /// Stable identifier in kebab case.
    pub code: &'static str,
    /// The word at which it shows.
    pub word: &'static str,
    /// The other word that it contradicts, where there is one.
    pub other: Option<&'static str>,
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// What to do about it.
    pub help: &'static str,
}

impl Strength {
    /// What is wrong with the curve, the first of it.
    ///
    /// It rises: from the breakdown or the stand-off to the clamp point; of a part that snaps back the holding voltage, and
    /// V_clamp − R_dyn I_clamp where both are stated, lie below the trigger.
    pub fn curve_flaw(&self) -> Option<CurveFlaw> {
        let flaw = |code, word, other, message: String, help| Some(CurveFlaw { code, word, other, message, help });
        if self.turn_on.is_some() && (self.trigger.is_none() || self.holding.is_none()) {
            let missing = if self.trigger.is_none() { "trigger" } else { "holding" };
            let message = format!("`turn_on` is of a part that snaps back, and this one states no `{missing}`");
            let help = "state `trigger` and `holding`, or delete `turn_on`";
            return flaw("turn-on-without-trigger", "turn_on", None, message, help);
        }
        if let (Some(trigger), Some(holding)) = (self.trigger, self.holding)
            && holding.0 >= trigger.0
        {
            let message = format!("this part turns on at {trigger}, not above the {holding} it holds at");
            let help = "a part that snaps back turns on at a higher voltage than it holds at";
            return flaw("trigger-below-holding", "trigger", Some("holding"), message, help);
        }
        if let (Some(trigger), Some(_), Some(on)) = (self.trigger, self.holding, self.clamp_intercept())
            && on.0 >= trigger.0
        {
            let message =
                format!("the curve of this part begins at {on} at no current, not below its trigger of {trigger}");
            let help = "check `clamp` and `dynamic_resistance`: V - R I of the point is where the part holds";
            return flaw("falling-curve", "clamp", Some("trigger"), message, help);
        }
        for (word, point) in [("clamp", self.clamp), ("surge_clamp", self.surge_clamp)] {
            let Some(point) = point else { continue };
            if let Some(from) =
                self.breakdown.filter(|b| b.voltage.0 >= point.voltage.0 || b.current.0 >= point.current.0)
            {
                let what = if from.voltage.0 >= point.voltage.0 { "voltage" } else { "current" };
                let message = format!("the {what} of the breakdown is not below that of `{word}`");
                let help = "a part that snaps back states `trigger` and `holding` in place of `breakdown`";
                return flaw("breakdown-above-clamp", "breakdown", Some(word), message, help);
            }
            let snaps_back = self.holding.is_some() || self.trigger.is_some();
            if let Some(standoff) = self.standoff.filter(|v| !snaps_back && v.0 >= point.voltage.0) {
                let message =
                    format!("this part stands off {standoff} and clamps at {}: its curve falls", point.voltage);
                let help =
                    "a part that snaps back states `trigger` and `holding`; any other clamps above its stand-off";
                return flaw("falling-curve", word, Some("standoff"), message, help);
            }
        }
        None
    }

    /// V_clamp − R_dyn I_clamp, where both are stated.
    fn clamp_intercept(&self) -> Option<Volt> {
        let (point, resistance) = (self.clamp?, self.dynamic_resistance?);
        Some(Volt(point.voltage.0 - resistance.0 * point.current.0))
    }
}

/// Holds the values of a part's curve against their ranges, and the curve against itself.
pub(super) fn check(strength: &Strength, at: Place, found: &mut Found) {
    let before = found.flaws.len();
    let points = [strength.breakdown, strength.clamp, strength.surge_clamp];
    let points = points.into_iter().flatten();
    let voltages = [strength.holding, strength.trigger, strength.negative, strength.standoff].into_iter().flatten();
    for voltage in voltages.chain(points.clone().map(|point| point.voltage)) {
        found.within(at, "voltage", voltage.0, VOLTAGE);
    }
    for current in points.map(|point| point.current).chain(strength.holding_current) {
        found.derived(at, "current", current.0);
    }
    strength.dynamic_resistance.iter().for_each(|r| found.within(at, "dynamic_resistance", r.0, RESISTANCE));
    strength.turn_on.iter().for_each(|t| found.within(at, "turn_on", t.0, TURN_ON));
    if let Some(flaw) = strength.curve_flaw().filter(|_| found.flaws.len() == before) {
        found.cured(flaw.code, at, flaw.message, flaw.help);
    }
}
