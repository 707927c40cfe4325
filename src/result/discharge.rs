//! The keys of what a discharge leaves at the chip.

use super::keys::{Keyed, Keys};
use crate::transient::{
    Contact, Discharged, LineDischarge, PartInSurge, PartOutcome, PinOutcome, StruckPart, SurgeOutcome,
};

/// A discharge of a line that is computed.
pub(super) struct Left<'a> {
    contact: Option<&'a Contact>,
    surge: Option<&'a SurgeOutcome>,
    clamps: bool,
}

impl<'a> Left<'a> {
    /// `None` where neither the contact discharge nor the surge is computed.
    pub(super) fn of(discharge: &'a LineDischarge) -> Option<Left<'a>> {
        let contact = discharge.contact.as_ref().and_then(|contact| contact.as_ref().ok());
        let surge = discharge.surge.as_ref().and_then(|surge| surge.as_ref().ok());
        let clamps = discharge.chip.clamp.is_some();
        (contact.is_some() || surge.is_some()).then_some(Left { contact, surge, clamps })
    }
}

impl Keyed for Left<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let contact = this.and_then(|this| this.contact);
        let clamps = this.is_some_and(|this| this.clamps);
        let one = |of: fn(&Contact) -> &Discharged| contact.map(|contact| One { of: of(contact), contact, clamps });
        let positive = one(|contact| &contact.positive);
        to.number("level_v", positive.as_ref().map(|one| one.of.level.0));
        to.number("worst_level_v", positive.as_ref().map(|one| one.of.worst_level.0));
        to.number("turns_on_from_v", positive.as_ref().and_then(|one| one.of.turns_on_from).map(|v| v.0));
        to.object("pin", positive.as_ref().map(One::pin).as_ref());
        to.object("worst", positive.as_ref().map(One::worst).as_ref());
        to.list("parts", positive.as_ref().map(One::parts));
        to.object("negative", one(|contact| &contact.negative).as_ref());
        to.object("surge", this.and_then(|this| this.surge));
    }
}

/// One polarity.
struct One<'a> {
    of: &'a Discharged,
    contact: &'a Contact,
    clamps: bool,
}

impl<'a> One<'a> {
    fn pin(&self) -> Pin<'a> {
        Pin { pin: &self.of.stated.outcome.pin, clamps: self.clamps }
    }

    fn worst(&self) -> Pin<'a> {
        Pin { pin: &self.of.worst.outcome.pin, clamps: self.clamps }
    }

    fn parts(&self) -> impl Iterator<Item = Struck<'a>> + use<'a> {
        self.contact.parts.iter().zip(&self.of.stated.outcome.parts).map(|(part, seen)| Struck { part, seen })
    }
}

/// Of the negative polarity; the level and the protector are told above it.
impl Keyed for One<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.object("pin", this.map(One::pin).as_ref());
        to.number("worst_level_v", this.map(|one| one.of.worst_level.0));
        to.object("worst", this.map(One::worst).as_ref());
        to.list("parts", this.map(One::parts));
    }
}

/// What the pin sees; the currents where it has a clamp.
struct Pin<'a> {
    pin: &'a PinOutcome,
    clamps: bool,
}

impl Keyed for Pin<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let pin = this.map(|this| this.pin);
        let into = this.filter(|this| this.clamps).map(|this| this.pin);
        to.number("peak_v", pin.map(|pin| pin.peak.0));
        to.number("peak_at_s", pin.map(|pin| pin.peak_at.0));
        to.number("late_peak_v", pin.map(|pin| pin.late_peak.0));
        to.number("v30_v", pin.map(|pin| pin.plateau.0));
        to.number("peak_a", into.map(|pin| pin.peak_current.0));
        to.number("equivalent_a", into.map(|pin| pin.equivalent.0));
        to.number("energy_j", into.map(|pin| pin.energy.0));
    }
}

/// A part in a contact discharge.
struct Struck<'a> {
    part: &'a StruckPart,
    seen: &'a PartOutcome,
}

impl Keyed for Struck<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let seen = this.map(|this| this.seen);
        named(this.map(|this| this.part), to);
        to.number("on_at_s", seen.and_then(|seen| seen.on_at).map(|t| t.0));
        to.number("peak_a", this.filter(|this| this.part.has_peak).map(|this| this.seen.peak.0));
        to.number("energy_j", seen.map(|seen| seen.energy.0));
    }
}

fn named<K: Keys>(part: Option<&StruckPart>, to: &mut K) {
    to.text("part", part.map(|part| part.part.name.as_str()));
    to.count("element", part.and_then(|part| u32::try_from(part.element).ok()));
}

impl Keyed for SurgeOutcome {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("pin_peak_v", this.map(|surge| surge.pin_peak.0));
        to.number("pin_peak_a", this.and_then(|surge| surge.pin_peak_current).map(|i| i.0));
        to.list("parts", this.map(|surge| surge.parts.iter().map(|(part, seen)| Surged { part, seen })));
    }
}

/// A part in a surge.
struct Surged<'a> {
    part: &'a StruckPart,
    seen: &'a PartInSurge,
}

impl Keyed for Surged<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let seen = this.map(|this| this.seen);
        named(this.map(|this| this.part), to);
        to.number("on_at_s", seen.and_then(|seen| seen.on_at).map(|t| t.0));
        to.number("peak_a", seen.map(|seen| seen.peak.0));
        to.number("energy_j", seen.map(|seen| seen.energy.0));
        to.number("length_s", seen.map(|seen| seen.length.0));
    }
}
