//! What is assumed of a lane that does not state it.

use super::{DEFAULT_RISE_UI, Element, Lane, Note};
use crate::units::Second;
use crate::units::decimal::significant;

/// References from here on are more often those of pairs, in ohm.
const PAIR_REFERENCE: f64 = 75.0;

impl Lane {
    /// The defaults of its signal and of its path: an edge, unlimited taps, transparent couplings.
    pub fn assumed(&self) -> Vec<Note> {
        let mut assumed = Vec::new();
        for element in &self.path.elements {
            let mut add = |code, text| assumed.push(Note { code, text, span: Some(element.span) });
            match &element.element {
                Element::Driver(driver) if driver.rise.is_none() => {
                    let edge = Second(DEFAULT_RISE_UI / self.symbol_rate.0);
                    let text = format!(
                        "no rise time stated: {DEFAULT_RISE_UI} unit intervals, {edge} (common practice, no source)"
                    );
                    add("default-rise", text);
                }
                Element::Receiver(receiver) if receiver.dfe > 0 && receiver.dfe_limit.is_none() => add(
                    "default-dfe-limit",
                    "no limit of the feedback taps stated: each as large as its cursor".to_owned(),
                ),
                _ => {}
            }
        }
        for coupling in self.couplings().filter(|coupling| coupling.is_transparent()) {
            let (element, ui) = (&coupling.element, coupling.ui);
            let lasts = if ui.is_finite() {
                format!("{} of {} unit intervals", Second(ui / self.symbol_rate.0), significant(ui, 3))
            } else {
                "without end".to_owned()
            };
            let text = format!(
                "this {} passes no direct current and is transparent to coded data: a time constant {lasts}, at least {} \
                 (common practice, no source)",
                element.element.word(),
                super::TRANSPARENT_UI
            );
            assumed.push(Note { code: "default-coupling-transparent", text, span: Some(element.span) });
        }
        assumed
    }

    /// What is noted of a lane that is taken as single-ended at a reference that is more often one of a pair.
    pub fn single_ended_note(&self) -> Option<Note> {
        let said = || {
            let words = format!("`reference {} ohm differential`", significant(self.reference.0, 4));
            format!("a reference of {} without `differential`: single-ended; of a pair write {words}", self.reference)
        };
        let doubtful = !self.differential && self.reference.0 >= PAIR_REFERENCE;
        doubtful.then(|| Note { code: "default-single-ended", text: said(), span: None })
    }
}
