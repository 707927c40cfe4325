//! What a discharge leaves, under keys.

use super::keys::{Keyed, Keys};
use crate::transient::{Contact, Discharged, LineDischarge, PartInSurge, PartOutcome, PinOutcome, StruckPart};
use crate::transient::{Settled, SurgeOutcome};
use crate::units::{Ampere, Joule, Second};

/// All but `negative` is of the positive polarity; without a value where nothing is asked, or too little is stated.
impl Keyed for LineDischarge {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let contact = this.and_then(LineDischarge::struck);
        let surge = this.and_then(LineDischarge::surged);
        let clamped = this.is_some_and(|line| line.chip.clamp.is_some());
        let positive = contact.map(|contact| Polarity { contact, of: &contact.positive, clamped });
        to.number("level_v", contact.map(|contact| contact.positive.level.0));
        to.number("worst_level_v", contact.map(|contact| contact.positive.worst_level.0));
        to.number("turns_on_from_v", contact.and_then(|contact| contact.positive.turns_on_from).map(|level| level.0));
        to.object("pin", positive.as_ref().map(|polarity| polarity.pin(&polarity.of.stated)).as_ref());
        to.object("worst", positive.as_ref().map(|polarity| polarity.pin(&polarity.of.worst)).as_ref());
        to.list("parts", positive.as_ref().map(Polarity::parts));
        let negative = contact.map(|contact| Polarity { contact, of: &contact.negative, clamped });
        to.object("negative", negative.as_ref());
        to.object("surge", surge);
    }
}

/// A contact discharge of one polarity.
struct Polarity<'a> {
    contact: &'a Contact,
    of: &'a Discharged,
    /// Whether a clamp of the chip is stated.
    clamped: bool,
}

impl<'a> Polarity<'a> {
    fn pin(&self, settled: &Settled) -> Pin {
        Pin { outcome: settled.outcome.pin, clamped: self.clamped }
    }

    fn parts(&self) -> impl Iterator<Item = Part<'a>> + use<'a> {
        self.contact.parts.iter().zip(&self.of.stated.outcome.parts).map(|(part, outcome)| Part::struck(part, outcome))
    }
}

impl Keyed for Polarity<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.object("pin", this.map(|polarity| polarity.pin(&polarity.of.stated)).as_ref());
        to.number("worst_level_v", this.map(|polarity| polarity.of.worst_level.0));
        to.object("worst", this.map(|polarity| polarity.pin(&polarity.of.worst)).as_ref());
        to.list("parts", this.map(Polarity::parts));
    }
}

/// What the pin sees; without currents and energy where no clamp takes any.
struct Pin {
    outcome: PinOutcome,
    clamped: bool,
}

impl Keyed for Pin {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let seen = this.map(|pin| pin.outcome);
        let taken = this.filter(|pin| pin.clamped).map(|pin| pin.outcome);
        to.number("peak_v", seen.map(|pin| pin.peak.0));
        to.number("peak_at_s", seen.map(|pin| pin.peak_at.0));
        to.number("late_peak_v", seen.map(|pin| pin.late_peak.0));
        to.number("v30_v", seen.map(|pin| pin.plateau.0));
        to.number("peak_a", taken.map(|pin| pin.peak_current.0));
        to.number("equivalent_a", taken.map(|pin| pin.equivalent.0));
        to.number("energy_j", taken.map(|pin| pin.energy.0));
    }
}

/// The peak current of a part; `None` where nothing slows it as it snaps back, so that its current then has no value.
pub(crate) fn peak_of(part: &StruckPart, outcome: &PartOutcome) -> Option<Ampere> {
    Some(outcome.peak).filter(|_| part.has_peak || outcome.on_at.is_none())
}

/// A part of the struck path.
struct Part<'a> {
    part: &'a StruckPart,
    on_at: Option<Second>,
    peak: Option<Ampere>,
    energy: Joule,
}

impl<'a> Part<'a> {
    fn struck(part: &'a StruckPart, outcome: &PartOutcome) -> Part<'a> {
        Part { part, on_at: outcome.on_at, peak: peak_of(part, outcome), energy: outcome.energy }
    }

    fn surged((part, outcome): &'a (StruckPart, PartInSurge)) -> Part<'a> {
        Part { part, on_at: outcome.on_at, peak: Some(outcome.peak), energy: outcome.energy }
    }
}

impl Keyed for Part<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("part", this.map(|part| part.part.part.name.as_str()));
        to.count("element", this.and_then(|part| u32::try_from(part.part.element).ok()));
        to.number("on_at_s", this.and_then(|part| part.on_at).map(|t| t.0));
        to.number("peak_a", this.and_then(|part| part.peak).map(|i| i.0));
        to.number("energy_j", this.map(|part| part.energy.0));
    }
}

impl Keyed for SurgeOutcome {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("pin_peak_v", this.map(|surge| surge.pin_peak.0));
        to.number("pin_peak_a", this.and_then(|surge| surge.pin_peak_current).map(|i| i.0));
        to.list("parts", this.map(|surge| surge.parts.iter().map(Part::surged)));
    }
}
