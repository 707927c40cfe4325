//! Lanes as results.

use super::keys::Keys;
use super::line::{LineResult, Note};
use super::outcome::Kind;
use super::remarks::{LineRemarks, stated};
use crate::budget::{Fault, Figures, LaneOutcome, size_lane};
use crate::diag::Sources;
use crate::figures::WORST_EYE_PENALTY;
use crate::model::{Head, Lane, LaneLimit, Modulation};
use crate::parts::{Checks, Duty, checks};
use crate::response::CLOSED;
use crate::units::{Baud, Ohm};

/// A lane.
pub type LaneResult = LineResult<LaneAbout, LaneOutcome>;

/// What is stated of a lane alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaneAbout {
    /// Line code.
    pub modulation: Modulation,
    /// Symbol rate.
    pub symbol_rate: Baud,
    /// Reference impedance as stated.
    pub reference: Ohm,
    /// Whether it is a pair.
    pub differential: bool,
    /// Whether the driver is at the outer end, or else the receiver.
    pub driver_is_outer: bool,
}

impl LaneAbout {
    /// What is at the outer end.
    pub fn outer_end(&self) -> &'static str {
        if self.driver_is_outer { "driver" } else { "receiver" }
    }
}

impl Kind for LaneResult {
    fn stated<K: Keys>(this: Option<&Self>, to: &mut K) {
        let about = this.map(|lane| &lane.about);
        to.text("modulation", about.map(|lane| lane.modulation.word()));
        to.number("symbol_rate_bd", about.map(|lane| lane.symbol_rate.0));
        to.number("nyquist_hz", about.map(|lane| lane.symbol_rate.nyquist().0));
        to.number("reference_ohm", about.map(|lane| lane.reference.0));
        to.flag("differential", about.map(|lane| lane.differential));
        to.text("port_plane", this.map(|lane| lane.outcome.reference_plane.to_string()).as_deref());
        to.text("outer_end", about.map(LaneAbout::outer_end));
    }
}

/// Sizes a lane.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub(super) fn size(head: &Head, lane: &Lane, figures: Figures, sources: &Sources) -> Result<LaneResult, Fault> {
    let outcome = size_lane(lane, figures)?;
    let protector = lane.path.protector();
    let named = protector.and_then(|p| Some((p.part.as_ref()?, p.across)));
    let checked = named.map_or_else(Checks::default, |(part, across)| checks(&Duty::of_lane(head, lane, across), part));
    let remarks = LineRemarks { part: named.map(|(part, _)| part), checked, found: findings(lane, &outcome) };
    Ok(LineResult {
        head: remarks.head(head, sources),
        about: LaneAbout {
            modulation: lane.modulation,
            symbol_rate: lane.symbol_rate,
            reference: lane.reference,
            differential: lane.differential,
            driver_is_outer: lane.path.driver_is_outer(),
        },
        limits: stated(&lane.limits, sources),
        outcome,
    })
}

/// What only the computed figures tell.
fn findings(lane: &Lane, outcome: &LaneOutcome) -> Vec<Note> {
    let mut notes = Vec::new();
    let mut note = |code, text: String| notes.push(Note { code, text, line: None });
    if let Some(height) = outcome.sized.absent.time.eye_height.filter(|height| *height < CLOSED) {
        let closed =
            format!("the worst-pattern eye is closed before the protector (height {height:.4} of the ideal eye)");
        let word = WORST_EYE_PENALTY.word();
        let limited = lane.limits.iter().any(|limit| matches!(limit.of, LaneLimit::WorstEyePenalty(_)));
        let so = if limited { format!("no capacitance keeps {word}") } else { "no penalty is given".to_owned() };
        note("eye-closed", format!("{closed}: {so}"));
    }
    if let Some(fault) = outcome.not_settled {
        note("not-settled", format!("{fault}: left out"));
    }
    notes
}
